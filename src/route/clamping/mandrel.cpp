// SPDX-License-Identifier: MIT
#include <optional>

#include "clamping/jaws.hpp"
#include "geometry/bend.hpp"

namespace turnwright {
namespace {

bool takes_mandrel(const PlanContext& context, const Surface& s) {
  const Job& job = context.job;
  const Practice& practice = context.shop.practice;
  const bool straight = job.element_of(s).kind == ElementKind::cylinder;
  const bool through = s.left.si < job.left().si + same_point && s.right.si > -same_point;
  return s.inside() && straight && through && s.grade <= practice.mandrel_grade && s.toleranced &&
         s.diameter() >= practice.least_mandrel;
}

// A finished bore right through that a mandrel fits.
std::optional<std::size_t> through_bore(const PlanContext& context) {
  const Job& job = context.job;
  for (std::size_t n = 0; n < job.surfaces.size(); ++n)
    if (takes_mandrel(context, job.surfaces[n])) return n;
  return std::nullopt;
}

bool outside_here(const Surface& s, const Turned& turned) {
  const Length middle = (s.left + s.right) / 2.0;
  return !s.inside() && (turned.from_left ? middle < turned.cut_over : middle > turned.cut_over);
}

// A tie between a bore and what is turned here, that soft jaws hardly hold.
bool tied_to_bore(const PlanContext& context, const Turned& turned, std::size_t bore) {
  const Job& job = context.job;
  const Shop& shop = context.shop;
  const Length jaws = shop.practice.check_margin * shop.accuracy(AccuracyId::soft_jaws);
  auto here = [&](std::size_t n) { return outside_here(job.surfaces[n], turned); };
  for (std::size_t n = 0; n < job.surfaces.size(); ++n)
    for (const Tie& tie : job.element_of(job.surfaces[n]).ties) {
      if (tie.value > jaws) continue;
      for (std::size_t m = 0; m < job.surfaces.size(); ++m)
        if (is_seat(job, m, tie.datum) && ((n == bore && here(m)) || (m == bore && here(n))))
          return true;
    }
  return false;
}

void clamp_on_mandrel(const PlanContext& context, const Surface& hole, OperationTask& task) {
  const Length overall = context.job.part.overall;
  Operation& operation = task.operation;
  operation.mandrel = true;
  operation.support = Support::between_centres;
  operation.holder = Holder::mandrel;
  operation.grip_diameter = hole.diameter();
  operation.grip_from = hole.left;
  operation.grip_to = hole.right;
  operation.stick_out = overall;
  task.jaw = -overall;
  const Length d = effective_diameter(task.target, task.jaw, Length(0.0));
  operation.free_ratio = (overall / d).si;
  operation.why = {"clamping.on-mandrel", {{"surface", hole.name}}};
}

}  // namespace

bool wants_mandrel(const PlanContext& context, const Turned& turned, bool nothing_held) {
  const auto bore = through_bore(context);
  // It runs between centres.
  if (!context.machine.tailstock) return false;
  if (!bore || (context.job.surfaces[*bore].region == Region::bore_left) == turned.from_left)
    return false;
  return nothing_held || tied_to_bore(context, turned, *bore);
}

Planned<Layout> on_mandrel(const PlanContext& context, OperationTask task, Layout layout) {
  const Job& job = context.job;
  const View v = context.view(task.operation.from_left);
  clamp_on_mandrel(context, job.surfaces[*through_bore(context)], task);
  task.operation.mass = body_volume(task.work, v.local(layout.hollow)) * job.material.density;
  layout.tie_rests_on = accuracy_of(context.shop, AccuracyId::mandrel, "clamping.mandrel");
  take_stated_times(context, task);
  decide_two_cuts(context, task, layout);
  return with_operation(context, std::move(task), std::move(layout));
}

}  // namespace turnwright
