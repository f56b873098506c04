// SPDX-License-Identifier: MIT
// Faces and centre holes in the chuck, then all turning between the same two centres.
#include "clamping/blank.hpp"
#include "clamping/grip.hpp"
#include "clamping/jaws.hpp"
#include "geometry/bend.hpp"

namespace turnwright {
namespace {

void clamp_for_facing(const PlanContext& context, const View& v, OperationTask& task) {
  const Job& job = context.job;
  const Length d = job.stock.diameter;
  Operation& operation = task.operation;
  task.facing = v.from_left ? job.stock.facing_left : job.stock.facing_right;
  task.centre_hole = true;
  const Practice& practice = context.shop.practice;
  task.jaw = -min(practice.facing_stick_out * d, practice.facing_share * job.part.overall);
  task.zone_left = task.jaw + context.machine.chuck.jaw_clearance;
  set_grip(operation, v, max(task.jaw - grip_length(context, d), task.work.left()), task.jaw);
  operation.grip_diameter = d;
  operation.holder = Holder::chuck;
  operation.stick_out = -task.jaw;
  operation.free_ratio = (operation.stick_out / d).si;
  operation.why = "clamping.face-and-centre-only";
}

// What covers one end of the work.
Length covered(const PlanContext& context) {
  const Practice& practice = context.shop.practice;
  return context.machine.manual() ? practice.dog_length : practice.driver_length;
}

// A face driver leaves the length free; a dog covers its end.
Planned<OperationTask> clamped_between_centres(const PlanContext& context, const View& v,
                                               Length cut_over, OperationTask task) {
  const Practice& practice = context.shop.practice;
  const bool dog = context.machine.manual();
  const Length overall = context.job.part.overall, end = -overall;
  const Length free_from = end + covered(context);
  if (cut_over < free_from - Length(same_point))
    return Infeasible{"clamping.driver-covers-cut", {"plan.try-face-driver", "plan.try-grinding"}};
  task.jaw = end;
  task.zone_left = v.from_left ? cut_over : max(free_from, cut_over - practice.overlap);
  Operation& operation = task.operation;
  set_grip(operation, v, end, end);
  operation.support = Support::between_centres;
  operation.holder = dog ? Holder::dog : Holder::face_driver;
  operation.stick_out = overall;
  operation.free_ratio = (overall / effective_diameter(task.target, end, Length(0.0))).si;
  operation.why = "clamping.seats-from-same-centres";
  return task;
}

Outline aimed(const View& v, const Outline& shape, Length cut_over, Length top) {
  return v.from_left ? v.local(shape) : raised_left(v.local(shape), cut_over, top);
}

OperationTask task_of(const Job& job, const View& v, Length cut_over, const Outline& work) {
  const Length top = job.turned.largest();
  OperationTask task;
  task.operation.from_left = v.from_left;
  task.work = v.local(work);
  task.operation.mass = work.volume() * job.material.density;
  task.target = aimed(v, job.turned, cut_over, top);
  task.final = aimed(v, job.finished, cut_over, top);
  return task;
}

void take_stated_times(const Job& job, const View& v, Length cut_over, OperationTask& task) {
  for (const GivenTime& g : job.given) {
    const bool right = !g.left && g.z >= v.z(cut_over) - Length(same_point);
    if (right != v.from_left) task.given.push_back(g);
  }
}

// The left end of the widest, or as near to it as the dog at that end lets the first cut come.
Length change_over(const PlanContext& context) {
  const Interval wide = widest(context.job);
  return min(max(wide.from, context.job.left() + covered(context)), wide.to);
}

Planned<Layout> with_end(const PlanContext& context, bool turn, bool from_left, Layout layout) {
  const Job& job = context.job;
  const View v = context.view(from_left);
  const Length cut_over = v.z(change_over(context));
  OperationTask task =
      task_of(job, v, cut_over,
              layout.operations.empty() ? blank_outside(job) : layout.operations.back().after);
  task.operation.number = static_cast<int>(layout.operations.size() + 1) * 10;
  task.turn = turn;
  if (!turn) {
    clamp_for_facing(context, v, task);
    return with_operation(context, std::move(task), std::move(layout));
  }
  auto clamped = clamped_between_centres(context, v, cut_over, std::move(task));
  if (!clamped) return clamped.infeasible();
  take_stated_times(job, v, cut_over, *clamped);
  decide_two_cuts(context, *clamped, layout);
  return with_operation(context, std::move(*clamped), std::move(layout));
}

// Why there are no two centres to turn between.
Message no_centres(const PlanContext& context) {
  if (context.job.bored() || context.cast()) return "clamping.no-centres-at-both-ends";
  if (context.machine.tailstock) return "clamping.drawing-allows-no-centres";
  return {"clamping.nothing-between", {{"machine", context.machine.name}}};
}

}  // namespace

bool centres_possible(const PlanContext& context) {
  return !context.job.bored() && !context.cast() && context.machine.tailstock &&
         context.job.part.centres.keep != CentreUse::no;
}

bool tie_needs_centres(const PlanContext& context) {
  if (!centres_possible(context)) return false;
  const Job& job = context.job;
  const Interval wide = widest(job);
  const Length middle = (wide.from + wide.to) / 2.0;
  auto right = [&](const Surface& s) { return (s.left + s.right) / 2.0 > middle; };
  const Length soft = context.shop.accuracy(AccuracyId::soft_jaws);
  for (const Surface& s : job.outside())
    for (const Tie& tie : job.element_of(s).ties)
      for (std::size_t n = 0; n < job.outside().size(); ++n)
        if (tie.value.si < soft.si - same_point && is_seat(job, n, tie.datum) &&
            right(s) != right(job.surfaces[n]))
          return true;
  return false;
}

Planned<Layout> between_centres(const PlanContext& context) {
  if (!centres_possible(context))
    return Infeasible{no_centres(context), {"plan.try-mandrel", "plan.try-grinding"}};
  Planned<Layout> layout = Layout{};
  for (const bool turn : {false, true})
    for (const bool from_left : {false, true})
      if (layout) layout = with_end(context, turn, from_left, std::move(*layout));
  if (!layout) return layout;
  layout->tie_rests_on =
      accuracy_of(context.shop, AccuracyId::between_centres, "clamping.between-centres");
  layout->cautions.push_back({"clamping.tied-between-centres",
                              {{"accuracy", context.shop.accuracy(AccuracyId::between_centres)}}});
  return layout;
}

}  // namespace turnwright
