// SPDX-License-Identifier: MIT
// Conditions of tools that work a hole on its axis.
#include "conditions/limits.hpp"
#include "turnwright/figure/cutting.hpp"

namespace turnwright {
namespace {

// The deep-hole factors from the row at or below the ratio.
double deep_factor(const DeepHoles& deep, const std::vector<double>& factors, double ratio) {
  double factor = 1;
  for (std::size_t i = 0; i < deep.ratio.size(); ++i)
    if (ratio > deep.ratio[i] + 1e-9) factor = factors[i];
  return factor;
}

void limit_deep_hole(CutConditions& k, const CutContext& c, double ratio) {
  const DeepHoles& deep = c.shop.deep_holes;
  k.used.surface_speed = k.used.surface_speed * deep_factor(deep, deep.speed, ratio);
  k.used.feed = k.used.feed * deep_factor(deep, deep.feed, ratio);
  k.limits.push_back(checked(LimitId::depth_in_diameters, c.tool.deepest, ratio, unit::ratio,
                             ratio > c.shop.practice.deep_from, Remedy::speed_and_feed_and_pecks));
}

void limit_feed(CutConditions& k, const Tool& tool) {
  const bool binding = k.used.feed > tool.largest_feed;
  k.used.feed = max(min(k.used.feed, tool.largest_feed), tool.least_feed);
  k.limits.push_back(checked(LimitId::tool_feed, tool.largest_feed.si, k.used.feed.si,
                             unit::mm_per_rev, binding, Remedy::feed));
}

// What a drill takes of the machine at the conditions as they stand.
class DrillLoad {
 public:
  DrillLoad(const CutConditions& k, const CutContext& c, Length diameter)
      : k_(k), c_(c), diameter_(diameter) {}
  auto operator()(Speed speed) const {
    const Pressure kc = figure::SpecificForce::work_out<>({c_.material.kc11, c_.material.mc,
                                                           k_.used.feed / 2.0, c_.tool.lead_angle})
                            .specific_force;
    return figure::DrillLoad::work_out<>(
        {diameter_, k_.used.feed, kc, speed, 2.0 * c_.tool.lead_angle});
  }
  auto operator()() const { return (*this)(k_.used.surface_speed); }
  Length diameter() const { return diameter_; }

 private:
  const CutConditions& k_;
  const CutContext& c_;
  Length diameter_;
};

// At the step of the spindle that it really runs at.
void limit_drill_power(CutConditions& k, const CutContext& c, const DrillLoad& load) {
  const Power rated = rated_power(c.machine);
  const bool weak = load().power > rated;
  if (weak) k.used.surface_speed = k.used.surface_speed * (rated / load().power).si;
  k.at_most = load(k.used.surface_speed * (1 + c.shop.policy.ladder_band)).power > rated;
  const Speed real = pi * load.diameter() * real_spindle(k, c, load.diameter());
  k.limits.push_back(checked(LimitId::power, rated.si, load(real).power.si, unit::kW, weak,
                             Remedy::surface_speed));
}

// Torque of the spindle, and thrust along the axis on what the jaws hold.
void limit_drill_feed(CutConditions& k, const CutContext& c, const DrillLoad& load) {
  const Torque torque = rated_torque(c.machine);
  const Practice& practice = c.shop.practice;
  const Force push = practice.axial_grip * c.machine.chuck.grip_force / practice.grip_safety;
  const bool slips = c.grip_diameter.si > 0 && load().thrust > push;
  const bool heavy = load().torque > torque || slips;
  for (int i = 0; i < 40 && k.used.feed > c.tool.least_feed &&
                  (load().torque > torque || (slips && load().thrust > push));
       ++i)
    k.used.feed = max(k.used.feed * 0.9, c.tool.least_feed);
  k.limits.push_back(checked(LimitId::torque, torque.si, load().torque.si, unit::Nm,
                             heavy && !slips, Remedy::feed));
  if (c.grip_diameter.si > 0)
    k.limits.push_back(
        checked(LimitId::grip_along_axis, push.si, load().thrust.si, unit::N, slips, Remedy::feed));
}

}  // namespace

CutConditions hole_conditions(const CutContext& c, Length diameter, Length depth) {
  CutConditions k;
  const Practice& practice = c.shop.practice;
  const TableSpeed table = table_speed(
      c.shop, c.material, {c.tool.grade, step_id(c), diameter, practice.hole_table_depth});
  const double factor = c.tool.kind == ToolKind::ream ? practice.reamer_feed_factor : 1.0;
  k.wanted.surface_speed = machine_factor(c) * table.of_step();
  k.wanted.feed =
      table.own() && table.feed.si > 0 ? table.feed : factor * practice.drill_feed_share * diameter;
  k.wanted.depth = diameter / 2.0;
  k.used = k.wanted;
  const bool drills = c.tool.kind == ToolKind::drill;
  if (drills) limit_deep_hole(k, c, (depth / diameter).si);
  limit_feed(k, c.tool);
  if (drills) {
    const DrillLoad load(k, c, diameter);
    limit_drill_feed(k, c, load);
    limit_drill_power(k, c, load);
  }
  check_spindle_speed(k, c, diameter);
  set_life(k, c, table);
  return k;
}

}  // namespace turnwright
