// SPDX-License-Identifier: MIT
// A drawn end is held that nobody cuts: one operation.
#include "clamping/blank.hpp"
#include "clamping/grip.hpp"
#include "clamping/support.hpp"

namespace turnwright {
namespace {

// The right end of what stays as drawn, from the left.
Length drawn_to(const Job& job) {
  Length end = job.left();
  const auto outside = job.outside();
  for (auto s = outside.rbegin(); s != outside.rend() && s->as_drawn; ++s) end = s->right;
  return end;
}

// Up to where nothing is cut, grooves included, from the left.
Length plain_to(const Job& job) {
  const auto& pieces = job.finished.pieces();
  const Length r = pieces.front().to.r;
  Length end = job.left();
  for (const Segment& s : pieces) {
    if (s.bulge != Bulge::none || s.from.r.si != s.to.r.si || s.to.r.si != r.si) break;
    end = s.to.z;
  }
  return end;
}

// Where the jaws end: beside the cut where the bar goes through the spindle.
Length jaws_end(const PlanContext& context) {
  const Job& job = context.job;
  const Length beside = min(drawn_to(job), plain_to(job)) - context.machine.chuck.jaw_clearance;
  const Length grip = best_grip(context, job.stock.diameter, beside - job.left());
  return goes_through_spindle(context) ? max(beside, job.left() + grip) : job.left() + grip;
}

OperationTask drawn_end_task(const PlanContext& context) {
  const Job& job = context.job;
  OperationTask task;
  Operation& operation = task.operation;
  task.last = true;
  operation.number = 10;
  operation.why = "clamping.drawn-end-held";
  operation.grip_to = jaws_end(context);
  operation.grip_from =
      operation.grip_to - best_grip(context, job.stock.diameter, operation.grip_to - job.left());
  operation.grip_diameter = job.stock.diameter;
  operation.mass = blank_mass(job);
  task.jaw = operation.grip_to;
  task.work = blank_outside(job);
  task.target = job.turned;
  task.final = job.finished;
  task.zone_left = task.jaw + context.machine.chuck.jaw_clearance;
  task.facing = job.stock.facing_right;
  task.given = job.given;
  return task;
}

}  // namespace

Infeasible left_bore_out_of_reach() {
  return {"clamping.left-bore-out-of-reach", {"plan.try-sawn-blanks", "plan.try-bore-from-right"}};
}

bool one_side_possible(const PlanContext& context) {
  const Job& job = context.job;
  if (job.stock.facing_left.si > 0 || context.wants_centre_at(true)) return false;
  // A drawn end that the jaws hold and that nobody cuts.
  return drawn_to(job) - job.left() >=
         grip_length(context, job.stock.diameter) + context.machine.chuck.jaw_clearance;
}

Planned<Layout> one_side(const PlanContext& context) {
  if (context.bored_from(true)) return left_bore_out_of_reach();
  Layout layout;
  layout.hollow = blank_hollow(context.job);
  auto task = supported(context, drawn_end_task(context), layout.cautions);
  if (!task) return task.infeasible();
  decide_two_cuts(context, *task, layout);
  return with_operation(context, std::move(*task), std::move(layout));
}

}  // namespace turnwright
