// SPDX-License-Identifier: MIT
#include "turnwright/week/route_orders.hpp"

#include <algorithm>
#include <map>
#include <optional>

#include "turnwright/document/reader.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright {
namespace {

bool is_a_time(BandRowId row) {
  switch (row) {
    case BandRowId::setup_times:
    case BandRowId::cutting_speeds_and_feeds:
    case BandRowId::handling_times:
    case BandRowId::given_times:
      return true;
    case BandRowId::inserts:
    case BandRowId::material_price:
    case BandRowId::other_work:
      break;
  }
  return false;
}

class OrderRouter {
 public:
  OrderRouter(const Week& week, const Shop& shop, const PartReader& part)
      : week_(week), shop_(shop), part_(part) {}

  RoutedOrders routed() {
    for (std::size_t i = 0; i < week_.orders.size(); ++i)
      if (auto routes = routes_of(i)) out_.routes.push_back(std::move(*routes));
    return std::move(out_);
  }

 private:
  // An order's quote on a machine of the shop, or why there is none.
  using ByMachine = std::map<std::string, Planned<Quote>>;

  std::optional<Job> job_of(const WeekOrder& order) {
    const Checked<Part> read = part_(week_, order);
    if (!read) return refused(read.problems());
    Part asked = *read;
    asked.quantities = {order.quantity};
    asked.repeat = asked.repeat || order.state == OrderState::running;
    auto job = prepare(asked, shop_);
    if (!job) return refused(job.problems());
    return std::move(*job);
  }
  std::nullopt_t refused(const Problems& problems) {
    out_.problems.insert(out_.problems.end(), problems.begin(), problems.end());
    return std::nullopt;
  }
  const Planned<Quote>& quote_on(const std::string& machine, const Job& job, ByMachine& quotes) {
    const auto found = quotes.find(machine);
    if (found != quotes.end()) return found->second;
    const auto route = plan_route(job, shop_, {machine, MethodKind::rough_then_finish});
    return quotes
        .emplace(machine, route ? Planned<Quote>(make_quote(*route, shop_))
                                : Planned<Quote>(route.infeasible()))
        .first->second;
  }
  std::optional<OrderRoutes> routes_of(std::size_t i) {
    const WeekOrder& order = week_.orders[i];
    const auto job = job_of(order);
    if (!job) return std::nullopt;
    OrderRoutes routes;
    routes.order = i;
    ByMachine quotes;
    for (std::size_t m = 0; m < week_.machines.size(); ++m) {
      const Planned<Quote>& quote = quote_on(week_.machines[m].machine, *job, quotes);
      if (!quote) continue;
      // Other machines of as many operations stand in; the first decides how many.
      if (!routes.on.empty() &&
          quote->route.operations.size() != routes.on.front().route.operations.size())
        continue;
      routes.on.push_back(*quote);
      routes.machines.push_back(static_cast<int>(m));
    }
    if (routes.on.empty()) return refused({no_machine(order, quotes)});
    routes.band = time_band(band_rows(routes.on.front(), shop_, order.quantity));
    return routes;
  }
  // Each machine of the shop says its reason once, also where the week has two of it.
  Problem no_machine(const WeekOrder& order, const ByMachine& quotes) const {
    Messages reasons;
    std::vector<std::string> said;
    for (const WeekMachine& m : week_.machines) {
      if (std::find(said.begin(), said.end(), m.machine) != said.end()) continue;
      said.push_back(m.machine);
      reasons.push_back(reason_of(m.machine, quotes.at(m.machine).infeasible().why));
    }
    return problem_in(week_, order.at,
                      {"week.no-machine", {{"order", order.number}, {"reasons", reasons}}});
  }
  // The reason with the machine's name, unless it has it already.
  static Message reason_of(const std::string& machine, const Message& why) {
    const bool named = std::any_of(why.places.begin(), why.places.end(), [&](const Place& place) {
      const auto* text = std::get_if<std::string>(&place.value);
      return text != nullptr && *text == machine;
    });
    if (named) return why;
    return {"week.machine-refuses", {{"machine", machine}, {"why", why}}};
  }

  const Week& week_;
  const Shop& shop_;
  const PartReader& part_;
  RoutedOrders out_;
};

}  // namespace

Problems unknown_machines(const Week& week, const Shop& shop) {
  std::vector<std::string> names;
  for (const Machine& m : shop.machines) names.push_back(m.name);
  Problems problems;
  for (const WeekMachine& m : week.machines) {
    if (shop.machine(m.machine) != nullptr) continue;
    problems.push_back(problem_in(week, m.at, {"week.unknown-machine", {{"machine", m.machine}}},
                                  "week.machine-of-shop", nearest(m.machine, names)));
    problems.back().width = static_cast<int>(std::max<std::size_t>(characters(m.machine), 1));
  }
  return problems;
}

RoutedOrders route_orders(const Week& week, const Shop& shop, const PartReader& part) {
  return OrderRouter(week, shop, part).routed();
}

double time_band(const std::vector<BandRow>& rows) {
  double sum = 0, wide = 0;
  for (const BandRow& row : rows) {
    if (!is_a_time(row.row)) continue;
    sum += row.amount.si;
    wide += row.amount.si * row.band;
  }
  return sum > 0 ? wide / sum : 0;
}

bool PlannedWeek::holds() const {
  return problems.empty() && plan.late.empty() &&
         std::none_of(loads.begin(), loads.end(),
                      [](const MachineLoad& load) { return load.overloaded(); });
}

PlannedWeek planned_week(const Week& week, const Planning& planning) {
  RoutedOrders routed = route_orders(week, planning.shop, planning.part);
  PlannedWeek out;
  out.problems = std::move(routed.problems);
  out.orders = static_cast<int>(routed.routes.size());
  if (routed.routes.empty()) return out;
  out.problem = week_problem(week, routed.routes);
  out.loads = infinite_load(week, out.problem);
  const PlanProblem& problem = out.problem.problem;
  if (planning.posted == nullptr) {
    out.plan = plan_week(week, out.problem, moves_for(problem), planning.threads);
    return out;
  }
  out.plan = plan_again(week, out.problem, *planning.posted, week.now + week.frozen,
                        moves_again(problem), planning.threads);
  out.changes = differences(week, out.problem, out.plan, *planning.posted);
  return out;
}

}  // namespace turnwright
