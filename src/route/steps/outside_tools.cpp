// SPDX-License-Identifier: MIT
#include "steps/outside_tools.hpp"

#include <algorithm>
#include <cmath>

#include "steps/tools.hpp"
#include "steps/walls.hpp"

namespace turnwright {
namespace {

// What a tool leaves on the contour behind shoulders, m3; too much of it where its nose is too
// round for a corner. The rear edge of a piece that is parted off is the parting tool's.
double left_over(const OperationContext& op, const Tool& tool) {
  const Length zone_left = op.task.zone_left;
  const Outline zone = blocked_left(op.task.target, zone_left);
  const Outline reached = reachable(zone, tool.copying_angle);
  double left = 0;
  for (const Interval& i :
       where_above(reached.only(zone_left, Length(0.0)), zone.only(zone_left, Length(0.0)))) {
    const bool rear = op.task.part_off && std::abs((i.from - op.task.part_off_at).si) < same_point;
    if (!rear) left += (reached.only(i.from, i.to).volume() - zone.only(i.from, i.to).volume()).si;
  }
  return left;
}

}  // namespace

const Tool* rougher(const OperationContext& op) {
  return tool_of(op.shop, op.machine,
                 op.task.finisher_takes_both ? ToolKind::finish : ToolKind::rough);
}

const Tool* finishing_tool(const OperationContext& op) {
  const Tool* usual = tool_of(op.shop, op.machine, ToolKind::finish);
  if (usual == nullptr || op.task.finisher_takes_both) return usual;
  const Length corner = smallest_corner(op);
  auto too_round = [&](const Tool& t) { return t.nose_radius.si > corner.si + same_point; };
  const auto& mounted = op.machine.mounted_tools;
  auto is_mounted = [&](const Tool& t) {
    return std::find(mounted.begin(), mounted.end(), t.name) != mounted.end();
  };
  const Tool* best = too_round(*usual) ? nullptr : usual;
  constexpr double nothing = 1e-15;  // m3
  double least = best == nullptr ? 1e9 : left_over(op, *best);
  for (const Tool& t : op.shop.tools) {
    if (t.kind != ToolKind::finish || t.grade != usual->grade || too_round(t)) continue;
    const bool rounder = best != nullptr && is_mounted(t) &&
                         (!is_mounted(*best) || t.nose_radius > best->nose_radius);
    if (!rounder && least < nothing) continue;  // there is no more to reach
    const double left = left_over(op, t);
    const bool reaches_more = left < least * 0.999 - nothing;
    if (!reaches_more && !(rounder && left <= least * 1.001 + nothing)) continue;
    least = left;
    best = &t;
  }
  return best == nullptr ? usual : best;
}

Length smallest_corner(const OperationContext& op) {
  Length least(1.0);
  for (const Surface& s : op.job.outside()) {
    if (!in_zone(op, s)) continue;
    for (const Corner& c : op.job.element_of(s).corners) {
      const ReliefSize* size = op.shop.standards.relief(s.diameter());
      if (c.radius.si > 0)
        least = min(least, c.radius);
      else if (size != nullptr)
        least = min(least, size->radius);
    }
  }
  return least;
}

}  // namespace turnwright
