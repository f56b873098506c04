// SPDX-License-Identifier: MIT
#include "steps/tools.hpp"

#include "turnwright/route/segment.hpp"

namespace turnwright {

bool goes_on(const Tool& tool, const Machine& machine) {
  return tool.for_lathe == ToolFor::both || (tool.for_lathe == ToolFor::manual) == machine.manual();
}

const Tool* tool_of(const Shop& shop, const Machine& machine, ToolKind kind) {
  for (const std::string& name : machine.mounted_tools)
    if (const Tool* t = shop.tool(name); t != nullptr && t->kind == kind) return t;
  for (const Tool& t : shop.tools)
    if (t.kind == kind && goes_on(t, machine)) return &t;
  return nullptr;
}

const Tool* parting_tool(const Shop& shop, const Machine& machine, Length reach) {
  const Tool* best = nullptr;
  for (const std::string& name : machine.mounted_tools)
    if (const Tool* t = shop.tool(name);
        t != nullptr && t->kind == ToolKind::part_off && t->reach.si >= reach.si - same_point)
      return t;
  for (const Tool& t : shop.tools)
    if (t.kind == ToolKind::part_off && t.reach.si >= reach.si - same_point &&
        (best == nullptr || t.width < best->width))
      best = &t;
  return best;
}

Length parting_reach(const Job& job) {
  const Bore& bore = job.bores[0];
  Length hole = job.stock.bore / 2.0;
  if (!bore.empty() && bore.through) {
    Length narrowest = bore.turned.largest();
    for (const Segment& s : bore.turned.pieces()) narrowest = min(narrowest, min(s.from.r, s.to.r));
    hole = max(hole, narrowest);
  }
  return job.stock.diameter / 2.0 - hole;
}

const Tool* sized_tool(const Shop& shop, const Machine& machine, ToolKind kind, Length size,
                       Length depth) {
  const Tool* best = nullptr;
  auto rank = [&](const Tool& t) {
    const bool deep = t.deepest <= 0 || depth <= t.deepest * size;
    return (deep ? 2 : 0) + (t.for_lathe != ToolFor::both ? 1 : 0);
  };
  for (const Tool& t : shop.tools)
    if (t.kind == kind && goes_on(t, machine) && t.has_size(size) &&
        (best == nullptr || rank(t) > rank(*best)))
      best = &t;
  return best;
}

bool high_speed_steel(const Tool& tool) {
  static constexpr std::string_view grade("hss");  // its row in rates/grades.yaml
  return tool.grade == grade;
}

bool is_form_tool(const Tool& tool) {
  return tool.kind == ToolKind::groove && tool.profile_angle.si > 0;
}

bool is_round_nosed(const Tool& tool) {
  constexpr double as_ground = 0.98;
  return tool.kind == ToolKind::groove && tool.width.si > 0 &&
         2.0 * tool.nose_radius.si >= as_ground * tool.width.si;
}

const Tool* straight_grooving_tool(const Shop& shop, const Machine& machine, Length room,
                                   Length depth) {
  return widest_tool(shop, machine, ToolKind::groove, [&](const Tool& t) {
    return !is_form_tool(t) && !is_round_nosed(t) && t.width.si <= room.si + same_point &&
           t.reach >= depth;
  });
}

bool bar_fits(const Tool& bar, Length hole, Length reach) {
  return bar.least_bore.si <= hole.si + same_point && bar.reach.si >= reach.si - same_point;
}

const Tool* thickest_bar(const Shop& shop, const Machine& machine, Length hole, Length reach) {
  const Tool* best = nullptr;
  for (const Tool& t : shop.tools) {
    if (t.kind != ToolKind::bore || !goes_on(t, machine) || !bar_fits(t, hole, reach)) continue;
    if (best == nullptr || t.shank > best->shank) best = &t;
  }
  return best;
}

}  // namespace turnwright
