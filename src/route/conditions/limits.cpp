// SPDX-License-Identifier: MIT
#include "conditions/limits.hpp"

#include <cmath>

#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/finish.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/route/bench.hpp"

namespace turnwright {
namespace {

// A torque that is met to the last digit is not overstepped.
constexpr double met = 1 + 1e-9;

void note(CutState& s, LimitId limit, double allowed, double actual, const Unit& unit, bool binding,
          Remedy changed) {
  s.conditions.limits.push_back(checked(limit, allowed, actual, unit, binding, changed));
}

Pressure specific_force(const CutState& s) {
  const CutContext& c = s.context;
  return figure::SpecificForce::work_out<>(
             {c.material.kc11, c.material.mc, s.conditions.used.feed,
              c.tool.lead_angle.si > 0 ? c.tool.lead_angle : Number(pi / 2)})
      .specific_force;
}
Length width_of_cut(const CutState& s) {
  return s.plunges() ? s.context.tool.width : s.conditions.used.depth;
}
Force cutting_force(const CutState& s) {
  return figure::CuttingForce::work_out<>(
             {width_of_cut(s), s.conditions.used.feed, specific_force(s)})
      .force;
}
// What the cut takes at a speed.
Power power_taken(const CutState& s, Speed v) {
  return figure::CuttingPower::work_out<>(
             {width_of_cut(s), s.conditions.used.feed, v, specific_force(s), 1.0})
      .power;
}
// Constant torque below the base speed, constant power above it.
Power power_at(const Machine& m, Frequency n) {
  return min(rated_power(m), 2 * pi * n * rated_torque(m));
}
Frequency spindle_speed(Speed v, Length diameter) {
  return figure::SpindleSpeed::work_out<>({v, diameter}).spindle_speed;
}

}  // namespace

// Ra goes with the square of the feed.
Length feed_for_roughness(const Policy& policy, Length nose_radius, Length ra) {
  const Length as_nose = figure::Roughness::work_out<>({nose_radius, nose_radius}).Ra;
  return nose_radius * sqrt(ra / (policy.roughness_factor * as_nose));
}

namespace {

// The roughness that a feed leaves.
Length roughness_at(const CutContext& c, Length feed) {
  return c.shop.policy.roughness_factor *
         figure::Roughness::work_out<>({feed, c.tool.nose_radius}).Ra;
}

// The step of the feed box at or below the wanted feed; where the tool rubs there and none asks for
// so little, the next one above.
Length fed(const Machine& machine, const Tool& tool, Length wanted, Length most) {
  const Length below = machine_feed(machine, wanted);
  if (below >= tool.least_feed || wanted < tool.least_feed) return below;
  for (const Length step : machine.feeds)
    if (step > below && step <= most) return step;
  return below;
}

// What a feed box of steps has is less than is wanted, or its finest step.
void note_roughness(CutState& s, Length wanted) {
  const CutContext& c = s.context;
  const Length real = roughness_at(c, s.conditions.used.feed);
  const bool missed = real.si > c.ra.si * met;
  note(s, LimitId::roughness, c.ra.si, real.si, unit::um, missed || wanted > s.conditions.used.feed,
       missed ? Remedy::finish_asks_for_less : Remedy::feed);
}

}  // namespace

void limit_feed(CutState& s) {
  const CutContext& c = s.context;
  const Tool& tool = c.tool;
  Length& feed = s.conditions.used.feed;
  const bool too_heavy = feed.si > tool.largest_feed.si + same_point;
  const Length by_tool = max(min(feed, tool.largest_feed), tool.least_feed);
  const bool smooth = c.ra.si > 0 && !s.plunges();
  const Length allowed =
      smooth ? feed_for_roughness(c.shop.policy, tool.nose_radius, c.ra) : by_tool;
  const bool binds = by_tool > allowed;
  feed = fed(c.machine, tool, min(by_tool, allowed), smooth ? allowed : tool.largest_feed);
  note(s, LimitId::tool_feed, tool.largest_feed.si, feed.si, unit::mm_per_rev, too_heavy,
       Remedy::feed);
  if (smooth) note_roughness(s, binds ? by_tool : feed);
  note(s, LimitId::least_feed, tool.least_feed.si, feed.si, unit::mm_per_rev,
       feed < tool.least_feed, Remedy::finish_asks_for_less);
}

Frequency real_spindle(const CutConditions& k, const CutContext& c, Length diameter) {
  return c.machine.ladder.empty()
             ? min(spindle_speed(k.used.surface_speed, diameter), fastest_speed(c.machine))
             : lever_speed(c, k, diameter, Length(0.0), Frequency(0.0));
}

void limit_power(CutState& s) {
  const CutContext& c = s.context;
  Speed& speed = s.conditions.used.surface_speed;
  const Speed v = speed;
  const Power rated = rated_power(c.machine);
  const bool binding = power_taken(s, v) > rated;
  if (binding) speed = v * (rated / power_taken(s, v)).si;
  // No lever is put above the speed where that would overload the lathe.
  s.conditions.at_most =
      power_taken(s, speed * (1 + c.shop.policy.ladder_band)).si > rated.si * met;
  const Frequency n = real_spindle(s.conditions, c, c.largest_diameter);
  const Speed real = c.machine.ladder.empty() ? speed : pi * c.largest_diameter * n;
  note(s, LimitId::power, rated.si, power_taken(s, real).si, unit::kW, binding,
       Remedy::surface_speed);
  if (s.plunges()) return;
  if (power_taken(s, real).si > power_at(c.machine, n).si * met) s.conditions.depth_ok = false;
  if (speed.si < c.shop.practice.least_speed_on_power * v.si) s.conditions.depth_ok = false;
}

void check_torque(CutState& s) {
  const CutContext& c = s.context;
  const Torque needed = cutting_force(s) * c.largest_diameter / 2.0;
  const Torque allowed = rated_torque(c.machine);
  const bool binding = needed.si > allowed.si * met;
  if (binding) s.conditions.depth_ok = false;
  note(s, LimitId::torque, allowed.si, needed.si, unit::Nm, binding, Remedy::one_more_pass);
}

void check_grip(CutState& s) {
  const CutContext& c = s.context;
  if (c.grip_diameter.si <= 0) return;
  const Torque needed = c.shop.practice.grip_safety * cutting_force(s) * c.largest_diameter / 2.0;
  const Torque allowed =
      c.shop.practice.friction_at_jaws * c.machine.chuck.grip_force * c.grip_diameter / 2.0;
  const bool binding = needed.si > allowed.si * met;
  if (binding) s.conditions.depth_ok = false;
  note(s, LimitId::grip, allowed.si, needed.si, unit::Nm, binding, Remedy::one_more_pass);
}

StepFactorId step_id(const CutContext& c) { return step_factor_of(c.kind, c.tool, c.machine); }

void check_spindle_speed(CutConditions& k, const CutContext& c, Length diameter) {
  const Frequency wanted = spindle_speed(k.used.surface_speed, diameter);
  const Frequency fastest = fastest_speed(c.machine);
  k.limits.push_back(checked(LimitId::spindle_speed, fastest.si, real_spindle(k, c, diameter).si,
                             unit::rev_per_min, wanted > fastest, Remedy::time_rises));
}

void set_life(CutConditions& k, const CutContext& c, const TableSpeed& table, double feed_effect) {
  const Grade* grade = c.shop.grade(c.tool.grade);
  if (grade == nullptr) return;
  k.reference_life = table.reference_life;
  k.taylor_exponent = grade->exponent;
  k.taylor_constant = table.of_step() * feed_effect *
                      std::pow(in(table.reference_life, unit::min), grade->exponent);
}

}  // namespace turnwright
