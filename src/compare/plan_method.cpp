// SPDX-License-Identifier: MIT
#include "turnwright/compare/plan_method.hpp"

#include <algorithm>

namespace turnwright {
namespace {

constexpr int any_lot = 1000000;

// Tools whose edge is ground or clamped; drills, taps and the like stay what they are.
bool takes_grade(const Tool& tool) {
  switch (tool.kind) {
    case ToolKind::rough:
    case ToolKind::finish:
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

MethodKind kind_of(const std::string& plan) {
  for (const MethodKind kind :
       {MethodKind::two_finish_cuts, MethodKind::between_centres, MethodKind::leave_and_grind})
    if (plan == name_of(kind)) return kind;
  return MethodKind::rough_then_finish;
}

bool for_material(const Method& method, const Part& part, MethodInputs& in) {
  const Material* material = in.shop.material(part.material);
  const CuttingGroup* group =
      material != nullptr ? in.shop.cutting_group(material->group) : nullptr;
  if (method.groups.empty() || group == nullptr ||
      std::find(method.groups.begin(), method.groups.end(), group->iso513) != method.groups.end())
    return true;
  std::string list;
  for (const std::string& g : method.groups) list += (list.empty() ? "" : ", ") + g;
  in.why_not = part.material + " is ISO " + group->iso513 + ", and this is for " + list;
  return false;
}

void tools_of(const Method& method, const Part& part, MethodInputs& in) {
  const Material* material = in.shop.material(part.material);
  const CuttingGroup* group =
      material != nullptr ? in.shop.cutting_group(material->group) : nullptr;
  const bool known =
      group != nullptr && std::any_of(group->rows.begin(), group->rows.end(),
                                      [&](const CuttingRow& r) { return r.grade == method.tools; });
  if (!known) {
    in.why_not = "the cutting table has no speeds of " + method.tools + " for " + part.material;
    in.would_help = "rows of that grade in a file of the shop folder";
    return;
  }
  for (Tool& tool : in.shop.tools) {
    if (!takes_grade(tool) || tool.grade == method.tools) continue;
    tool.grade = method.tools;
    if (method.edge_price.si <= 0) continue;
    tool.price = method.edge_price;
    tool.edges = 1;
  }
}

void machine_of(const Method& method, MethodInputs& in) {
  const bool manual = method.machine == "manual", cnc = method.machine == "CNC";
  if (!manual && !cnc) {
    in.request.machine = method.machine;  // the planner says it when the shop has none of that name
    return;
  }
  // Only lathes of the kind are there to choose from.
  std::erase_if(in.shop.machines, [&](const Machine& m) { return m.manual() != manual; });
  in.request.machine.clear();
  if (!in.shop.machines.empty()) return;
  in.why_not = std::string("the shop has no ") + (manual ? "manual" : "CNC") + " lathe";
  in.would_help = "one in the shop folder, under machines";
}

void stock_of(const Method& method, MethodInputs& in) {
  PartStock& stock = in.part.stock;
  if (stock.form == StockForm::casting || stock.form == StockForm::forging) {
    in.why_not = "the part is made from a casting or forging";
    in.would_help = "bar";
    return;
  }
  if (!method.stock.empty()) stock.from_bar = method.stock == "bar";
  if (method.condition.empty()) return;
  if (in.shop.condition(method.condition) == nullptr) {
    in.why_not = "the rates have no stock condition '" + method.condition + "'";
    in.would_help = "it in a file of the shop folder";
    return;
  }
  stock.condition = method.condition;
}

}  // namespace

const Method* method_named(const Shop& shop, std::string_view name) {
  const auto found = std::find_if(shop.methods.begin(), shop.methods.end(),
                                  [&](const Method& w) { return w.name == name; });
  return found == shop.methods.end() ? nullptr : &*found;
}

std::vector<const Method*> default_method(const Shop& shop) {
  const Method* method = method_named(shop, name_of(MethodKind::rough_then_finish));
  return method != nullptr ? std::vector{method} : std::vector<const Method*>{};
}

MethodInputs inputs_of(const Part& part, const Shop& shop,
                       const std::vector<const Method*>& methods, const std::string& machine) {
  MethodInputs in{part, shop, {}, "", ""};
  in.request.machine = machine;
  for (const Method* method : methods) {
    if (!for_material(*method, part, in)) break;
    if (!method->plan.empty()) in.request.method = kind_of(method->plan);
    if (!method->tools.empty()) tools_of(*method, part, in);
    if (!method->machine.empty()) machine_of(*method, in);
    if (!method->stock.empty() || !method->condition.empty()) stock_of(*method, in);
    if (method->clampings == 2) in.request.two_at_least = true;
    if (method->ends_first) in.request.ends_first = true;
    if (method->fixed_speed)
      for (Machine& m : in.shop.machines) m.fixed_speed = true;
    if (!method->turn_round.empty())
      in.shop.policy.turn_round_up_to = method->turn_round == "turned round" ? any_lot : 0;
    if (method->conditions != ConditionsRule::handbook)
      in.shop.conditions_rule = method->conditions;
    if (!in.why_not.empty()) break;
  }
  return in;
}

Time machine_time(const MethodResult& method, int quantity) {
  return method.quote.times.setup + lot_lines(method.quote, quantity).machine_run;
}

MethodResult plan_method(const Part& part, const Shop& shop,
                         const std::vector<const Method*>& methods, const std::string& machine) {
  MethodResult result;
  for (const Method* method : methods)
    result.name += (result.name.empty() ? "" : " + ") + method->name;
  result.records = methods;
  MethodInputs in = inputs_of(part, shop, methods, machine);
  result.method = in.request.method;
  auto no = [&](std::string why, std::string help) {
    result.route.feasible = false;
    result.route.why_not = std::move(why);
    result.route.would_help = std::move(help);
  };
  if (!in.why_not.empty()) {
    no(in.why_not, in.would_help);
    return result;
  }
  const auto job = prepare(in.part, in.shop);
  if (!job) {
    const Problem& first = job.problems().front();
    no(first.what, first.expected);
    return result;
  }
  result.route = plan_route(*job, in.shop, in.request);
  const bool one = std::any_of(methods.begin(), methods.end(),
                               [](const Method* w) { return w->clampings == 1; });
  if (result.route.feasible && one && result.route.operations.size() > 1)
    no("it takes " + std::to_string(result.route.operations.size()) + " holdings",
       "an end that stays as drawn, or bar through the spindle");
  if (result.route.feasible) result.quote = make_quote(result.route, in.shop);
  return result;
}

}  // namespace turnwright
