// SPDX-License-Identifier: MIT
#include "turnwright/compare/plan_method.hpp"

#include <algorithm>

#include "method_words.hpp"

namespace turnwright {
namespace {

constexpr int any_lot = 1000000;

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

Refusal other_material(const Method& method, const MethodInputs& in) {
  const auto& groups = method.groups;
  const CuttingGroup* group = group_of(in.part, in.shop);
  if (groups.empty() || group == nullptr ||
      std::find(groups.begin(), groups.end(), group->iso513) != groups.end())
    return std::nullopt;
  Messages names;
  for (const std::string& name : groups) names.push_back(verbatim(name));
  return refused({"compare.other-material",
                  {{"material", in.part.material}, {"group", group->iso513}, {"groups", names}}});
}

Refusal set_tools(const Method& method, MethodInputs& in) {
  if (method.tools.empty()) return std::nullopt;
  const CuttingGroup* group = group_of(in.part, in.shop);
  if (group == nullptr || std::none_of(group->rows.begin(), group->rows.end(),
                                       [&](const auto& r) { return r.grade == method.tools; }))
    return refused({"compare.no-speeds", {{"grade", method.tools}, {"material", in.part.material}}},
                   {"compare.add-rows"});
  for (Tool& tool : in.shop.tools) {
    if (!takes_grade(tool) || tool.grade == method.tools) continue;
    tool.grade = method.tools;
    if (method.edge_price.si <= 0) continue;
    tool.price = method.edge_price;
    tool.edges = 1;
  }
  return std::nullopt;
}

Refusal set_machine(const Method& method, MethodInputs& in) {
  if (method.machine.empty()) return std::nullopt;
  const auto kind = machine_kind_named(method.machine);
  if (!kind) {
    in.request.machine = method.machine;  // the planner says it when the shop has none of that name
    return std::nullopt;
  }
  // Only lathes of the kind are there to choose from.
  std::erase_if(in.shop.machines, [&](const Machine& m) { return m.kind != *kind; });
  in.request.machine.clear();
  if (!in.shop.machines.empty()) return std::nullopt;
  return refused(*kind == MachineKind::manual ? "compare.no-manual-lathe" : "compare.no-cnc-lathe",
                 {"compare.add-lathe"});
}

Refusal set_stock(const Method& method, MethodInputs& in) {
  if (method.stock.empty() && method.condition.empty()) return std::nullopt;
  PartStock& stock = in.part.stock;
  if (stock.form == StockForm::casting || stock.form == StockForm::forging)
    return refused("compare.cast-or-forged", {"compare.take-bar"});
  if (!method.stock.empty()) stock.from_bar = is_bar(method.stock);
  if (method.condition.empty()) return std::nullopt;
  if (in.shop.condition(method.condition) == nullptr)
    return refused({"compare.no-condition", {{"condition", method.condition}}},
                   {"compare.add-condition"});
  stock.condition = method.condition;
  return std::nullopt;
}

void set_plan(const Method& method, MethodInputs& in) {
  if (method.clampings == 2) in.request.two_at_least = true;
  if (method.ends_first) in.request.ends_first = true;
  if (method.fixed_speed)
    for (Machine& m : in.shop.machines) m.fixed_speed = true;
  if (!method.turn_round.empty())
    in.shop.policy.turn_round_up_to = is_turned_round(method.turn_round) ? any_lot : 0;
  if (method.conditions != ConditionsRule::handbook) in.shop.conditions_rule = method.conditions;
}

Refusal apply(const Method& method, MethodInputs& in) {
  if (auto refusal = other_material(method, in)) return refusal;
  if (!method.plan.empty())
    in.request.method = method_kind_named(method.plan).value_or(MethodKind::rough_then_finish);
  if (auto refusal = set_tools(method, in)) return refusal;
  if (auto refusal = set_machine(method, in)) return refusal;
  if (auto refusal = set_stock(method, in)) return refusal;
  set_plan(method, in);
  return std::nullopt;
}

std::string joined_names(const std::vector<Method>& methods) {
  std::string name;
  for (const Method& method : methods) name += (name.empty() ? "" : " + ") + method.name;
  return name;
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

Planned<Quote> quote_by(const MethodInputs& in, bool in_one_operation) {
  const auto job = prepare(in.part, in.shop);
  if (!job) return not_prepared(job.problems().front());
  const auto route = plan_route(*job, in.shop, in.request);
  if (!route) return route.infeasible();
  if (in_one_operation && route->operations.size() > 1)
    return refused({"compare.takes-operations", {{"n", route->operations.size()}}},
                   {"compare.one-operation"});
  return make_quote(*route, in.shop);
}

}  // namespace

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

std::vector<Method> default_method(const Shop& shop) {
  const Method* method = method_of(shop, MethodKind::rough_then_finish);
  return method != nullptr ? std::vector{*method} : std::vector<Method>{};
}

Planned<MethodInputs> inputs_of(const Part& part, const Shop& shop,
                                const std::vector<Method>& methods, const std::string& machine) {
  MethodInputs in{part, shop, {}};
  in.request.machine = machine;
  for (const Method& method : methods)
    if (auto refusal = apply(method, in)) return *std::move(refusal);
  return in;
}

MethodResult plan_method(const Part& part, const Shop& shop, const std::vector<Method>& methods,
                         const std::string& machine) {
  MethodResult result;
  result.name = joined_names(methods);
  result.records = methods;
  result.method = kind_of(methods);
  const auto in = inputs_of(part, shop, methods, machine);
  const bool one =
      std::any_of(methods.begin(), methods.end(), [](const Method& m) { return m.clampings == 1; });
  if (in)
    result.quote = quote_by(*in, one);
  else
    result.quote = in.infeasible();
  return result;
}

}  // namespace turnwright
