// SPDX-License-Identifier: MIT
#include "clamping/grip.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/bend.hpp"
#include "turnwright/route/bench.hpp"

namespace turnwright {

Length full_grip(const PlanContext& context, Length diameter) {
  return full_grip(context.shop.practice, diameter);
}
Length fair_grip(const PlanContext& context, Length diameter) {
  const Practice& practice = context.shop.practice;
  return max(practice.fair_grip * diameter, practice.least_grip);
}
Length shortest_grip(const PlanContext& context, Length diameter) {
  const Practice& practice = context.shop.practice;
  constexpr double of_turned_rim = 2;  // a raw rim is no true seat: from memory
  const double share = context.on_rim ? of_turned_rim * practice.rim_grip : practice.short_grip;
  return max(std::min(share, practice.short_grip) * diameter, practice.least_short_grip);
}

Length least_grip(const PlanContext& context, Length diameter) {
  return (context.short_grip ? shortest_grip : fair_grip)(context, diameter);
}

Length reach_of_jaws(const PlanContext& context, const Outline& work) {
  for (const Segment& s : work.pieces())
    if (2.0 * max(s.from.r, s.to.r) > context.machine.spindle_bore + Length(same_point))
      return s.from.z + context.machine.chuck.jaw_length;
  return work.right();
}

bool goes_through_spindle(const PlanContext& context) {
  return !context.cast() && context.job.stock.upper <= context.machine.spindle_bore;
}

Length facing_out(const PlanContext& context, const Operation& operation) {
  return context.shop.practice.facing_stick_out * operation.grip_diameter;
}

Length best_grip(const PlanContext& context, Length diameter, Length there) {
  return max(grip_length(context, diameter), min(context.machine.chuck.jaw_length, there));
}

Length grip_length(const PlanContext& context, Length diameter) {
  return context.short_grip ? shortest_grip(context, diameter) : full_grip(context, diameter);
}

Length lever_grip(const PlanContext& context, Length diameter, Length stick_out) {
  const Practice& practice = context.shop.practice;
  if (stick_out <= practice.disc * diameter) return Length(0.0);
  return min(practice.lever_grip * stick_out, fair_grip(context, diameter));
}

Length jaw_clearance(const PlanContext& context) {
  const Length usual = context.machine.chuck.jaw_clearance;
  return context.short_grip ? min(context.shop.practice.short_grip_clearance, usual) : usual;
}

void set_grip(Operation& operation, const View& view, Length local_from, Length local_to) {
  const Interval grip = view.between(local_from, local_to);
  operation.grip_from = grip.from;
  operation.grip_to = grip.to;
}

namespace {

// A rest or two centres hold what stands out.
Frequency whip_speed(const PlanContext& context, const Operation& o) {
  constexpr Frequency none(1e9);
  if (o.free_ratio <= 0 || o.steady || o.follow || o.support == Support::between_centres)
    return none;
  return steady_speed(context.job.material, o, o.support == Support::chuck_and_centre);
}

}  // namespace

Machine with_chuck_speed(const PlanContext& context, const Operation& operation) {
  const Practice& practice = context.shop.practice;
  Machine m = context.machine;
  m.chuck.rated_speed = min(m.chuck.rated_speed, whip_speed(context, operation));
  if (operation.support == Support::between_centres || operation.from_bar) return m;
  const double out = (operation.grip_diameter / (practice.rated_grip * m.chuck.diameter)).si;
  if (out > 1) m.chuck.rated_speed = m.chuck.rated_speed / std::sqrt(out);
  if (operation.four_jaw) m.chuck.rated_speed = m.chuck.rated_speed * practice.unbalanced;
  return m;
}

bool driven_by_little(const PlanContext& context, const Layout& layout) {
  const Operation& first = layout.operations.front();
  const Length held = first.grip_to - first.grip_from;
  return first.support == Support::chuck_and_centre && !context.cast() &&
         held.si < fair_grip(context, first.grip_diameter).si - same_point;
}

void caution_short_grips(const PlanContext& context, Layout& layout) {
  for (const Operation& operation : layout.operations) {
    const Length held = operation.grip_to - operation.grip_from;
    if (operation.support == Support::between_centres || operation.from_bar ||
        held.si >= fair_grip(context, operation.grip_diameter).si - same_point)
      continue;
    layout.cautions.push_back(
        {"clamping.short-grip",
         {{"operation", operation.number}, {"grip", held}, {"diameter", operation.grip_diameter}}});
    if (std::any_of(operation.steps.begin(), operation.steps.end(),
                    [](const Step& s) { return s.kind == StepKind::knurl; }))
      layout.cautions.push_back(
          {"clamping.knurled-on-little", {{"operation", operation.number}, {"grip", held}}});
  }
}

}  // namespace turnwright
