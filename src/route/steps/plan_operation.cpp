// SPDX-License-Identifier: MIT
#include "steps/plan_operation.hpp"

#include <vector>

#include "steps/gauge.hpp"
#include "steps/steps.hpp"

namespace turnwright {
namespace {

struct Work {
  bool wanted;
  Outcome (*step)(const OperationContext&, Workpiece&);
};

// The order of work.
std::vector<Work> order_of(const OperationTask& task) {
  const bool roughs = task.turn && task.roughs, finishes = task.turn && task.finishes;
  const bool opens = task.turn && !task.hollow_final.empty();
  // With a centre in its mouth the bore comes first.
  const bool first = opens && task.operation.support == Support::chuck_and_centre;
  const bool later = opens && !first;
  return {{task.facing.si > same_point, steps::face},
          {task.centre_hole, steps::centre},
          {opens, steps::drill},
          {first && roughs, steps::rough_bore},
          {first && finishes, steps::finish_bore},
          {first && finishes, steps::ream},
          {first && finishes, steps::inside_edges},
          {roughs, steps::rough},
          {roughs && !task.finisher_takes_both, steps::rough_behind},
          {later && roughs, steps::rough_bore},
          {finishes, steps::knurl},
          {finishes, steps::finish},
          {later && finishes, steps::finish_bore},
          {later && finishes, steps::ream},
          {finishes && !task.finisher_takes_both, steps::finish_behind},
          {finishes, steps::groove},
          {later && finishes, steps::inside_edges},
          {finishes, steps::face_groove},
          {finishes, steps::thread},
          {task.finishes, steps::stated_times},
          {task.part_off, steps::part_off}};
}

// Where the drawing asks for no finishing cut, the roughing cut is the last one.
void gauge_roughed(const OperationContext& op, Workpiece& work, std::size_t first) {
  for (std::size_t k = first; k < work.steps.size(); ++k)
    if (work.steps[k].kind == StepKind::rough)
      gauge_made(op, k == 0 ? op.task.work : work.steps[k - 1].work_after, work.steps[k].work_after,
                 work.steps[k]);
}

// The step as seen from the right-hand end of the part.
void globalise(Step& step, const View& view) {
  step.work_after = view.local(step.work_after);
  step.hollow_after = view.local(step.hollow_after);
  if (view.from_left) {
    const Interval span = view.between(step.from, step.to);
    step.from = span.from;
    step.to = span.to;
  }
  for (CutSegment& segment : step.segments) {
    segment.from.z = view.z(segment.from.z);
    segment.to.z = view.z(segment.to.z);
  }
}

OperationPlan in_global(const OperationTask& task, Workpiece work, const View& view) {
  OperationPlan planned{task.operation, std::move(work.features), std::move(work.cautions)};
  Operation& operation = planned.operation;
  operation.before = view.local(task.work);
  operation.after = view.local(work.outside);
  operation.hollow_before = view.local(task.hollow);
  operation.hollow_after = view.local(work.hollow);
  operation.steps = std::move(work.steps);
  for (Step& step : operation.steps) {
    globalise(step, view);
    const bool before = step.kind == StepKind::face || step.kind == StepKind::centre;
    if (operation.drawn_in && before) step.stick_out = task.facing_out;
  }
  return planned;
}

}  // namespace

Planned<OperationPlan> plan_operation(const Job& job, const Shop& shop, const Machine& machine,
                                      const View& view, OperationTask task) {
  const OperationContext op{job, shop, machine, view, task};
  Workpiece work(task);
  for (const Work& next : order_of(task)) {
    if (!next.wanted) continue;
    const std::size_t first = work.steps.size();
    if (Outcome fails = next.step(op, work)) return std::move(*fails);
    gauge_roughed(op, work, first);
  }
  return in_global(task, std::move(work), view);
}

}  // namespace turnwright
