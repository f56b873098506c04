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
  return min(m.power * m.efficiency, 2 * pi * n * m.largest_torque * m.efficiency);
}
Frequency spindle_speed(Speed v, Length diameter) {
  return figure::SpindleSpeed::work_out<>({v, diameter}).spindle_speed;
}

}  // namespace

// Ra = k f^2 / (32 r), solved for the feed.
Length feed_for_roughness(const Policy& policy, Length nose_radius, Length ra) {
  return sqrt(32.0 * nose_radius * ra / policy.roughness_factor);
}

void limit_tool_feed(CutState& s) {
  const Tool& tool = s.context.tool;
  Length& feed = s.conditions.used.feed;
  const bool binding = feed.si > tool.largest_feed.si + same_point;
  feed = max(min(feed, tool.largest_feed), tool.least_feed);
  note(s, LimitId::tool_feed, tool.largest_feed.si, feed.si, unit::mm_per_rev, binding,
       Remedy::feed);
}

void limit_roughness(CutState& s) {
  const CutContext& c = s.context;
  if (c.ra.si <= 0 || s.plunges()) return;
  Length& feed = s.conditions.used.feed;
  const double k = c.shop.policy.roughness_factor;
  const Length allowed = feed_for_roughness(c.shop.policy, c.tool.nose_radius, c.ra);
  const bool binding = feed > allowed;
  if (binding) feed = allowed;
  const Length real = k * figure::Roughness::work_out<>({feed, c.tool.nose_radius}).Ra;
  note(s, LimitId::roughness, c.ra.si, real.si, unit::um, binding, Remedy::feed);
}

void check_least_feed(CutState& s) {
  const Length least = s.context.tool.least_feed, feed = s.conditions.used.feed;
  note(s, LimitId::least_feed, least.si, feed.si, unit::mm_per_rev, feed < least,
       Remedy::finish_asks_for_less);
}

void limit_power(CutState& s) {
  const CutContext& c = s.context;
  Speed& speed = s.conditions.used.surface_speed;
  const Speed v = speed;
  const Power rated = rated_power(c.machine);
  const bool binding = power_taken(s, v) > rated;
  if (binding) speed = v * (rated / power_taken(s, v)).si;
  note(s, LimitId::power, rated.si, power_taken(s, speed).si, unit::kW, binding,
       Remedy::surface_speed);
  if (s.plunges()) return;
  const Frequency n = min(spindle_speed(speed, c.largest_diameter), fastest_speed(c.machine));
  if (power_taken(s, speed).si > power_at(c.machine, n).si * met) s.conditions.depth_ok = false;
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
  k.limits.push_back(checked(LimitId::spindle_speed, fastest.si, min(wanted, fastest).si,
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
