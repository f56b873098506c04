// SPDX-License-Identifier: MIT
#include "steps/cut.hpp"
#include "steps/free_end.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"

namespace turnwright::steps {

Outcome part_off(const OperationContext& at_centre, Workpiece& work) {
  const bool withdrawn = at_centre.task.operation.support == Support::chuck_and_centre;
  const Machine free_end = withdrawn ? at_free_end(at_centre) : at_centre.machine;
  const OperationContext op{at_centre.job, at_centre.shop, free_end, at_centre.view,
                            at_centre.task};
  const Length at = op.task.part_off_at;
  const Length r = work.outside.left_of(at), reach = parting_reach(op.job);
  const Tool* tool = parting_tool(op.shop, op.machine, reach);
  if (tool == nullptr)
    return Infeasible{{"steps.no-parting-tool", {{"diameter", 2.0 * r}}},
                      {{"steps.longer-parting-tool", {{"reach", reach}}}, "steps.sawn-blanks"}};
  Step step = begin(StepKind::part_off, *tool, "steps.part-off");
  const Length hole = min(work.hole_at(at), work.hole_at(at - tool->width));
  Cut cut = plunge_to(op, *tool, StepKind::part_off, 2.0 * r, r - hole);
  apply(step, cut.conditions);
  const Length slow = max(min(op.shop.practice.part_off_slow_radius, r), hole);
  step.segments.push_back(across(work, cut, at, r, slow, op.shop.practice.plunge_approach));
  if (hole < slow) {
    Length& feed = cut.conditions.used.feed;
    feed = machine_feed(op.machine, feed * op.shop.practice.part_off_slow_feed);
    CutSegment end = across(work, cut, at, slow, hole, Length(0.0));
    end.starts_pass = false;
    step.segments.push_back(end);
  }
  step.from = at - tool->width;
  step.to = at;
  work.commit_outside(std::move(step), work.outside.only(at, work.outside.right()));
  return {};
}

}  // namespace turnwright::steps
