// SPDX-License-Identifier: MIT
#include "load_command.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <ostream>
#include <thread>
#include <utility>

#include "files.hpp"
#include "print.hpp"
#include "request_files.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright::cli {
namespace {

// The day on which something ends.
Date day_of(const Week& week, Minute t) { return days_after(week.from, (t - 1) / minutes_a_day); }

class LoadCommand {
 public:
  LoadCommand(const Options& o, const Streams& s, Shop shop)
      : o_(o), s_(s), shop_(std::move(shop)) {}

  Exit run() {
    const auto week = week_in(o_.operands[0]);
    return week ? planned(*week) : Exit::input_wrong;
  }
  Exit promise() {
    auto week = week_in(o_.operands[0]);
    if (!week) return Exit::input_wrong;
    const auto quantity = read_number(o_.operands[2]);
    if (!quantity || *quantity < 1 || *quantity > 1e7 || *quantity != std::floor(*quantity)) {
      s_.err << "turnwright promise: found '" << o_.operands[2]
             << "'; expected a number of pieces\n";
      return Exit::input_wrong;
    }
    const auto promise = promised(*week, std::filesystem::absolute(o_.operands[1]).string(),
                                  static_cast<int>(*quantity));
    if (!promise) return Exit::input_wrong;
    s_.out << (o_.json ? promise_json(*week, *promise) : promise_text(*week, *promise));
    return promise->p80 == never ? Exit::answer_is_no : Exit::done;
  }
  // The week of a file, on machines that the shop has; its problems are said.
  std::optional<Week> week_in(const std::string& path) {
    const auto week = read_week(path, read_file(path));
    if (!week) {
      print(week.problems(), s_.err);
      return std::nullopt;
    }
    if (!machines_known(*week)) return std::nullopt;
    return *week;
  }
  // The week gets the quote as its last order.
  std::optional<Promise> promised(Week& week, const std::string& part, int quantity) {
    Order asked;
    asked.number = "the quote";
    asked.part = part;
    asked.quantity = quantity;
    asked.release = week.now;
    asked.due = week.to;
    week.orders.push_back(std::move(asked));
    const std::vector<OrderRoutes> routes = all_routed(week);
    if (routes.empty() || routes.back().order + 1 != week.orders.size()) return std::nullopt;
    WeekProblem problem = week_problem(week, routes);
    const PlanProblem others = without_last(problem.problem);
    DispatchOrder list;
    if (o_.keep.empty()) {
      list = search_on(others, first_lists(others),
                       {.moves = moves_for(problem.problem), .threads = threads()});
    } else {
      const auto posted = read_posted(week);
      if (!posted) {
        print(posted.problems(), s_.err);
        return std::nullopt;
      }
      list = posted_list(week, problem, *posted);
      list.choices.resize(others.operations.size());
      std::erase(list.jobs, static_cast<int>(others.jobs.size()));
    }
    return promise_of(week, problem, list);
  }

  Exit actuals() {
    const auto week = week_in(o_.operands[0]);
    if (!week) return Exit::input_wrong;
    std::ifstream in = open_file(o_.operands[1]);
    TableReader reader(o_.operands[1], in);
    const Bookings bookings = read_bookings(reader);
    print(bookings.problems, s_.err);
    // Against the estimate as it is without earlier corrections, so that none is counted twice.
    shop_.corrections.clear();
    const std::vector<OrderRoutes> routes = all_routed(*week);
    const std::vector<Factor> factors = factors_of(bookings, estimates(*week, routes));
    if (factors.empty()) {
      s_.err << o_.operands[1] << ": no booking of an order of this week\n";
      return Exit::input_wrong;
    }
    s_.out << (o_.json ? actuals_json(factors, bookings)
                       : actuals_text(factors, bookings, repriced(*week, routes, factors)));
    if (!o_.output.empty()) {
      write_text(o_.output, corrections_file(factors, bookings.last));
      s_.err << "written: " << o_.output
             << ", a proposal: it holds once it stands in the shop folder\n";
    }
    return bookings.problems.empty() ? Exit::done : Exit::answer_is_no;
  }

 private:
  static std::vector<Estimated> estimates(const Week& week,
                                          const std::vector<OrderRoutes>& routes) {
    std::vector<Estimated> list;
    for (const OrderRoutes& order : routes)
      for (std::size_t i = 0; i < order.on.size(); ++i) {
        const Quote& quote = order.on[i];
        const WeekMachine& machine = week.machines[static_cast<std::size_t>(order.machines[i])];
        for (std::size_t k = 0; k < quote.route.operations.size(); ++k)
          list.push_back({week.orders[order.order].number, machine.name, machine.machine,
                          quote.route.operations[k].number,
                          in(quote.times.operations[k].setup, unit::min),
                          in(quote.times.operations[k].machine, unit::min)});
      }
    return list;
  }
  // The ten orders that the factors would move most.
  std::vector<Repriced> repriced(const Week& week, const std::vector<OrderRoutes>& routes,
                                 const std::vector<Factor>& factors) const {
    Shop corrected = shop_;
    for (const Factor& f : factors) {
      Correction c;
      c.machine = f.machine;
      c.setup = f.setup;
      c.factor = f.proposed;
      corrected.corrections.insert(corrected.corrections.begin(), c);
    }
    std::vector<Repriced> list;
    for (const OrderRoutes& order : routes) {
      const Quote& quote = order.on.front();
      const Price before = price_at(quote, shop_, week.orders[order.order].quantity);
      const Price after = price_at(make_quote(quote.route, corrected), corrected,
                                   week.orders[order.order].quantity);
      if (before.each != after.each)
        list.push_back({week.orders[order.order].number, before.each, after.each});
    }
    auto change = [](const Repriced& r) {
      return std::abs((r.after.amount() / r.before.amount()).si - 1);
    };
    std::stable_sort(list.begin(), list.end(),
                     [&](const Repriced& a, const Repriced& b) { return change(a) > change(b); });
    if (list.size() > 10) list.resize(10);
    return list;
  }
  int threads() const {
    return o_.jobs > 0 ? o_.jobs : static_cast<int>(std::thread::hardware_concurrency());
  }
  Exit planned(const Week& week) {
    const std::vector<OrderRoutes> routes = all_routed(week);
    const std::size_t refused = week.orders.size() - routes.size();
    if (refused > 0)
      s_.err << refused << " of " << week.orders.size() << " orders are not in this plan\n";
    if (routes.empty()) {
      s_.err << week.file << ": nothing to plan\n";
      return Exit::input_wrong;
    }
    WeekProblem problem = week_problem(week, routes);
    const std::vector<Load> loads = infinite_load(week, problem);
    WeekPlan plan;
    if (o_.keep.empty()) {
      plan = plan_week(week, problem, moves_for(problem.problem), threads());
    } else {
      const auto posted = read_posted(week);
      if (!posted) {
        print(posted.problems(), s_.err);
        return Exit::input_wrong;
      }
      plan = plan_again(week, problem, *posted, week.now + week.frozen,
                        moves_again(problem.problem), threads());
      s_.err << "OTHER THAN IN THE PLAN THAT HANGS\n";
      const auto lines = differences(week, problem, plan, *posted);
      for (const std::string& line : lines) s_.err << "  " << line << "\n";
      if (lines.empty()) s_.err << "  nothing by a day, and no machine\n";
    }
    put(week, problem, loads, plan);
    const bool overloaded = std::any_of(loads.begin(), loads.end(), [](const Load& load) {
      return load.sum_needed() > load.sum_there();
    });
    return refused > 0 || overloaded || !plan.late.empty() ? Exit::answer_is_no : Exit::done;
  }
  // The plan that hangs: a table as `load --output plan.csv` writes it.
  Checked<std::vector<PostedRun>> read_posted(const Week& week) const {
    std::ifstream in = open_file(o_.keep);
    TableReader reader(o_.keep, in);
    std::vector<PostedRun> posted;
    Problems problems;
    bool head = true;
    while (const auto row = reader.next()) {
      if (std::exchange(head, false)) continue;
      PostedRun run;
      const bool cells = row->problems.empty() && row->cells.size() >= 4;
      const auto operation = cells ? read_number(row->cells[2].text) : std::nullopt;
      run.from = cells ? read_moment(week, row->cells[3].text) : never;
      if (!operation || run.from == never) {
        problems.push_back({o_.keep,
                            {row->line, 1},
                            1,
                            "no line of a plan",
                            "machine, order, setup, make-ready from, as 'load --output plan.csv' "
                            "writes them",
                            "",
                            row->text});
        continue;
      }
      run.machine = row->cells[0].text;
      run.order = row->cells[1].text;
      run.operation = static_cast<int>(*operation);
      posted.push_back(std::move(run));
    }
    if (!problems.empty()) return problems;
    return posted;
  }
  void put(const Week& week, const WeekProblem& problem, const std::vector<Load>& loads,
           const WeekPlan& plan) {
    const std::string& to = o_.output;
    if (to.ends_with(".xlsx")) {
      write_whole(to, [&](const std::string& temporary) {
        write_week_workbook(week, problem, loads, plan, temporary);
        verify_workbook(temporary);
      });
      s_.err << "written: " << to << "\n";
      return;
    }
    const bool json = o_.json || to.ends_with(".json");
    const std::string text = to.ends_with(".html")  ? week_page(week, problem, loads, plan)
                             : to.ends_with(".csv") ? week_table(week, problem, plan)
                             : to.ends_with(".ics") ? week_calendar(week, problem, plan)
                             : json                 ? week_json(week, problem, loads, plan)
                                                    : week_text(week, problem, loads, plan);
    if (to.empty()) {
      s_.out << text;
      return;
    }
    write_text(to, text);
    s_.err << "written: " << to << "\n";
  }
  std::vector<OrderRoutes> all_routed(const Week& week) {
    std::vector<OrderRoutes> routes;
    for (std::size_t i = 0; i < week.orders.size(); ++i)
      if (auto route = routed(week, i)) routes.push_back(std::move(*route));
    return routes;
  }
  bool machines_known(const Week& week) {
    Problems problems;
    std::vector<std::string> names;
    for (const Machine& m : shop_.machines) names.push_back(m.name);
    for (const WeekMachine& m : week.machines)
      if (shop_.machine(m.machine) == nullptr) {
        Problem p;
        p.file = week.file;
        p.at = m.at;
        p.what = "the shop has no machine '" + m.machine + "'";
        p.expected = "a machine of the shop folder";
        p.suggestion = nearest(m.machine, names);
        problems.push_back(std::move(p));
      }
    print(problems, s_.err);
    return problems.empty();
  }
  // The order's part, read once for all orders of it.
  const Checked<Part>& part(const Week& week, const Order& order) {
    const auto found = parts_.find(order.part);
    if (found != parts_.end()) return found->second;
    return parts_.emplace(order.part, part_beside(week.file, order.part, order.at, "week").part)
        .first->second;
  }
  std::optional<OrderRoutes> routed(const Week& week, std::size_t i) {
    const Order& order = week.orders[i];
    const Checked<Part>& read = part(week, order);
    if (!read) {
      print(read.problems(), s_.err);
      return std::nullopt;
    }
    Part asked = *read;
    asked.quantities = {order.quantity};
    asked.repeat = asked.repeat || order.state == OrderState::running;
    const auto job = prepare(asked, shop_);
    if (!job) {
      print(job.problems(), s_.err);
      return std::nullopt;
    }
    OrderRoutes routes;
    routes.order = i;
    std::string why;
    for (std::size_t m = 0; m < week.machines.size(); ++m) {
      const Route route =
          plan_route(*job, shop_, {week.machines[m].machine, MethodKind::rough_then_finish});
      if (!route.feasible) {
        why += (why.empty() ? "" : "; ") + week.machines[m].name + ": " + route.why_not;
        continue;
      }
      // Other machines of as many operations stand in; the first decides how many.
      if (!routes.on.empty() &&
          route.operations.size() != routes.on.front().route.operations.size())
        continue;
      routes.on.push_back(make_quote(route, shop_));
      routes.machines.push_back(static_cast<int>(m));
    }
    if (!routes.on.empty()) {
      routes.band = band_of(routes.on.front(), order.quantity);
      return routes;
    }
    s_.err << week.file << ": order " << order.number
           << ": no machine of this week makes it: " << why << "\n";
    return std::nullopt;
  }

  // How far its times may be off: the bands of the rows that are times, by what they weigh.
  double band_of(const Quote& quote, int quantity) const {
    double sum = 0, wide = 0;
    for (const BandRow& row : band_rows(quote, shop_, quantity)) {
      if (!row.name.ends_with("times") && row.name != "cutting speeds and feeds") continue;
      sum += row.amount.si;
      wide += row.amount.si * row.band;
    }
    return sum > 0 ? wide / sum : 0;
  }

  const Options& o_;
  const Streams& s_;
  Shop shop_;
  std::map<std::string, Checked<Part>> parts_;
};

}  // namespace

Exit load_command(const Options& o, const Streams& s, const Shop& shop) {
  return LoadCommand(o, s, shop).run();
}
Exit actuals_command(const Options& o, const Streams& s, const Shop& shop) {
  return LoadCommand(o, s, shop).actuals();
}
Exit put_weeks(const Options& o, const Streams& s, const Shop& shop, Request& request) {
  LoadCommand command(o, s, shop);
  const auto week = command.week_in(o.week);
  if (!week) return Exit::input_wrong;
  const std::filesystem::path folder =
      std::filesystem::absolute(std::filesystem::path(request.file).parent_path());
  // Each part after those before it: the customer may order them all.
  Week with = *week;
  for (RequestItem& item : request.parts) {
    if (!item.week.empty()) continue;
    const int most = item.quantities.empty() ? 1 : item.quantities.back();
    const auto promise = command.promised(with, (folder / item.part).string(), most);
    if (!promise) return Exit::input_wrong;
    with.orders.back().number = "part " + std::to_string(with.orders.size()) + " of the request";
    if (promise->p80 == never) {
      s.err << item.part << ": no week within " << o.week << "\n";
      continue;
    }
    with.orders.back().due = day_of(*week, promise->p80);
    item.week = week_of(with.orders.back().due);
  }
  return Exit::done;
}
std::optional<std::string> delivery_of(const Options& o, const Streams& s, const Shop& shop,
                                       const std::string& part, const Job& job) {
  LoadCommand command(o, s, shop);
  auto week = command.week_in(o.week);
  if (!week) return std::nullopt;
  const int most = job.part.quantities.empty() ? 1 : job.part.quantities.back();
  const auto promise = command.promised(*week, std::filesystem::absolute(part).string(), most);
  if (!promise) return std::nullopt;
  if (promise->p80 == never) return std::to_string(most) + " not within " + o.week;
  return std::to_string(most) + " on " + text_of(day_of(*week, promise->p80)) +
         ", kept in 80 of 100 draws of all times; planned for " +
         text_of(day_of(*week, promise->planned));
}
Exit promise_command(const Options& o, const Streams& s, const Shop& shop) {
  return LoadCommand(o, s, shop).promise();
}

}  // namespace turnwright::cli
