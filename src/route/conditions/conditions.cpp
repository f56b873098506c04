// SPDX-License-Identifier: MIT
#include "conditions.hpp"

#include <algorithm>
#include <cmath>

#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/finish.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/figure/times.hpp"
#include "turnwright/tune/cut_optimum.hpp"

namespace turnwright {
namespace {

constexpr double friction_at_jaws = 0.2;  // hard jaws on steel, from memory

class CuttingLimits {
 public:
  CuttingLimits(const CutContext& context, Length depth)
      : c_(context),
        step_factor_(context.shop.step_factor(
            step_factor_name(context.kind, context.tool, context.machine))) {
    out_.used.depth = out_.wanted.depth = depth;
  }

  CutConditions work_out() {
    start();
    if (plunges()) feed_share();
    tune();
    tool_feed();
    roughness();
    out_.used.feed = machine_feed(c_.machine, out_.used.feed);
    thin_chip();
    power();
    torque();
    grip();
    clamp();
    life();
    return std::move(out_);
  }

 private:
  bool plunges() const { return c_.kind == StepKind::groove || c_.kind == StepKind::part_off; }
  void start() {
    table_ = table_speed(c_.shop, c_.material, c_.tool.grade, out_.used.depth);
    out_.used.surface_speed = machine_factor(c_) * step_factor_.speed * table_.speed;
    out_.used.feed = table_.feed;
    out_.wanted = out_.used;
  }
  // Speed and feed of the least cost or time of this cut under every limit below, instead of the
  // table's: a minute of the machine, an edge and its change, by the tool life of the grade.
  void tune() {
    const Grade* grade = c_.shop.grade(c_.tool.grade);
    const bool turning = c_.kind == StepKind::face || c_.kind == StepKind::rough ||
                         c_.kind == StepKind::bore || c_.kind == StepKind::finish;
    if (c_.shop.conditions_rule == ConditionsRule::handbook || !turning || plunges() ||
        grade == nullptr || table_.speed.si <= 0 || table_.feed.si <= 0)
      return;
    const CutOptimum best = least_cost(tune_problem(*grade));
    out_.tuned = best;
    if (!best.found) return;
    out_.used.surface_speed = best.speed * unit::m_per_min;
    out_.used.feed = best.feed * unit::mm_per_rev;
  }
  // In m/min, mm/rev, mm and money.
  CutProblem tune_problem(const Grade& grade) const {
    const double d = in(out_.used.depth, unit::mm);
    const double v0 = in(step_factor_.speed * table_.speed, unit::m_per_min);
    const double f0 = in(table_.feed, unit::mm_per_rev);
    const double life = in(grade.reference_life, unit::min);
    // T = T0 (v0 / v)^(1/n) (f0 / f)^(m/n), the life that the estimate counts with.
    const CutTerm worn = turnwright::power(
        CutTerm{1 / v0 / std::pow(f0, grade.feed_exponent), 1, grade.feed_exponent, 0},
        1 / grade.exponent);
    const CutTerm minutes{1, -1, -1, 0};
    CutTerm tool = minutes * worn;
    // A finishing tool is taken to make a fine size.
    const double change =
        in(c_.shop.edge_change(c_.tool, c_.machine.kind, c_.kind == StepKind::finish), unit::min);
    const double edge = c_.shop.conditions_rule == ConditionsRule::least_time
                            ? 0
                            : c_.tool.price.si / std::max(c_.tool.edges, 1) / minute_price();
    tool.factor *= (change + edge) / life;
    CutProblem p;
    p.cost = {minutes, tool};
    p.depth = {d, d};
    const double fastest =
        in(pi * c_.largest_diameter * fastest_speed(c_.machine), unit::m_per_min);
    p.speed = {std::min(1.0, fastest / 2), std::max(fastest, 1e-3)};
    double most_feed = in(c_.tool.largest_feed, unit::mm_per_rev);
    if (c_.ra.si > 0)
      most_feed = std::min(
          most_feed, in(sqrt(32.0 * c_.tool.nose_radius * c_.ra / c_.shop.policy.roughness_factor),
                        unit::mm_per_rev));
    // A face keeps the table's feed: nobody asks for its finish here.
    if (c_.kind == StepKind::face) most_feed = std::min(most_feed, f0);
    p.feed = {std::min(in(c_.tool.least_feed, unit::mm_per_rev), most_feed), most_feed};
    // F = kc1.1 d f^(1-mc) sin(kappa)^-mc in N.
    const double kappa = c_.tool.lead_angle.si > 0 ? c_.tool.lead_angle.si : pi / 2;
    const CutTerm force{
        in(c_.material.kc11, unit::N_per_mm2) * std::pow(std::sin(kappa), -c_.material.mc), 0,
        1 - c_.material.mc, 1};
    const double watts = in(c_.machine.power * c_.machine.efficiency, unit::W);
    p.limits.push_back({"power", force * CutTerm{1 / 60.0, 1, 0, 0}, watts});
    const double radius = in(c_.largest_diameter, unit::mm) / 2;
    const double torque =
        1000 * in(c_.machine.largest_torque * c_.machine.efficiency, unit::Nm) / radius;
    p.limits.push_back({"torque", force, torque});
    if (c_.grip_diameter.si > 0)
      p.limits.push_back({"grip", force,
                          in(friction_at_jaws * c_.machine.chuck.grip_force * c_.grip_diameter /
                                 (grip_safety * c_.largest_diameter),
                             unit::N)});
    return p;
  }
  // Money a minute: the machine with its share of a person.
  double minute_price() const {
    if (c_.shop.hour_worth.si > 0) return in(c_.shop.hour_worth, unit::money_per_h) / 60;
    const HourlyRate& r = c_.machine.rate;
    const Rate hour = r.all_in
                          ? *r.all_in
                          : (r.machine + c_.machine.operator_share * r.person) * (1 + r.overhead);
    return std::max(in(hour, unit::money_per_h) / 60, 1e-9);
  }
  void note(std::string name, double allowed, double actual, const Unit& unit, bool binding,
            std::string changed) {
    out_.limits.push_back(
        {std::move(name), allowed, actual, unit, binding, binding ? std::move(changed) : ""});
  }
  void feed_share() {
    out_.used.feed = out_.wanted.feed = step_factor_.feed_share_of_width * c_.tool.width;
  }
  void tool_feed() {
    const Length before = out_.used.feed;
    const bool binding = before.si > c_.tool.largest_feed.si + same_point;
    out_.used.feed = max(min(before, c_.tool.largest_feed), c_.tool.least_feed);
    note("tool feed", c_.tool.largest_feed.si, out_.used.feed.si, unit::mm_per_rev, binding,
         "feed");
  }
  void roughness() {
    if (c_.ra.si <= 0 || plunges()) return;
    const double k = c_.shop.policy.roughness_factor;
    // Ra = k f^2 / (32 r), solved for the feed.
    const Length allowed = sqrt(32.0 * c_.tool.nose_radius * c_.ra / k);
    const bool binding = out_.used.feed > allowed;
    if (binding) out_.used.feed = allowed;
    const Length real = k * figure::Roughness::work_out<>({out_.used.feed, c_.tool.nose_radius}).Ra;
    note("roughness Ra", c_.ra.si, real.si, unit::um, binding, "feed");
  }
  void thin_chip() {
    const bool thin = out_.used.feed < c_.tool.least_feed;
    note("least feed of the tool", c_.tool.least_feed.si, out_.used.feed.si, unit::mm_per_rev, thin,
         "none: the finish asks for less");
  }
  Pressure specific_force() const {
    return figure::SpecificForce::work_out<>(
               {c_.material.kc11, c_.material.mc, out_.used.feed,
                c_.tool.lead_angle.si > 0 ? c_.tool.lead_angle : Number(pi / 2)})
        .specific_force;
  }
  Length width_of_cut() const { return plunges() ? c_.tool.width : out_.used.depth; }
  // Constant torque below the base speed, constant power above it.
  Power power_at(Frequency n) const {
    return min(c_.machine.power * c_.machine.efficiency,
               2 * pi * n * c_.machine.largest_torque * c_.machine.efficiency);
  }
  void power() {
    const auto n = [&](Speed v) {
      return min(figure::SpindleSpeed::work_out<>({v, c_.largest_diameter}).spindle_speed,
                 fastest_speed(c_.machine));
    };
    const Pressure kc = specific_force();
    auto taken = [&](Speed v) {
      return figure::CuttingPower::work_out<>({width_of_cut(), out_.used.feed, v, kc, 1.0}).power;
    };
    const Speed v = out_.used.surface_speed;
    const Power rated = c_.machine.power * c_.machine.efficiency;
    const bool binding = taken(v) > rated;
    if (binding) out_.used.surface_speed = v * (rated / taken(v)).si;
    note("power", rated.si, taken(out_.used.surface_speed).si, unit::kW, binding, "surface speed");
    if (taken(out_.used.surface_speed).si > power_at(n(out_.used.surface_speed)).si * (1 + 1e-9) &&
        !plunges())
      out_.depth_ok = false;
    // Half the table's speed on power alone means that a smaller depth is the better knob.
    if (out_.used.surface_speed.si < 0.5 * v.si && !plunges()) out_.depth_ok = false;
  }
  void torque() {
    const Force force =
        figure::CuttingForce::work_out<>({width_of_cut(), out_.used.feed, specific_force()}).force;
    const Torque needed = force * c_.largest_diameter / 2.0;
    const Torque allowed = c_.machine.largest_torque * c_.machine.efficiency;
    const bool binding = needed.si > allowed.si * (1 + 1e-9);
    if (binding) out_.depth_ok = false;
    note("torque", allowed.si, needed.si, unit::Nm, binding, "depth, one more pass");
  }
  void grip() {
    if (c_.grip_diameter.si <= 0) return;
    const Force force =
        figure::CuttingForce::work_out<>({width_of_cut(), out_.used.feed, specific_force()}).force;
    const Torque needed = grip_safety * force * c_.largest_diameter / 2.0;
    const Torque allowed = friction_at_jaws * c_.machine.chuck.grip_force * c_.grip_diameter / 2.0;
    const bool binding = needed.si > allowed.si * (1 + 1e-9);
    if (binding) out_.depth_ok = false;
    note("grip", allowed.si, needed.si, unit::Nm, binding, "depth, one more pass");
  }
  void clamp() {
    const Frequency wanted =
        figure::SpindleSpeed::work_out<>({out_.used.surface_speed, c_.largest_diameter})
            .spindle_speed;
    const Frequency fastest = fastest_speed(c_.machine);
    note("spindle speed", fastest.si, min(wanted, fastest).si, unit::rev_per_min, wanted > fastest,
         "none: the time rises");
  }
  void life() {
    const Grade* grade = c_.shop.grade(c_.tool.grade);
    if (grade == nullptr) return;
    out_.taylor_exponent = grade->exponent;
    // The table's speed at its feed stands for the reference life; a lighter feed lasts longer.
    const double feed_effect =
        table_.feed.si > 0 && !plunges()
            ? std::pow(table_.feed.si / out_.used.feed.si, grade->feed_exponent)
            : 1.0;
    out_.taylor_constant = table_.speed * step_factor_.speed * feed_effect *
                           std::pow(in(grade->reference_life, unit::min), grade->exponent);
  }

  const CutContext& c_;
  const StepFactor& step_factor_;
  CutConditions out_;
  TableSpeed table_;
};

}  // namespace

CutConditions conditions_at(const CutContext& context, Length depth) {
  return CuttingLimits(context, depth).work_out();
}

double machine_factor(const CutContext& c) {
  return std::max(
      c.shop.factor(c.machine.flood ? "coolant flood" : "coolant dry") *
          c.shop.factor(c.machine.worn ? "machine condition worn" : "machine condition good"),
      c.shop.factor("floor least product"));
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

Frequency lever_speed(const CutContext& context, Speed v, Length diameter, Length path, Length feed,
                      Frequency current) {
  const Machine& m = context.machine;
  std::vector<Frequency> allowed;
  for (const Frequency n : m.ladder)
    if (n <= fastest_speed(m)) allowed.push_back(n);
  if (allowed.empty()) allowed.push_back(m.slowest);
  const Frequency wanted = figure::SpindleSpeed::work_out<>({v, diameter}).spindle_speed;
  const Frequency best =
      figure::LadderSpeed::work_out<>({wanted, allowed, context.shop.policy.ladder_band})
          .spindle_speed;
  if (current.si <= 0 || current.si == best.si || current > best) return best;
  // The lever is moved only when it pays.
  const Time saved = path / (feed * current) - path / (feed * best);
  return saved > context.shop.element("change speed").manual ? best : current;
}

}  // namespace turnwright
