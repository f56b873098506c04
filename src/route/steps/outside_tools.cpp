// SPDX-License-Identifier: MIT
#include "steps/outside_tools.hpp"

#include "steps/tools.hpp"
#include "steps/walls.hpp"

namespace turnwright {
namespace {

// What a tool leaves on the contour behind shoulders, m3; too much of it where its nose is too
// round for a corner.
double left_over(const OperationContext& op, const Tool& tool) {
  const Length zone_left = op.task.zone_left;
  const Outline zone = blocked_left(op.task.target, zone_left);
  return (reachable(zone, tool.copying_angle).only(zone_left, Length(0.0)).volume() -
          zone.only(zone_left, Length(0.0)).volume())
      .si;
}

}  // namespace

const Tool* rougher(const OperationContext& op) {
  return tool_of(op.shop, op.machine,
                 op.task.finisher_takes_both ? ToolKind::finish : ToolKind::rough);
}

const Tool* finishing_tool(const OperationContext& op) {
  const Tool* best = tool_of(op.shop, op.machine, ToolKind::finish);
  if (best == nullptr || op.task.finisher_takes_both) return best;
  const Length corner = smallest_corner(op);
  auto too_round = [&](const Tool& t) { return t.nose_radius.si > corner.si + same_point; };
  double least = too_round(*best) ? 1e9 : left_over(op, *best);
  if (least < 1e-15) return best;
  for (const Tool& t : op.shop.tools) {
    if (t.kind != ToolKind::finish || t.grade != best->grade || too_round(t)) continue;
    const double left = left_over(op, t);
    if (left < least * 0.999) {
      least = left;
      best = &t;
    }
  }
  return best;
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
