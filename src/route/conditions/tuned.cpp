// SPDX-License-Identifier: MIT
// The cut as a problem of `tune`, in m/min, mm/rev, mm and money.
#include "conditions/tuned.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

constexpr double below_end = 0.99;  // a range that is not one given feed

// Money a minute: the machine with its share of a person.
double minute_price(const CutContext& c) {
  if (c.shop.hour_worth.si > 0) return in(c.shop.hour_worth, unit::money_per_h) / 60;
  const HourlyRate& r = c.machine.rate;
  const Rate hour =
      r.all_in ? *r.all_in : (r.machine + c.machine.operator_share * r.person) * (1 + r.overhead);
  return std::max(in(hour, unit::money_per_h) / 60, 1e-9);
}

// Minutes of cutting, and what the edge costs in them: T = T0 (v0 / v)^(1/n) (f0 / f)^(m/n), the
// life that the estimate counts with.
std::vector<CutTerm> cost_terms(const CutState& s, const Grade& grade) {
  const CutContext& c = s.context;
  const double v0 = in(s.table.of_step(), unit::m_per_min);
  const double f0 = in(s.table.feed, unit::mm_per_rev);
  const double life = in(s.table.reference_life, unit::min);
  const CutTerm worn =
      power(CutTerm{1 / v0 / std::pow(f0, grade.feed_exponent), 1, grade.feed_exponent, 0},
            1 / grade.exponent);
  const CutTerm minutes{1, -1, -1, 0};
  CutTerm tool = minutes * worn;
  // A finishing tool is taken to make a fine size.
  const double change =
      in(c.shop.edge_change(c.tool, c.machine.kind, c.kind == StepKind::finish), unit::min);
  const double edge = c.shop.conditions_rule == ConditionsRule::least_time
                          ? 0
                          : c.tool.price.si / std::max(c.tool.edges, 1) / minute_price(c);
  tool.factor *= (change + edge) / life;
  return {minutes, tool};
}

CutRange speed_range(const CutContext& c) {
  const double fastest = in(pi * c.largest_diameter * fastest_speed(c.machine), unit::m_per_min);
  return {std::min(1.0, fastest / 2), std::max(fastest, 1e-3)};
}

void set_feed_range(CutProblem& p, const CutState& s) {
  const CutContext& c = s.context;
  double most = in(c.tool.largest_feed, unit::mm_per_rev);
  auto at_most = [&](double feed, LimitId limit) {
    if (feed < most) most = feed, p.most_feed = limit;
  };
  if (c.ra.si > 0)
    at_most(in(feed_for_roughness(c.shop.policy, c.tool.nose_radius, c.ra), unit::mm_per_rev),
            LimitId::roughness);
  // A face keeps the table's feed: nobody asks for its finish here.
  if (c.kind == StepKind::face) at_most(in(s.table.feed, unit::mm_per_rev), LimitId::face_feed);
  // What holds the feed below the tool's least is a limit too, so its end of the range is one.
  p.feed = {std::min(in(c.tool.least_feed, unit::mm_per_rev), below_end * most), most};
}

std::vector<CutLimit> limits_of(const CutContext& c) {
  // F = kc1.1 d f^(1-mc) sin(kappa)^-mc in N.
  const double kappa = c.tool.lead_angle.si > 0 ? c.tool.lead_angle.si : pi / 2;
  const CutTerm force{
      in(c.material.kc11, unit::N_per_mm2) * std::pow(std::sin(kappa), -c.material.mc), 0,
      1 - c.material.mc, 1};
  const double watts = in(rated_power(c.machine), unit::W);
  const double radius = in(c.largest_diameter, unit::mm) / 2;
  const double torque = 1000 * in(rated_torque(c.machine), unit::Nm) / radius;
  std::vector<CutLimit> limits{{LimitId::power, force * CutTerm{1 / 60.0, 1, 0, 0}, watts},
                               {LimitId::torque, force, torque}};
  const Practice& practice = c.shop.practice;
  if (c.grip_diameter.si > 0)
    limits.push_back({LimitId::grip, force,
                      in(practice.friction_at_jaws * c.machine.chuck.grip_force * c.grip_diameter /
                             (practice.grip_safety * c.largest_diameter),
                         unit::N)});
  return limits;
}

CutProblem problem_of(const CutState& s, const Grade& grade) {
  const double depth = in(s.conditions.used.depth, unit::mm);
  CutProblem p;
  p.cost = cost_terms(s, grade);
  p.depth = {depth, depth};
  p.speed = speed_range(s.context);
  set_feed_range(p, s);
  p.limits = limits_of(s.context);
  return p;
}

bool turns(StepKind kind) {
  return kind == StepKind::face || kind == StepKind::rough || kind == StepKind::bore ||
         kind == StepKind::finish;
}

}  // namespace

void tune(CutState& s) {
  const CutContext& c = s.context;
  const Grade* grade = c.shop.grade(c.tool.grade);
  if (c.shop.conditions_rule == ConditionsRule::handbook || !turns(c.kind) || grade == nullptr ||
      s.table.speed.si <= 0 || s.table.feed.si <= 0)
    return;
  const CutOptimum best = least_cost(problem_of(s, *grade));
  s.conditions.tuned = best;
  if (!best.found) return;
  s.conditions.used.surface_speed = best.speed * unit::m_per_min;
  s.conditions.used.feed = best.feed * unit::mm_per_rev;
}

}  // namespace turnwright
