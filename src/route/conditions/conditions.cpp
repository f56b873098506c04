// SPDX-License-Identifier: MIT
#include "conditions/conditions.hpp"

#include <algorithm>
#include <cmath>

#include "conditions/limits.hpp"
#include "conditions/tuned.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/speeds.hpp"

namespace turnwright {
namespace {

CutState from_table(const CutContext& c, Length depth) {
  CutState s{c, {}, {}};
  const StepFactorId step = step_id(c);
  // The width of a plunging tool is its depth of cut (ISO 3002).
  const Length cut = s.plunges() && c.tool.width.si > 0 ? c.tool.width : depth;
  s.table = table_speed(c.shop, c.material, {c.tool.grade, step, cut, cut});
  s.conditions.used = {machine_factor(c) * s.table.of_step(), s.table.feed, depth};
  if (s.plunges() && (!s.table.own() || s.table.feed.si <= 0))
    s.conditions.used.feed = c.shop.step_factor(step).feed_share_of_width * c.tool.width;
  s.conditions.wanted = s.conditions.used;
  return s;
}

// A finishing cut goes as fast as nose and roughness let it; the table knows neither.
void raise_to_roughness(CutState& s) {
  const CutContext& c = s.context;
  if (c.kind != StepKind::finish || c.ra.si <= 0) return;
  Length& feed = s.conditions.used.feed;
  feed = max(feed,
             min(c.tool.largest_feed, feed_for_roughness(c.shop.policy, c.tool.nose_radius, c.ra)));
  s.conditions.wanted = s.conditions.used;
}

// The table's speed at its feed stands for the reference life; a lighter feed lasts longer.
double feed_effect(const CutState& s) {
  const Grade* grade = s.context.shop.grade(s.context.tool.grade);
  return grade != nullptr && s.table.feed.si > 0 && !s.plunges()
             ? std::pow(s.table.feed.si / s.conditions.used.feed.si, grade->feed_exponent)
             : 1.0;
}

}  // namespace

CutConditions conditions_at(const CutContext& context, Length depth) {
  CutState s = from_table(context, depth);
  raise_to_roughness(s);
  tune(s);
  limit_feed(s);
  limit_power(s);
  check_torque(s);
  check_grip(s);
  check_spindle_speed(s.conditions, context, context.largest_diameter);
  set_life(s.conditions, context, s.table, feed_effect(s));
  return std::move(s.conditions);
}

double machine_factor(const CutContext& c) {
  return std::max(
      c.shop.factor(c.machine.flood ? FactorId::coolant_flood : FactorId::coolant_dry) *
          c.shop.factor(c.machine.worn ? FactorId::machine_worn : FactorId::machine_good),
      c.shop.factor(FactorId::least_product));
}

Force passive_force(const Material& material, const Tool& tool, Length depth, Length feed) {
  const Pressure kc =
      figure::SpecificForce::work_out<>({material.kc11, material.mc, feed, tool.lead_angle})
          .specific_force;
  const Force fc = figure::CuttingForce::work_out<>({depth, feed, kc}).force;
  return figure::PassiveForce::work_out<>({fc, depth, tool.nose_radius}).force;
}

Length machine_feed(const Machine& machine, Length wanted) {
  Length best = wanted;
  bool found = false;
  for (const Length step : machine.feeds)
    if (step.si <= wanted.si * (1 + 1e-9)) {
      best = step;
      found = true;
    }
  return machine.feeds.empty() || found ? best : machine.feeds.front();
}

Frequency fastest_speed(const Machine& machine) {
  return min(machine.fastest, machine.chuck.rated_speed);
}

Frequency lever_speed(const CutContext& context, const CutConditions& conditions, Length diameter,
                      Length path, Frequency current) {
  const Machine& m = context.machine;
  std::vector<Frequency> allowed;
  for (const Frequency n : m.ladder)
    if (n <= fastest_speed(m)) allowed.push_back(n);
  if (allowed.empty()) allowed.push_back(m.slowest);
  const Length feed = conditions.used.feed;
  const Frequency wanted =
      figure::SpindleSpeed::work_out<>({conditions.used.surface_speed, diameter}).spindle_speed;
  const double band = conditions.at_most ? 0 : context.shop.policy.ladder_band;
  const Frequency best = figure::LadderSpeed::work_out<>({wanted, allowed, band}).spindle_speed;
  if (current.si <= 0 || current.si == best.si || current > best) return best;
  // The lever is moved only when it pays.
  const Time saved = path / (feed * current) - path / (feed * best);
  return saved > context.shop.element(HandlingId::change_speed).manual ? best : current;
}

}  // namespace turnwright
