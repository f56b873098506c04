// SPDX-License-Identifier: MIT
// Bar through the spindle, parted off: one operation.
#include "clamping/blank.hpp"
#include "clamping/grip.hpp"
#include "clamping/support.hpp"
#include "steps/tools.hpp"

namespace turnwright {
namespace {

Length parting_width(const PlanContext& context) {
  const Tool* tool = parting_tool(context.shop, context.job.stock.diameter / 2.0);
  return tool != nullptr ? tool->width : 3.0 * unit::mm;
}

// Bar stands out as far as the part, the parting tool and the clearance of the jaws.
void clamp_bar(const PlanContext& context, Length kerf, OperationTask& task) {
  const Job& job = context.job;
  Operation& operation = task.operation;
  task.jaw = -job.part.overall - kerf - context.machine.chuck.jaw_clearance;
  operation.number = 10;
  operation.from_bar = true;
  operation.why = "clamping.bar-parted-off";
  operation.grip_from = task.jaw - grip_length(context, job.stock.diameter);
  operation.grip_to = task.jaw;
  operation.grip_diameter = job.stock.diameter;
  operation.mass = blank_mass(job);
}

OperationTask bar_task(const PlanContext& context) {
  const Job& job = context.job;
  const Length kerf = parting_width(context);
  OperationTask task;
  task.last = true;
  task.work =
      Outline::cylinder(job.left() - kerf, job.stock.facing_right, job.stock.diameter / 2.0);
  task.target = job.turned;
  task.final = job.finished;
  task.zone_left = job.left();
  task.facing = job.stock.facing_right;
  task.part_off = true;
  task.part_off_at = job.left();
  task.given = job.given;
  clamp_bar(context, kerf, task);
  return task;
}

Messages bar_cautions(const PlanContext& context) {
  Messages cautions;
  if (!context.machine.parts_catcher)
    cautions.push_back({"clamping.no-parts-catcher", {{"machine", context.machine.name}}});
  if (context.job.part.outside.back().ra && context.job.part.left_face.ra)
    cautions.push_back("clamping.face-as-parted");
  return cautions;
}

}  // namespace

Planned<Layout> parted_from_bar(const PlanContext& context) {
  if (context.bored_from(true)) return left_bore_out_of_reach();
  Layout layout;
  layout.hollow = blank_hollow(context.job);
  layout.cautions = bar_cautions(context);
  auto task = supported(context, bar_task(context), layout.cautions);
  if (!task) return task.infeasible();
  Operation& operation = task->operation;
  if (operation.support == Support::chuck_and_centre)
    return Infeasible{"clamping.parting-at-centre", {"plan.try-sawn-blanks"}};
  // A collet closes on bright bar only.
  operation.collet = !context.job.stock.skin;
  operation.holder = operation.collet ? Holder::bar_in_collet : Holder::bar_in_chuck;
  decide_two_cuts(context, *task, layout);
  return with_operation(context, std::move(*task), std::move(layout));
}

}  // namespace turnwright
