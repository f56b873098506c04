// SPDX-License-Identifier: MIT
// Parted off a bar through the spindle, or a sawn length in the chuck; the second end turned round
// where it asks for it.
#include <algorithm>

#include "clamping/blank.hpp"
#include "clamping/grip.hpp"
#include "clamping/layouts/parting.hpp"
#include "clamping/layouts/rechucking.hpp"
#include "clamping/support.hpp"

namespace turnwright {
namespace {

// Where the piece is parted: a second operation faces what is left on it.
Length back_of(const Job& job) { return job.left() - job.stock.facing_left; }

// It stands out as far as the part, the parting tool and the clearance of the jaws; a length for
// several pieces as far as all of them for the first.
void clamp_bar(const PlanContext& context, Length kerf, OperationTask& task) {
  const Job& job = context.job;
  const Stock& stock = job.stock;
  Operation& operation = task.operation;
  operation.pieces = std::max(stock.pieces, 1);
  const Length others = (operation.pieces - 1) * (stock.length + kerf);
  task.jaw = back_of(job) - kerf - others - context.machine.chuck.jaw_clearance;
  operation.number = 10;
  operation.from_bar = stock.from_bar;
  operation.why = stock.from_bar ? "clamping.bar-parted-off" : "clamping.length-parted-off";
  operation.grip_from =
      task.jaw - best_grip(context, stock.diameter, context.machine.chuck.jaw_length);
  operation.grip_to = task.jaw;
  operation.grip_diameter = stock.diameter;
  operation.mass =
      stock.pieces > 0 ? stock.sawn * stock.section * job.material.density : blank_mass(job);
}

// What is turned from the bar: right of `cut_over`.
OperationTask bar_task(const PlanContext& context, Length cut_over) {
  const Job& job = context.job;
  const Length kerf = parting_width(context, job), back = back_of(job);
  const Length top = max(job.turned.largest(), job.stock.diameter / 2.0);
  OperationTask task;
  task.last = cut_over <= job.left();
  task.work = Outline::cylinder(back - kerf, job.stock.facing_right, job.stock.diameter / 2.0);
  task.target = raised_left(job.turned, cut_over, top);
  task.final = raised_left(job.finished, cut_over, top);
  task.zone_left = max(cut_over, job.left());
  task.facing = job.stock.facing_right;
  task.part_off = true;
  task.part_off_at = back;
  clamp_bar(context, kerf, task);
  return task;
}

Messages parting_cautions(const PlanContext& context) {
  Messages cautions;
  if (!context.machine.parts_catcher)
    cautions.push_back({"clamping.no-parts-catcher", {{"machine", context.machine.name}}});
  if (context.job.part.outside.back().ra && context.job.part.left_face.ra)
    cautions.push_back("clamping.face-as-parted");
  return cautions;
}

Planned<Layout> turned_from_bar(const PlanContext& context, Length cut_over) {
  Layout layout;
  layout.hollow = blank_hollow(context.job);
  layout.cautions = parting_cautions(context);
  OperationTask all = bar_task(context, cut_over);
  if (all.last)
    all.given = context.job.given;
  else
    take_stated_times(context, all);
  auto task = supported(context, std::move(all), layout.cautions);
  if (!task) return task.infeasible();
  Operation& operation = task->operation;
  if (operation.support == Support::chuck_and_centre) {
    if (operation.free_ratio > context.shop.practice.parting_ratio)
      return Infeasible{"clamping.parting-at-centre", {"plan.try-sawn-blanks"}};
    layout.cautions.push_back(
        {"clamping.centre-withdrawn", {{"ratio", Figure{operation.free_ratio, 2}}}});
  }
  if (operation.from_bar) {
    // A collet closes on bright bar only.
    operation.collet = !context.job.stock.skin;
    operation.holder = operation.collet ? Holder::bar_in_collet : Holder::bar_in_chuck;
  }
  decide_two_cuts(context, *task, layout);
  return with_operation(context, std::move(*task), std::move(layout));
}

Planned<Layout> in_one_operation(const PlanContext& context) {
  if (context.bored_from(true)) return left_bore_out_of_reach();
  if (context.wants_centre_at(true))
    return Infeasible{"clamping.left-centre-out-of-reach", {"plan.try-sawn-blanks"}};
  return turned_from_bar(context, context.job.left());
}

// Right of the edge that breaks the left end, or of what is smaller there.
Length second_cut_over(const Job& job) {
  const Length widest_from = widest(job).from;
  if (widest_from.si > job.left().si + same_point) return widest_from;
  for (const Segment& s : job.finished.pieces())
    if (s.bulge == Bulge::none && s.from.r.si == s.to.r.si && s.to.z.si > job.left().si)
      return max(s.from.z, job.left() + Length(same_point));
  return job.left() + Length(same_point);
}

// Parted with stock on the left face, turned round and finished in a collet or soft jaws.
Planned<Layout> in_two_operations(const PlanContext& context) {
  Job job = context.job;
  job.stock.facing_left = context.shop.practice.face_in_one;
  job.stock.length = job.stock.length + job.stock.facing_left;
  job.stock.sawn = job.stock.sawn + job.stock.pieces * job.stock.facing_left;
  PlanContext faced{job, context.shop, context.machine, context.request};
  const Length over = second_cut_over(job);
  const auto first = turned_from_bar(faced, over);
  if (!first) return first;
  const Rechucking second{{true, over}, 20, true, true, true};
  auto layout = rechucked(faced, second, *first);
  if (!layout) {
    // On a short hexagon or collar, the face on the step of the jaws.
    faced.short_grip = faced.on_rim = true;
    if (auto on_little = rechucked(faced, second, *first)) layout = std::move(on_little);
  }
  if (layout) {
    layout->stock = job.stock;
    return layout;
  }
  Infeasible fails = layout.infeasible();
  fails.remedies.emplace_back("plan.try-written-from-other-end");
  return fails;
}

// A bore, a centre or a thread at the left end: its second operation is the usual one.
bool asks_for_second(const PlanContext& context) {
  const Job& job = context.job;
  const auto outside = job.outside();
  const bool thread = job.element_of(outside.back()).kind == ElementKind::thread;
  return context.bored_from(true) || context.wants_centre_at(true) ||
         (thread && widest(job).from > job.left());
}

}  // namespace

Planned<Layout> parted_from_bar(const PlanContext& context) {
  if (context.request.two_at_least) return in_two_operations(context);
  const bool two_first = asks_for_second(context);
  auto first = (two_first ? in_two_operations : in_one_operation)(context);
  if (first) return first;
  auto other = (two_first ? in_one_operation : in_two_operations)(context);
  return other ? std::move(other) : std::move(first);
}

}  // namespace turnwright
