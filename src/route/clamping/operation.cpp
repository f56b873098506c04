// SPDX-License-Identifier: MIT
// One operation more in a layout.
#include "clamping/grip.hpp"
#include "geometry/profile.hpp"
#include "reasons.hpp"
#include "steps/plan_operation.hpp"

namespace turnwright {
namespace {

// A bore right through goes on as far as the parting tool is wide: the piece falls off at its wall.
Outline through_kerf(const OperationTask& task, const Practice& practice, const Outline& hollow) {
  if (hollow.empty() || task.work.left() >= hollow.left()) return hollow;
  const Length behind_edge = hollow.left() + practice.widest_edge;
  const Length r = min(hollow.right_of(hollow.left()), hollow.left_of(behind_edge));
  return joined(hollow, Outline::cylinder(task.work.left(), hollow.left(), r));
}

// What this operation opens inside: its own bore, in the last one whatever is left.
void open_inside(const PlanContext& context, const View& v, OperationTask& task) {
  const Job& job = context.job;
  const Bore& own = job.bores[v.from_left ? 1 : 0];
  if (!task.turn || !job.bored()) return;
  if (task.last) {
    task.hollow_final = v.local(job.hollow());
    task.hollow_target = v.local(job.hollow_turned());
  } else if (!own.empty()) {
    task.hollow_final = v.local(own.finished);
    task.hollow_target = v.local(own.turned);
  }
  if (!own.empty()) task.bore = &own;
  // Drill and reamer go through by themselves.
  if (task.part_off && own.through && !own.to_size && !own.reamed) {
    task.hollow_final = through_kerf(task, context.shop.practice, task.hollow_final);
    task.hollow_target = through_kerf(task, context.shop.practice, task.hollow_target);
  }
  task.far_edges = context.far_edges && !own.empty();
}

template <class T>
void append(std::vector<T>& to, const std::vector<T>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

}  // namespace

void take_stated_times(const PlanContext& context, OperationTask& task) {
  const View v = context.view(task.operation.from_left);
  for (const GivenTime& g : context.job.given)
    if (g.left ? v.from_left : v.z(g.z) >= task.zone_left + Length(same_point))
      task.given.push_back(g);
}

Planned<Layout> with_operation(const PlanContext& context, OperationTask task, Layout layout) {
  const View v = context.view(task.operation.from_left);
  const int number = task.operation.number;
  const Machine machine = with_chuck_speed(context, task.operation);
  task.hollow = v.local(layout.hollow);
  open_inside(context, v, task);
  task.made = layout.made;
  auto planned = plan_operation(context.job, context.shop, machine, v, std::move(task));
  if (!planned)
    return Infeasible{in_operation(number, planned.infeasible().why),
                      planned.infeasible().remedies};
  append(layout.cautions, planned->cautions);
  append(layout.features, planned->features);
  layout.hollow = planned->operation.hollow_after;
  for (const Step& step : planned->operation.steps)
    if (step.kind == StepKind::knurl || step.kind == StepKind::thread)
      append(layout.made, step.gauged);
  layout.operations.push_back(std::move(planned->operation));
  return layout;
}

}  // namespace turnwright
