// SPDX-License-Identifier: MIT
// The finishing contour.
#include "steps/bending.hpp"
#include "steps/contour.hpp"
#include "steps/gauge.hpp"
#include "steps/outside_tools.hpp"
#include "steps/steps.hpp"
#include "steps/walls.hpp"

namespace turnwright::steps {
namespace {

// How much may stay in a corner behind a shoulder: less than any broken edge, or, beside a knurl,
// what the rolls press in.
double left_to_the_flank(const OperationContext& op, Length z) {
  const Wanted here = wanted_at(op, z);
  if (!here.surface) return op.shop.practice.smallest_edge.si;
  const Element& e = op.job.element_of(op.job.surfaces[*here.surface]);
  return e.knurl ? e.knurl->pitch.si : op.shop.practice.smallest_edge.si;
}

// The contour that a tool makes. A step down of hundredths behind a shoulder is left to its flank.
Outline finished_by(const OperationContext& op, const Tool& tool) {
  const Outline target = blocked_left(op.task.target, op.task.zone_left);
  Outline shape = reachable(target, tool.copying_angle);
  for (const Interval& i : where_above(shape, target)) {
    const Length gap =
        shape.largest(i.from, i.to) - min(target.right_of(i.from), target.left_of(i.to));
    const double most = left_to_the_flank(op, (i.from + i.to) / 2.0);
    if (gap.si > most || i.width().si > most) continue;
    shape = lowered(shape, target, i);
  }
  return shape;
}

Infeasible sharp_corner(const Tool& tool, Length corner) {
  return {{"steps.corner-too-sharp",
           {{"corner", corner}, {"nose", tool.nose_radius}, {"tool", tool.name}}},
          {{"steps.smaller-nose", {{"corner", corner}}}}};
}

}  // namespace

Outcome finish(const OperationContext& op, Workpiece& work) {
  const Tool* tool = finishing_tool(op);
  if (tool == nullptr) return {};
  const Outline shape = finished_by(op, *tool);
  const auto where = where_above(work.right_of(op.task.zone_left), shape);
  if (where.empty()) return {};
  const Length corner = smallest_corner(op);
  if (tool->nose_radius.si > corner.si + same_point) return sharp_corner(*tool, corner);
  const Length depth = op.task.finisher_takes_both
                           ? op.task.last_cut
                           : op.shop.practice.finish_allowance(op.machine, op.job.stock.diameter);
  Step step = begin(StepKind::finish, *tool, "steps.finish");
  step.from = op.task.zone_left;
  step.segments = segments_along(op, work, {*tool, StepKind::finish, shape, where, depth, true});
  // The finest surface decides what the step shows.
  const Outline after = combine(work.outside, shape, Envelope::lower);
  const Length finest = gauge_made(op, work.outside, after, step);
  const Length widest = 2.0 * shape.largest(where.front().from, where.back().to);
  apply(step, cut_at(op, *tool, StepKind::finish, min(widest, 2.0 * work.outside.largest()), depth,
                     finest)
                  .conditions);
  put_first(step, {LimitId::depth, tool->largest_depth.si, depth.si, unit::mm});
  limit_bending(op, work, *tool, step);
  work.commit_outside(std::move(step), after);
  return {};
}

}  // namespace turnwright::steps
