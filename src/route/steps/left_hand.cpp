// SPDX-License-Identifier: MIT
#include "steps/left_hand.hpp"

#include "steps/bending.hpp"
#include "steps/contour.hpp"
#include "steps/gauge.hpp"
#include "steps/outside_tools.hpp"
#include "steps/rough.hpp"
#include "steps/tools.hpp"
#include "steps/walls.hpp"

namespace turnwright {
namespace {

// The operation and its work as they look from the other end.
class OtherEnd {
 public:
  OtherEnd(const OperationContext& op, const Workpiece& work, const Interval& z)
      : mirror_(op.job.left()),
        stretch_{mirror_ - z.to, mirror_ - z.from},
        view_{mirror_, !op.view.from_left},
        task_(op.task),
        op_{op.job, op.shop, op.machine, view_, task_},
        work_(work) {
    task_.target = op.task.target.mirrored(mirror_);
    task_.final = op.task.final.mirrored(mirror_);
    task_.zone_left = stretch_.from;
    work_.outside = work.outside.mirrored(mirror_);
    work_.hollow = work.hollow.empty() ? work.hollow : work.hollow.mirrored(mirror_);
    work_.blank = {mirror_ - work.blank.to, mirror_ - work.blank.from};
    work_.steps.clear();
  }
  OtherEnd(const OtherEnd&) = delete;
  OtherEnd& operator=(const OtherEnd&) = delete;

  const OperationContext& op() const { return op_; }
  Workpiece& work() { return work_; }
  const Interval& stretch() const { return stretch_; }
  /// What the tool makes of a shape of this end, nothing beside the stretch.
  Outline limit(const Outline& shape, const Tool& tool) const {
    return within(reachable(shape.mirrored(mirror_), tool.copying_angle), stretch_);
  }
  /// The step as it looks from the end that is worked.
  Step back(Step step) const {
    for (CutSegment& s : step.segments) {
      s.from.z = mirror_ - s.from.z;
      s.to.z = mirror_ - s.to.z;
    }
    step.from = mirror_ - stretch_.to;
    step.to = mirror_ - stretch_.from;
    step.speed_changes = step.feed_changes = 0;
    return step;
  }
  Outline back(const Outline& outside) const { return outside.mirrored(mirror_); }

 private:
  Length mirror_;
  Interval stretch_;
  View view_;
  OperationTask task_;
  OperationContext op_;
  Workpiece work_;
};

}  // namespace

const Tool* left_hand_tool(const OperationContext& op) {
  const Tool* finisher = tool_of(op.shop, op.machine, ToolKind::finish);
  for (const Tool& t : op.shop.tools)
    if (t.kind == ToolKind::left_hand && goes_on(t, op.machine) && finisher != nullptr &&
        t.grade == finisher->grade)
      return &t;
  return nullptr;
}

void rough_left_handed(const OperationContext& op, Workpiece& work, const Tool& tool,
                       const Outline& shape, const Interval& z) {
  OtherEnd other(op, work, z);
  rough_levels(other.op(), other.work(), tool, other.limit(shape, tool),
               begin(StepKind::rough, tool, "steps.recess-left-handed"));
  if (other.work().steps.empty()) return;
  const Outline after = other.back(other.work().outside);
  work.commit_outside(other.back(std::move(other.work().steps.back())), after);
}

void finish_left_handed(const OperationContext& op, Workpiece& work, const Tool& tool,
                        const Interval& z) {
  if (tool.nose_radius.si > smallest_corner(op).si + same_point) return;
  OtherEnd other(op, work, z);
  const Outline limit = other.limit(op.task.target, tool);
  if (!where_above(limit, within(op.task.target, z).mirrored(op.job.left())).empty()) return;
  const Length depth = op.shop.practice.finish_allowance(op.machine, op.job.stock.diameter);
  Step step = begin(StepKind::finish, tool, "steps.finish-left-handed");
  step.segments = segments_along(other.op(), other.work(),
                                 {tool, StepKind::finish, limit, {other.stretch()}, depth, true});
  apply(step, cut_at(op, tool, StepKind::finish, 2.0 * work.outside.largest(z.from, z.to), depth)
                  .conditions);
  put_first(step, {LimitId::depth, tool.largest_depth.si, depth.si, unit::mm});
  step = other.back(std::move(step));
  const Outline after = lowered(work.outside, op.task.target, z);
  gauge_made(op, work.outside, after, step);
  limit_bending(op, work, tool, step);
  work.commit_outside(std::move(step), after);
}

}  // namespace turnwright
