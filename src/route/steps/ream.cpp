// SPDX-License-Identifier: MIT
#include "geometry/profile.hpp"
#include "steps/cut.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"

namespace turnwright::steps {
namespace {

CutSegment reamed(const Practice& practice, const Interval& z, Length diameter, Length drilled,
                  bool through) {
  CutSegment segment = on_axis(practice, z.to, z.from, diameter);
  segment.from.r = segment.to.r = diameter / 2.0;
  segment.overrun = through ? practice.through_by : Length(0.0);
  segment.depth = (diameter - drilled) / 2.0;
  segment.travel = segment.path() + practice.tailstock_travel;
  return segment;
}

}  // namespace

Outcome ream(const OperationContext& op, Workpiece& work) {
  const Bore* bore = op.task.bore;
  if (bore == nullptr || !bore->reamed) return {};
  const Surface& s = op.job.surfaces[bore->narrow];
  const Length nominal = op.job.element_of(s).size.nominal, d = s.diameter();
  const Tool* tool = sized_tool(op.shop, op.machine, ToolKind::ream, nominal, s.right - s.left);
  const Interval z = op.view.between(s.left, s.right);
  const Length depth = -z.from;
  if (tool == nullptr || z.width() > tool->deepest * d)
    return Infeasible{{"steps.no-reamer", {{"diameter", nominal}, {"depth", depth}}},
                      {"steps.longer-reamer", "steps.bored-instead"}};
  Step step = begin(StepKind::ream, *tool,
                    {"steps.ream", {{"drilled", bore->drilled}, {"stock", d - bore->drilled}}});
  step.tailstock = op.machine.manual();
  const Cut cut = hole_cut(op, *tool, StepKind::ream, d, depth);
  apply(step, cut.conditions);
  CutSegment segment = reamed(op.shop.practice, z, d, bore->drilled, bore->through);
  set_speed(work, cut, segment);
  step.segments.push_back(segment);
  step.from = z.from;
  step.to = z.to;
  step.gauged.push_back(bore->narrow);
  const Length from =
      bore->through ? max(work.outside.left(), z.from - op.shop.practice.through_by) : z.from;
  work.commit_bore(std::move(step), joined(work.hollow, Outline::cylinder(from, z.to, d / 2.0)));
  return {};
}

}  // namespace turnwright::steps
