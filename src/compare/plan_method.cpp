// SPDX-License-Identifier: MIT
#include "turnwright/compare/plan_method.hpp"

#include <algorithm>
#include <tuple>

#include "method_words.hpp"
#include "turnwright/shop/condition_word.hpp"

namespace turnwright {
namespace {

auto by_weight(const HeldBack& held) {
  return std::tie(held.practice, held.bending, held.ties, held.grades);
}

constexpr int any_lot = 1000000;

// Part, shop and plan as records make them; the shop is copied only where one changes it.
struct Applied {
  const Shop& base;
  Part part;
  std::optional<Shop> changed;
  PlanRequest request;

  const Shop& shop() const { return changed ? *changed : base; }
  Shop& own_shop() {
    if (!changed) changed = base;
    return *changed;
  }
};

// Why a record does not go with part or shop; nothing when it does.
using Refusal = std::optional<Infeasible>;

Infeasible refused(Message why, Messages remedies = {}) {
  return {std::move(why), std::move(remedies)};
}

// Tools whose edge is ground or clamped; drills, taps and the like stay what they are.
bool takes_grade(const Tool& tool) {
  switch (tool.kind) {
    case ToolKind::rough:
    case ToolKind::finish:
    case ToolKind::left_hand:
    case ToolKind::groove:
    case ToolKind::part_off:
    case ToolKind::bore:
    case ToolKind::inside_groove:
    case ToolKind::face_groove:
    case ToolKind::thread:
    case ToolKind::inside_thread:
      return true;
    default:
      return false;
  }
}

const CuttingGroup* group_of(const Part& part, const Shop& shop) {
  const Material* material = shop.material(part.material);
  return material != nullptr ? shop.cutting_group(material->group) : nullptr;
}

Refusal other_material(const Method& method, const Applied& in) {
  const auto& groups = method.groups;
  const CuttingGroup* group = group_of(in.part, in.shop());
  if (groups.empty() || group == nullptr ||
      std::find(groups.begin(), groups.end(), group->iso513) != groups.end())
    return std::nullopt;
  return refused(
      {"compare.other-material",
       {{"material", in.part.material}, {"group", group->iso513}, {"groups", verbatims(groups)}}});
}

Refusal set_tools(const Method& method, Applied& in) {
  if (method.tools.empty()) return std::nullopt;
  const CuttingGroup* group = group_of(in.part, in.shop());
  if (group == nullptr || std::none_of(group->rows.begin(), group->rows.end(),
                                       [&](const auto& r) { return r.grade == method.tools; }))
    return refused({"compare.no-speeds", {{"grade", method.tools}, {"material", in.part.material}}},
                   {"compare.add-rows"});
  for (Tool& tool : in.own_shop().tools) {
    if (!takes_grade(tool) || tool.grade == method.tools) continue;
    tool.grade = method.tools;
    if (method.edge_change.si > 0) tool.edge_change = method.edge_change;
    if (method.edge_price.si <= 0) continue;
    tool.price = method.edge_price;
    tool.edges = 1;
  }
  return std::nullopt;
}

Refusal set_machine(const Method& method, Applied& in) {
  if (method.machine.empty()) return std::nullopt;
  const auto kind = machine_kind_named(method.machine);
  if (!kind) {
    in.request.machine = method.machine;  // the planner says it when the shop has none of that name
    return std::nullopt;
  }
  // Only lathes of the kind are there to choose from.
  std::vector<Machine>& machines = in.own_shop().machines;
  std::erase_if(machines, [&](const Machine& m) { return m.kind != *kind; });
  in.request.machine.clear();
  if (!machines.empty()) return std::nullopt;
  return refused(*kind == MachineKind::manual ? "compare.no-manual-lathe" : "compare.no-cnc-lathe",
                 {"compare.add-lathe"});
}

// A surface of the drawing that is left as the bar comes.
bool stays_as_drawn(const Part& part) {
  return std::any_of(part.outside.begin(), part.outside.end(),
                     [](const Element& e) { return e.as_drawn; });
}

Refusal set_stock(const Method& method, Applied& in) {
  if (method.stock.empty() && method.condition.empty()) return std::nullopt;
  PartStock& stock = in.part.stock;
  if (stock.is_shaped()) return refused("compare.cast-or-forged", {"compare.take-bar"});
  if (!method.stock.empty()) stock.from_bar = is_bar(method.stock);
  if (method.condition.empty()) return std::nullopt;
  const StockCondition* condition = in.shop().condition(method.condition);
  if (condition == nullptr)
    return refused({"compare.no-condition", {{"condition", method.condition}}},
                   {"compare.add-condition"});
  if (condition->skin && stays_as_drawn(in.part))
    return refused({"compare.skin-stays", {{"condition", condition_word(method.condition)}}},
                   {"plan.try-bright-bar"});
  stock.condition = method.condition;
  return std::nullopt;
}

void set_plan(const Method& method, Applied& in) {
  if (method.clampings == 2) in.request.two_at_least = true;
  if (method.ends_first) in.request.ends_first = true;
  if (method.fixed_speed)
    for (Machine& m : in.own_shop().machines) m.fixed_speed = true;
  if (!method.turn_round.empty())
    in.own_shop().policy.turn_round_up_to = is_turned_round(method.turn_round) ? any_lot : 0;
  if (method.conditions != ConditionsRule::handbook)
    in.own_shop().conditions_rule = method.conditions;
}

Refusal apply(const Method& method, Applied& in) {
  if (auto refusal = other_material(method, in)) return refusal;
  if (!method.plan.empty())
    in.request.method = method_kind_named(method.plan).value_or(MethodKind::rough_then_finish);
  if (auto refusal = set_tools(method, in)) return refusal;
  if (auto refusal = set_machine(method, in)) return refusal;
  if (auto refusal = set_stock(method, in)) return refusal;
  set_plan(method, in);
  return std::nullopt;
}

MethodKind kind_of(const std::vector<Method>& methods) {
  MethodKind kind = MethodKind::rough_then_finish;
  for (const Method& method : methods)
    if (!method.plan.empty())
      kind = method_kind_named(method.plan).value_or(MethodKind::rough_then_finish);
  return kind;
}

Infeasible not_prepared(const Problem& first) {
  return refused(first.what, first.expected.empty() ? Messages{} : Messages{first.expected});
}

bool is_one_operation(const std::vector<Method>& methods) {
  return std::any_of(methods.begin(), methods.end(),
                     [](const Method& m) { return m.clampings == 1; });
}

Planned<Quote> quote_by(const Checked<Job>& job, const Applied& in, bool in_one_operation) {
  if (!job) return not_prepared(job.problems().front());
  const auto route = plan_route(*job, in.shop(), in.request);
  if (!route) return route.infeasible();
  if (in_one_operation && route->operations.size() > 1)
    return refused({"compare.takes-operations", {{"n", route->operations.size()}}},
                   {"compare.one-operation"});
  return make_quote(*route, in.shop());
}

MethodResult begun(const std::vector<Method>& methods, const std::string& machine) {
  MethodResult result;
  result.name = result.recipe = joined_names(methods);
  result.records = methods;
  result.machine = machine;
  result.method = kind_of(methods);
  return result;
}

// A division of depth, and the rule under it; what an hour is counted at, 0: as the shop has it.
struct Tuning {
  double depth = 1;
  ConditionsRule rule = ConditionsRule::least_cost;
  Rate hour_worth = Rate(0.0);
};

// Where a lot pays whole edges, wear costs nothing at the margin: the least time may cost less.
std::vector<Tuning> tunings_of(ConditionsRule rule) {
  std::vector<Tuning> all;
  for (const double depth : {1.0, 0.8, 0.65, 0.5}) {
    if (rule == ConditionsRule::least_cost) all.push_back({depth, ConditionsRule::least_cost});
    all.push_back({depth, ConditionsRule::least_time});
  }
  return all;
}

Shop tuned_shop(Shop shop, const Tuning& tuning) {
  for (Tool& tool : shop.tools)
    if (tool.kind == ToolKind::rough)
      tool.largest_depth = max(tool.least_depth, tuning.depth * tool.largest_depth);
  shop.conditions_rule = tuning.rule;
  if (tuning.hour_worth.si > 0) shop.hour_worth = tuning.hour_worth;
  return shop;
}

// What is made least: the time of the lot, or its cost. Where an hour of the machine is worth what
// other work would bring in it, that stands for its rate.
double score_of(const Quote& quote, const Shop& shop, int quantity) {
  if (shop.conditions_rule == ConditionsRule::least_time)
    return lot_machine_time(quote, quantity).si;
  if (shop.hour_worth.si <= 0) return lot_cost(quote, quantity).si;
  const auto lines = lot_lines(quote, quantity);
  return (lines.material + lines.inserts + lines.outside +
          lot_machine_time(quote, quantity) * shop.hour_worth)
      .si;
}

void take_tuning(MethodResult& result, const Applied& in, const Tuning& tuning, bool one) {
  const Shop shop = tuned_shop(in.shop(), tuning);
  result.quote = quote_by(prepare(in.part, shop), {in.base, in.part, shop, in.request}, one);
  result.roughing_depth = tuning.depth;
  result.conditions = tuning.rule;
  result.hour_worth = shop.hour_worth;
}

// All divisions planned, and the best of them taken.
void take_best_tuning(MethodResult& result, const Applied& in, int quantity, bool one) {
  const std::vector<Tuning> tunings = tunings_of(in.shop().conditions_rule);
  MethodResult best = result;
  double least = 0;
  for (const Tuning& tuning : tunings) {
    take_tuning(result, in, tuning, one);
    if (!result.feasible()) continue;
    const double score = score_of(*result.quote, in.shop(), quantity);
    if (best.feasible() && score >= least) continue;
    best = result;
    least = score;
  }
  if (best.feasible()) result = std::move(best);
  result.plans = static_cast<int>(tunings.size());
  result.divisions =
      static_cast<int>(std::count_if(tunings.begin(), tunings.end(), [](const Tuning& tuning) {
        return tuning.rule == ConditionsRule::least_time;
      }));
}

Planned<Applied> applied(const Part& part, const Shop& shop, const std::vector<Method>& methods,
                         const std::string& machine) {
  Applied in{shop, part, std::nullopt, {}};
  in.request.machine = machine;
  for (const Method& method : methods)
    if (auto refusal = apply(method, in)) return *std::move(refusal);
  return in;
}

// A quote says in each of its prices by which method it is.
void call(Quote& quote, const std::string& method) {
  quote.method = method;
  for (Price& price : quote.prices) price.method = method;
}

bool same_stock(const PartStock& a, const PartStock& b) {
  return a.from_bar == b.from_bar && a.condition == b.condition;
}

}  // namespace

bool operator==(const HeldBack& a, const HeldBack& b) { return by_weight(a) == by_weight(b); }
std::strong_ordering operator<=>(const HeldBack& a, const HeldBack& b) {
  return by_weight(a) <=> by_weight(b);
}

const Method* method_named(const Shop& shop, std::string_view name) {
  const auto found = std::find_if(shop.methods.begin(), shop.methods.end(),
                                  [&](const Method& m) { return m.name == name; });
  return found == shop.methods.end() ? nullptr : &*found;
}

const Method* method_of(const Shop& shop, MethodKind kind) {
  const auto found = std::find_if(shop.methods.begin(), shop.methods.end(), [&](const Method& m) {
    return method_kind_named(m.plan) == kind;
  });
  return found == shop.methods.end() ? nullptr : &*found;
}

Planned<MethodInputs> inputs_of(const Part& part, const Shop& shop,
                                const std::vector<Method>& methods, const std::string& machine) {
  auto in = applied(part, shop, methods, machine);
  if (!in) return in.infeasible();
  return MethodInputs{std::move(in->part), in->shop(), in->request};
}

const Checked<Job>& MethodPlanner::prepared(const Part& part) {
  const auto known = std::find_if(jobs_.begin(), jobs_.end(), [&](const auto& job) {
    return same_stock(job.first, part.stock);
  });
  if (known != jobs_.end()) return known->second;
  return jobs_.emplace_back(part.stock, prepare(part, shop_)).second;
}

MethodPlanner::MethodPlanner(const Part& part, const Shop& shop, int quantity)
    : part_(part), shop_(shop), quantity_(quantity > 0 ? quantity : main_quantity(part)) {}

MethodResult MethodPlanner::plan_again(const MethodResult& method) {
  MethodResult result = plan_as(method.records, method.machine, &method);
  result.name = method.name;
  return result;
}

MethodResult MethodPlanner::plan_as(const std::vector<Method>& methods, const std::string& machine,
                                    const MethodResult* tuned) {
  if (tuned == nullptr || tuned->conditions == ConditionsRule::handbook)
    return plan(methods, machine);
  MethodResult result = begun(methods, machine);
  const auto in = applied(part_, shop_, methods, machine);
  if (!in) {
    result.quote = in.infeasible();
    return result;
  }
  take_tuning(result, *in, {tuned->roughing_depth, tuned->conditions, tuned->hour_worth},
              is_one_operation(methods));
  if (result.feasible()) call(*result.quote, result.recipe);
  return result;
}

MethodResult MethodPlanner::plan(const std::vector<Method>& methods, const std::string& machine) {
  MethodResult result = begun(methods, machine);
  const auto in = applied(part_, shop_, methods, machine);
  if (!in) {
    result.quote = in.infeasible();
    return result;
  }
  const bool one = is_one_operation(methods);
  if (in->shop().conditions_rule != ConditionsRule::handbook)
    take_best_tuning(result, *in, quantity_, one);
  else
    result.quote = in->changed ? quote_by(prepare(in->part, *in->changed), *in, one)
                               : quote_by(prepared(in->part), *in, one);
  if (result.feasible()) call(*result.quote, result.recipe);
  return result;
}

MethodResult plan_method(const Part& part, const Shop& shop, const std::vector<Method>& methods,
                         const std::string& machine, int quantity) {
  return MethodPlanner(part, shop, quantity).plan(methods, machine);
}

}  // namespace turnwright
