// SPDX-License-Identifier: MIT
// Conditions of tools that work a hole on its axis, and of threads.
#include <algorithm>
#include <cmath>

#include "conditions.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/speeds.hpp"

namespace turnwright {
namespace {

constexpr double drill_feed_share = 0.016;  // of the diameter, a drill maker's guide
constexpr double reamer_feed_factor = 2.5;  // two to three times the drill's (from memory)
constexpr double axial_grip = 0.2;          // friction of jaws along the axis, as across (memory)
constexpr double threading_share = 0.7;     // of the rapid speed, 60 to 80 % (from memory)
constexpr Speed half_nut_speed(0.6 /
                               60);  // m/s: faster, nobody opens the half-nuts in time (memory)

// The deep-hole factors from the row at or below the ratio.
double deep_factor(const DeepHoles& deep, const std::vector<double>& factors, double ratio) {
  double factor = 1;
  for (std::size_t i = 0; i < deep.ratio.size(); ++i)
    if (ratio > deep.ratio[i] + 1e-9) factor = factors[i];
  return factor;
}

void clamp(CutConditions& k, const CutContext& c, Length diameter) {
  const Frequency wanted =
      figure::SpindleSpeed::work_out<>({k.used.surface_speed, diameter}).spindle_speed;
  const Frequency fastest = fastest_speed(c.machine);
  k.limits.push_back({"spindle speed", fastest.si, min(wanted, fastest).si, unit::rev_per_min,
                      wanted > fastest, wanted > fastest ? "none: the time rises" : ""});
}

void life(CutConditions& k, const CutContext& c, Speed table) {
  const Grade* grade = c.shop.grade(c.tool.grade);
  if (grade == nullptr) return;
  const double op = c.shop.step_factor(step_factor_name(c.kind, c.tool, c.machine)).speed;
  k.taylor_exponent = grade->exponent;
  k.taylor_constant = table * op * std::pow(in(grade->reference_life, unit::min), grade->exponent);
}

}  // namespace

CutConditions hole_conditions(const CutContext& c, Length diameter, Length depth) {
  CutConditions k;
  const TableSpeed table = table_speed(c.shop, c.material, c.tool.grade, hole_table_depth);
  const double ratio = (depth / diameter).si;
  const double op = c.shop.step_factor(step_factor_name(c.kind, c.tool, c.machine)).speed;
  const bool drills = c.tool.kind == ToolKind::drill;
  const double factor = c.tool.kind == ToolKind::ream ? reamer_feed_factor : 1.0;
  k.wanted.surface_speed = machine_factor(c) * op * table.speed;
  k.wanted.feed = factor * drill_feed_share * diameter;
  k.wanted.depth = diameter / 2.0;
  k.used = k.wanted;
  if (drills) {
    k.used.surface_speed =
        k.used.surface_speed * deep_factor(c.shop.deep_holes, c.shop.deep_holes.speed, ratio);
    k.used.feed = k.used.feed * deep_factor(c.shop.deep_holes, c.shop.deep_holes.feed, ratio);
    k.limits.push_back({"depth in diameters", c.tool.deepest, ratio, unit::ratio, ratio > 3,
                        ratio > 3 ? "speed and feed, pecks" : ""});
  }
  const bool binding = k.used.feed > c.tool.largest_feed;
  k.used.feed = max(min(k.used.feed, c.tool.largest_feed), c.tool.least_feed);
  k.limits.push_back({"tool feed", c.tool.largest_feed.si, k.used.feed.si, unit::mm_per_rev,
                      binding, binding ? "feed" : ""});
  if (drills) {
    const Pressure kc = figure::SpecificForce::work_out<>(
                            {c.material.kc11, c.material.mc, k.used.feed / 2.0, c.tool.lead_angle})
                            .specific_force;
    auto load = [&] {
      return figure::DrillLoad::work_out<>(
          {diameter, k.used.feed, kc, k.used.surface_speed, 2.0 * c.tool.lead_angle});
    };
    const Power rated = c.machine.power * c.machine.efficiency;
    const bool weak = load().power > rated;
    if (weak) k.used.surface_speed = k.used.surface_speed * (rated / load().power).si;
    k.limits.push_back(
        {"power", rated.si, load().power.si, unit::kW, weak, weak ? "surface speed" : ""});
    const Torque torque = c.machine.largest_torque * c.machine.efficiency;
    const Force push = axial_grip * c.machine.chuck.grip_force / grip_safety;
    const bool slips = c.grip_diameter.si > 0 && load().thrust > push;
    const bool heavy = load().torque > torque || slips;
    for (int i = 0; i < 40 && k.used.feed > c.tool.least_feed &&
                    (load().torque > torque || (slips && load().thrust > push));
         ++i)
      k.used.feed = max(k.used.feed * 0.9, c.tool.least_feed);
    k.limits.push_back({"torque", torque.si, load().torque.si, unit::Nm, heavy && !slips,
                        heavy && !slips ? "feed" : ""});
    if (c.grip_diameter.si > 0)
      k.limits.push_back(
          {"grip along the axis", push.si, load().thrust.si, unit::N, slips, slips ? "feed" : ""});
  }
  clamp(k, c, diameter);
  life(k, c, table.speed);
  return k;
}

CutConditions thread_conditions(const CutContext& c, Length diameter, Length lead, Length infeed) {
  CutConditions k;
  const bool on_axis = c.tool.kind == ToolKind::tap || c.tool.kind == ToolKind::die;
  const TableSpeed table =
      table_speed(c.shop, c.material, c.tool.grade, on_axis ? hole_table_depth : infeed);
  const double op = c.shop.step_factor(step_factor_name(c.kind, c.tool, c.machine)).speed;
  k.wanted = {machine_factor(c) * op * table.speed, lead, infeed};
  k.used = k.wanted;
  clamp(k, c, diameter);
  if (c.tool.kind == ToolKind::thread || c.tool.kind == ToolKind::inside_thread) {
    // The carriage must follow the spindle, and a hand the carriage.
    const Speed carriage = c.machine.manual() ? half_nut_speed : threading_share * c.machine.rapid;
    const Frequency fastest = carriage / lead;
    const Frequency n =
        figure::SpindleSpeed::work_out<>({k.used.surface_speed, diameter}).spindle_speed;
    const bool binding = n > fastest;
    if (binding) k.used.surface_speed = pi * diameter * fastest;
    k.limits.push_back({"threading feed rate", carriage.si, min(n * lead, carriage).si,
                        unit::m_per_min, binding, binding ? "surface speed" : ""});
  }
  life(k, c, table.speed);
  return k;
}

}  // namespace turnwright
