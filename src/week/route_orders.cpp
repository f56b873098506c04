// SPDX-License-Identifier: MIT
#include "turnwright/week/route_orders.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <set>

#include "names.hpp"
#include "turnwright/compare/compare.hpp"
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
    case BandRowId::outside_work:
    case BandRowId::one_offs:
    case BandRowId::scrap:
      break;
  }
  return false;
}

class OrderRouter {
 public:
  OrderRouter(const Week& week, const Shop& shop, const PartReader& part)
      : week_(week), shop_(shop), part_(part) {
    for (const WeekMachine& m : week.machines)
      if (!week.is_manned(m)) unmanned_.push_back(m.name);
  }

  RoutedOrders routed() {
    for (std::size_t i = 0; i < week_.orders.size(); ++i) {
      if (!week_.orders[i].hold.empty()) continue;
      if (auto routes = routes_of(i))
        out_.routes.push_back(std::move(*routes));
      else
        leave_out(i);
    }
    return std::move(out_);
  }

 private:
  // The methods that the shop practises for an order, by machine of the shop.
  using ByMachine = std::map<std::string, std::vector<MethodResult>>;
  using Names = std::vector<std::string>;

  void leave_out(std::size_t i) {
    const WeekOrder& order = week_.orders[i];
    LeftOut left{order.number, order.due, {}, named_};
    for (const Problem& problem : why_) left.why.push_back(reason_in(order, problem));
    out_.refused.push_back(i);
    out_.left_out.push_back(std::move(left));
  }
  // With its place, where that is not the order's own.
  Message reason_in(const WeekOrder& order, const Problem& problem) const {
    const std::string& own = order.row ? order.row->file : week_.file;
    if (problem.file == own) return problem.what;
    return placed_reason(problem);
  }
  std::optional<Job> job_of(const WeekOrder& order) {
    const Checked<Part> read = part_(week_, order);
    // Said once, however many orders there are of it.
    if (!read) {
      why_ = read.problems();
      named_ = false;
      return refused(said_.insert(order.part).second ? why_ : Problems());
    }
    Part asked = *read;
    asked.quantities = {order.lot_quantity()};
    asked.repeat =
        asked.repeat || order.repeat || order.done > 0 || order.state == OrderState::running;
    auto job = prepare(asked, shop_);
    if (!job) {
      named_ = false;
      return refused(job.problems());
    }
    return std::move(*job);
  }
  std::nullopt_t refused(const Problems& problems) {
    if (!problems.empty()) why_ = problems;
    out_.problems.insert(out_.problems.end(), problems.begin(), problems.end());
    return std::nullopt;
  }
  ByMachine methods_of(const Job& job) const {
    ByMachine methods;
    for (const WeekMachine& m : week_.machines)
      if (!methods.contains(m.machine))
        methods.emplace(m.machine, practised_methods(job, shop_, {m.machine, {}}));
    return methods;
  }
  // The cheapest on any machine of the week that the order may go to, or the one that it is bound
  // to; it decides how many operations there are.
  const MethodResult* leader_of(const ByMachine& methods, const WeekOrder& order,
                                const Names& bound) const {
    const MethodResult* leader = nullptr;
    const int quantity = order.lot_quantity();
    for (const auto& [machine, on] : methods) {
      if (!may_lead(order, machine, bound)) continue;
      const MethodResult* best = cheapest_practised(on, quantity);
      if (best != nullptr && (leader == nullptr || is_cheaper(*best, *leader, quantity)))
        leader = best;
    }
    return leader;
  }
  static bool is_cheaper(const MethodResult& a, const MethodResult& b, int quantity) {
    const HeldBack of_a = a.held_back_at(quantity), of_b = b.held_back_at(quantity);
    if (of_a != of_b) return of_a < of_b;
    return lot_cost(*a.quote, quantity) < lot_cost(*b.quote, quantity);
  }
  std::optional<OrderRoutes> routes_of(std::size_t i) {
    const WeekOrder& order = week_.orders[i];
    named_ = true;
    const auto job = job_of(order);
    if (!job) return std::nullopt;
    OrderRoutes routes;
    routes.order = i;
    const ByMachine methods = methods_of(*job);
    Names bound = bound_of(order);
    const MethodResult* leader = leader_of(methods, order, bound);
    const bool runs = order.state == OrderState::running;
    if (leader == nullptr && !bound.empty() && (runs || bound == Names{order.runs_on})) {
      leader = leader_of(methods, order, {});
      if (leader != nullptr && runs)
        out_.problems.push_back(runs_where_not_made(order, bound.front(), methods));
      bound.clear();
    }
    if (leader == nullptr) return refused({no_machine(order, methods, bound)});
    if (auto unknown = unknown_operation(order, leader->route()))
      return refused({std::move(*unknown)});
    const std::size_t operations = leader->route().operations.size();
    std::map<std::string, std::shared_ptr<const Quote>> quotes;  // by machine of the shop
    for (std::size_t m = 0; m < week_.machines.size(); ++m) {
      // Other machines stand in by a method of as many operations.
      const MethodResult* best = cheapest_practised(methods.at(week_.machines[m].machine),
                                                    order.lot_quantity(), operations);
      if (best == nullptr || !may_go_to(order, week_.machines[m])) continue;
      std::shared_ptr<const Quote>& quote = quotes[week_.machines[m].machine];
      if (!quote) quote = std::make_shared<const Quote>(*best->quote);
      if (best == leader) routes.leading = routes.on.size();
      routes.on.push_back(quote);
      routes.machines.push_back(static_cast<int>(m));
      routes.methods.push_back(best->name);
    }
    if (auto nowhere = nowhere_to_go(order, leader->route(), routes))
      return refused({std::move(*nowhere)});
    routes.day_late = shop_.policy.day_late;
    routes.change_of_plan = shop_.policy.change_of_plan;
    routes.common = {shop_.policy.common_error_of_times, shop_.policy.upward};
    routes.band = time_band(band_rows(*leader->quote, shop_, order.lot_quantity(), Amount(0.0)));
    return routes;
  }
  // An operation whose machines, as the planner wants them, do not make it.
  std::optional<Problem> nowhere_to_go(const WeekOrder& order, const Route& route,
                                       const OrderRoutes& routes) const {
    const auto made = [&](auto may) {
      return std::any_of(routes.machines.begin(), routes.machines.end(),
                         [&](int m) { return may(week_.machine(m).name); });
    };
    for (const Pin& pin : order.pins)
      if (!made([&](const std::string& name) { return !order.forbids(pin.operation, name); }))
        return problem_of(
            week_, order,
            {"week.pin-not-made", {{"order", order.number}, {"machine", pin.machines.front()}}});
    for (const Operation& operation : route.operations)
      if (!order.is_finished(operation.number) &&
          !made([&](const std::string& name) { return !order.forbids(operation.number, name); }))
        return problem_of(
            week_, order,
            {"week.operation-nowhere", {{"order", order.number}, {"operation", operation.number}}});
    return std::nullopt;
  }
  // Operations that are finished, or that the planner names, and that its plan does not have.
  std::optional<Problem> unknown_operation(const WeekOrder& order, const Route& route) const {
    std::vector<Message> known;
    for (const Operation& operation : route.operations)
      known.push_back(verbatim(std::to_string(operation.number)));
    std::vector<int> named;
    for (const Pin& pin : order.pins) named.push_back(pin.operation);
    for (const Forbidden& f : order.operations_not_on) named.push_back(f.operation);
    for (const Arrival& a : order.arrivals) named.push_back(a.operation);
    const auto of_none = [&](const std::vector<int>& numbers, const char* id) {
      std::optional<Problem> problem;
      for (const int n : numbers)
        if (!problem && std::none_of(route.operations.begin(), route.operations.end(),
                                     [&](const Operation& o) { return o.number == n; }))
          problem = problem_of(week_, order, {id, {{"order", order.number}, {"n", n}}},
                               {"week.operations-of-plan", {{"operations", known}}});
      return problem;
    };
    if (auto problem = of_none(order.finished, "week.finished-unknown")) return problem;
    return of_none(named, "week.operation-unknown");
  }
  // A machine of the shop: what is bound to one of the week goes by its method, and what is
  // forbidden leads nothing.
  bool may_lead(const WeekOrder& order, const std::string& machine, const Names& bound) const {
    return std::any_of(week_.machines.begin(), week_.machines.end(), [&](const WeekMachine& m) {
      return m.machine == machine && may_go_to(order, m) &&
             (bound.empty() || contains(bound, m.name));
    });
  }
  // Where the planner lets it go, and somebody is there to set it up and run it.
  bool may_go_to(const WeekOrder& order, const WeekMachine& machine) const {
    return !order.forbids(machine.name) && !contains(unmanned_, machine.name);
  }
  static Names bound_of(const WeekOrder& order) {
    if (!order.machine.empty()) return {order.machine};
    if (!order.runs_on.empty()) return {order.runs_on};
    return order.pins.empty() ? Names() : order.pins.front().machines;
  }
  // Each machine of the shop says its reason once, also where the week has two of it.
  Problem no_machine(const WeekOrder& order, const ByMachine& methods, const Names& bound) const {
    Messages reasons;
    std::vector<std::string> said;
    for (const WeekMachine& m : week_.machines) {
      if (!may_lead(order, m.machine, bound) ||
          std::find(said.begin(), said.end(), m.machine) != said.end())
        continue;
      said.push_back(m.machine);
      if (Message why = why_not(methods, m.machine); !why.empty())
        reasons.push_back(reason_of(m.machine, why));
    }
    for (const std::string& name : unmanned_)
      if (!order.forbids(name)) reasons.push_back({"week.nobody-mans", {{"machine", name}}});
    if (reasons.empty())
      return problem_of(week_, order, {"week.no-machine-left", {{"order", order.number}}});
    return problem_of(week_, order,
                      {"week.no-machine", {{"order", order.number}, {"reasons", reasons}}});
  }
  // What the first method of a machine fails at.
  static Message why_not(const ByMachine& methods, const std::string& machine) {
    for (const MethodResult& method : methods.at(machine))
      if (!method.feasible()) return method.quote.infeasible().why;
    return {};
  }
  // What runs on a machine that cannot make it, as the shop is described, stays in the plan.
  Problem runs_where_not_made(const WeekOrder& order, const std::string& bound,
                              const ByMachine& methods) const {
    const auto m = std::find_if(week_.machines.begin(), week_.machines.end(),
                                [&](const WeekMachine& machine) { return machine.name == bound; });
    Message why =
        order.forbids(bound) ? Message("week.machine-forbidden") : why_not(methods, m->machine);
    if (contains(unmanned_, bound)) why = {"week.nobody-mans", {{"machine", bound}}};
    if (why.empty()) why = "week.no-method-there";
    return problem_of(week_, order,
                      {"week.runs-where-not-made",
                       {{"order", order.number}, {"machine", bound}, {"why", std::move(why)}}});
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
  Names unmanned_;  // machines of the week
  RoutedOrders out_;
  std::set<std::string> said_;  // parts whose files are refused
  Problems why_;                // of the order that was refused last
  bool named_ = true;           // these name it
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
    BandRow own = row;
    own.of(SharedError::times) = 0;  // of the whole week, not of one lot
    sum += row.amount.si;
    wide += own.low().si;
  }
  return sum > 0 ? wide / sum : 0;
}

bool PlannedWeek::holds() const {
  return problems.empty() && plan.late.empty() && problem.shorts.empty() &&
         std::none_of(loads.begin(), loads.end(),
                      [](const MachineLoad& load) { return load.overloaded(); });
}

namespace {

// Orders that run, and neither the week nor what is booked or posted says where.
Problems running_nowhere(const Week& week, const WeekProblem& wp) {
  Problems problems;
  for (std::size_t j = 0; j < wp.orders.size(); ++j) {
    const WeekOrder& o = week.orders[wp.orders[j]];
    const PlannedOperation& first = wp.problem.operation(wp.problem.lots[j].operations.front());
    if (o.state != OrderState::running || !o.machine.empty() || !o.runs_on.empty() || first.runs)
      continue;
    Messages machines;
    for (const Choice& c : first.choices)
      machines.push_back(verbatim(week.machine(c.machine).name));
    problems.push_back(problem_of(week, o, {"week.running-nowhere", {{"order", o.number}}},
                                  {"week.machine-it-runs-on", {{"machines", machines}}}));
  }
  return problems;
}

}  // namespace

PlannedWeek planned_week(const Week& week, const Planning& planning) {
  RoutedOrders routed = route_orders(week, planning.shop, planning.part);
  PlannedWeek out;
  out.problems = std::move(routed.problems);
  out.refused = std::move(routed.refused);
  out.orders = static_cast<int>(routed.routes.size());
  if (routed.routes.empty()) return out;
  out.problem = week_problem(week, routed.routes);
  out.problem.left_out = std::move(routed.left_out);
  out.loads = infinite_load(week, out.problem);
  const PlanProblem& problem = out.problem.problem;
  const int moves = moves_for(problem, planning.effort);
  if (planning.posted == nullptr) {
    out.plan = plan_week(week, out.problem, moves, planning.threads, planning.like);
  } else {
    out.plan = plan_again(week, out.problem, *planning.posted, week.now + week.frozen, moves,
                          planning.threads, planning.like);
  }
  for (const DoubtfulBooking& doubt : out.problem.doubts)
    out.doubts.push_back(problem_of(week, week.orders[doubt.order], doubt.says));
  for (Problem& problem_found : running_nowhere(week, out.problem))
    out.problems.push_back(std::move(problem_found));
  return out;
}

}  // namespace turnwright
