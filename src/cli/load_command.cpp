// SPDX-License-Identifier: MIT
#include "load_command.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <ostream>
#include <thread>

#include "files.hpp"
#include "print.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

constexpr int usual_moves = 20000;

class LoadCommand {
 public:
  LoadCommand(const Options& o, const Streams& s, const Shop& shop) : o_(o), s_(s), shop_(shop) {}

  Exit run() {
    const std::string& path = o_.operands[0];
    const auto week = read_week(path, read_file(path));
    if (!week) {
      print(week.problems(), s_.err);
      return Exit::input_wrong;
    }
    if (!machines_known(*week)) return Exit::input_wrong;
    std::vector<OrderRoutes> routes;
    for (std::size_t i = 0; i < week->orders.size(); ++i)
      if (auto route = routed(*week, i)) routes.push_back(std::move(*route));
    const std::size_t refused = week->orders.size() - routes.size();
    if (refused > 0)
      s_.err << refused << " of " << week->orders.size() << " orders are not in this plan\n";
    if (routes.empty()) {
      s_.err << path << ": nothing to plan\n";
      return Exit::input_wrong;
    }
    const WeekProblem problem = week_problem(*week, routes);
    const std::vector<Load> loads = infinite_load(*week, problem);
    const int threads =
        o_.jobs > 0 ? o_.jobs : static_cast<int>(std::thread::hardware_concurrency());
    const WeekPlan plan = plan_week(*week, problem, usual_moves, threads);
    put(*week, problem, loads, plan);
    return refused > 0 || !plan.late.empty() ? Exit::answer_is_no : Exit::done;
  }

 private:
  void put(const Week& week, const WeekProblem& problem, const std::vector<Load>& loads,
           const WeekPlan& plan) {
    const std::string& to = o_.output;
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
    namespace fs = std::filesystem;
    const std::string path =
        (fs::path(week.file).parent_path() / order.part).lexically_normal().string();
    if (!exists(path) || is_folder(path)) {
      Problem p;
      p.file = week.file;
      p.at = order.at;
      p.what = "there is no part file '" + order.part + "'";
      p.expected = "a path from the folder of the week, as '" + path + "'";
      return parts_.emplace(order.part, Problems{p}).first->second;
    }
    return parts_.emplace(order.part, read_part(path, read_file(path))).first->second;
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
          plan_route(*job, shop_, {week.machines[m].machine, WayKind::rough_then_finish});
      if (!route.feasible) {
        why += (why.empty() ? "" : "; ") + week.machines[m].name + ": " + route.why_not;
        continue;
      }
      // Other machines of as many holdings stand in; the first decides how many.
      if (!routes.on.empty() && route.setups.size() != routes.on.front().route.setups.size())
        continue;
      routes.on.push_back(make_quote(route, shop_));
      routes.machines.push_back(static_cast<int>(m));
    }
    if (!routes.on.empty()) return routes;
    s_.err << week.file << ": order " << order.number
           << ": no machine of this week makes it: " << why << "\n";
    return std::nullopt;
  }

  const Options& o_;
  const Streams& s_;
  const Shop& shop_;
  std::map<std::string, Checked<Part>> parts_;
};

}  // namespace

Exit load_command(const Options& o, const Streams& s, const Shop& shop) {
  return LoadCommand(o, s, shop).run();
}

}  // namespace turnwright::cli
