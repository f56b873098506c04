// SPDX-License-Identifier: MIT
#include "turnwright/compare/plan_way.hpp"

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

WayKind kind_of(const std::string& plan) {
  for (const WayKind kind :
       {WayKind::two_finish_cuts, WayKind::between_centres, WayKind::leave_and_grind})
    if (plan == name_of(kind)) return kind;
  return WayKind::rough_then_finish;
}

bool for_material(const Way& way, const Part& part, WayInputs& in) {
  const Material* material = in.shop.material(part.material);
  const CuttingGroup* group =
      material != nullptr ? in.shop.cutting_group(material->group) : nullptr;
  if (way.groups.empty() || group == nullptr ||
      std::find(way.groups.begin(), way.groups.end(), group->iso513) != way.groups.end())
    return true;
  std::string list;
  for (const std::string& g : way.groups) list += (list.empty() ? "" : ", ") + g;
  in.why_not = part.material + " is ISO " + group->iso513 + ", and this is for " + list;
  return false;
}

void tools_of(const Way& way, const Part& part, WayInputs& in) {
  const Material* material = in.shop.material(part.material);
  const CuttingGroup* group =
      material != nullptr ? in.shop.cutting_group(material->group) : nullptr;
  const bool known =
      group != nullptr && std::any_of(group->rows.begin(), group->rows.end(),
                                      [&](const CuttingRow& r) { return r.grade == way.tools; });
  if (!known) {
    in.why_not = "the cutting table has no speeds of " + way.tools + " for " + part.material;
    in.would_help = "rows of that grade in a file of the shop folder";
    return;
  }
  for (Tool& tool : in.shop.tools) {
    if (!takes_grade(tool) || tool.grade == way.tools) continue;
    tool.grade = way.tools;
    if (way.edge_price.si <= 0) continue;
    tool.price = way.edge_price;
    tool.edges = 1;
  }
}

void machine_of(const Way& way, WayInputs& in) {
  const bool manual = way.machine == "manual", cnc = way.machine == "CNC";
  if (!manual && !cnc) {
    in.request.machine = way.machine;  // the planner says it when the shop has none of that name
    return;
  }
  // Only lathes of the kind are there to choose from.
  std::erase_if(in.shop.machines, [&](const Machine& m) { return m.manual() != manual; });
  in.request.machine.clear();
  if (!in.shop.machines.empty()) return;
  in.why_not = std::string("the shop has no ") + (manual ? "manual" : "CNC") + " lathe";
  in.would_help = "one in the shop folder, under machines";
}

void stock_of(const Way& way, WayInputs& in) {
  PartStock& stock = in.part.stock;
  if (stock.form == StockForm::casting || stock.form == StockForm::forging) {
    in.why_not = "the part is made from a casting or forging";
    in.would_help = "bar";
    return;
  }
  if (!way.stock.empty()) stock.from_bar = way.stock == "bar";
  if (way.condition.empty()) return;
  if (in.shop.condition(way.condition) == nullptr) {
    in.why_not = "the rates have no stock condition '" + way.condition + "'";
    in.would_help = "it in a file of the shop folder";
    return;
  }
  stock.condition = way.condition;
}

}  // namespace

const Way* way_named(const Shop& shop, std::string_view name) {
  const auto found = std::find_if(shop.ways.begin(), shop.ways.end(),
                                  [&](const Way& w) { return w.name == name; });
  return found == shop.ways.end() ? nullptr : &*found;
}

std::vector<const Way*> usual_way(const Shop& shop) {
  const Way* way = way_named(shop, name_of(WayKind::rough_then_finish));
  return way != nullptr ? std::vector{way} : std::vector<const Way*>{};
}

WayInputs inputs_of(const Part& part, const Shop& shop, const std::vector<const Way*>& ways,
                    const std::string& machine) {
  WayInputs in{part, shop, {}, "", ""};
  in.request.machine = machine;
  for (const Way* way : ways) {
    if (!for_material(*way, part, in)) break;
    if (!way->plan.empty()) in.request.way = kind_of(way->plan);
    if (!way->tools.empty()) tools_of(*way, part, in);
    if (!way->machine.empty()) machine_of(*way, in);
    if (!way->stock.empty() || !way->condition.empty()) stock_of(*way, in);
    if (way->holdings == 2) in.request.two_at_least = true;
    if (way->ends_first) in.request.ends_first = true;
    if (way->fixed_speed)
      for (Machine& m : in.shop.machines) m.fixed_speed = true;
    if (!way->turn_round.empty())
      in.shop.policy.turn_round_up_to = way->turn_round == "turned round" ? any_lot : 0;
    if (way->conditions != ConditionsRule::handbook) in.shop.conditions_rule = way->conditions;
    if (!in.why_not.empty()) break;
  }
  return in;
}

Time machine_time(const WayResult& way, int quantity) {
  return way.quote.times.make_ready + lot_lines(way.quote, quantity).machine_run;
}

WayResult plan_way(const Part& part, const Shop& shop, const std::vector<const Way*>& ways,
                   const std::string& machine) {
  WayResult result;
  for (const Way* way : ways) result.name += (result.name.empty() ? "" : " + ") + way->name;
  result.records = ways;
  WayInputs in = inputs_of(part, shop, ways, machine);
  result.way = in.request.way;
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
  const bool one =
      std::any_of(ways.begin(), ways.end(), [](const Way* w) { return w->holdings == 1; });
  if (result.route.feasible && one && result.route.setups.size() > 1)
    no("it takes " + std::to_string(result.route.setups.size()) + " holdings",
       "an end that stays as drawn, or bar through the spindle");
  if (result.route.feasible) result.quote = make_quote(result.route, in.shop);
  return result;
}

}  // namespace turnwright
