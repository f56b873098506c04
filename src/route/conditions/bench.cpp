// SPDX-License-Identifier: MIT
#include "turnwright/route/bench.hpp"

#include <cmath>

#include "conditions/limits.hpp"
#include "steps/levels.hpp"
#include "steps/tools.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/route/blade.hpp"

namespace turnwright {
namespace {

CutContext context_of(const BenchTask& t) {
  return {t.shop, t.material, t.machine, t.tool, t.kind, t.diameter, t.diameter, t.ra};
}

bool works_a_hole(ToolKind kind) { return kind == ToolKind::drill || kind == ToolKind::ream; }
// A knurl's conditions are looked up like a thread's.
bool cuts_threads(ToolKind kind) {
  return kind == ToolKind::knurl || kind == ToolKind::thread || kind == ToolKind::inside_thread ||
         kind == ToolKind::tap || kind == ToolKind::die;
}

// As the planner looks it up.
TableLookup looked_up(const BenchTask& t) {
  const Practice& practice = t.shop.practice;
  const StepFactorId id = step_factor_of(t.kind, t.tool, t.machine);
  const ToolKind kind = t.tool.kind;
  if (works_a_hole(kind) || kind == ToolKind::tap || kind == ToolKind::die)
    return {t.tool.grade, id, t.diameter, practice.hole_table_depth};
  if (t.kind == StepKind::groove || t.kind == StepKind::part_off)
    return {t.tool.grade, id, t.tool.width, t.tool.width};
  return {t.tool.grade, id, t.depth, cuts_threads(kind) ? practice.thread_table_depth : t.depth};
}

CutConditions conditions_of(const BenchTask& t, const CutContext& c) {
  if (works_a_hole(t.tool.kind)) return hole_conditions(c, t.diameter, t.depth);
  if (cuts_threads(t.tool.kind))
    return thread_conditions(c, t.diameter, t.lead, t.shop.practice.thread_table_depth);
  return conditions_at(c, t.depth);
}

Frequency spindle_of(const CutContext& c, const CutConditions& k, Length diameter,
                     Frequency exact) {
  if (c.machine.ladder.empty()) return min(exact, fastest_speed(c.machine));
  return lever_speed(c, k, diameter, Length(0.0), Frequency(0.0));
}

}  // namespace

Length full_grip(const Practice& practice, Length diameter) {
  return max(practice.full_grip * diameter, practice.least_grip);
}

const Tool* usual_tool(const Shop& shop, const Machine& machine, ToolKind kind) {
  return tool_of(shop, machine, kind);
}

const Tool* parting_blade(const Shop& shop, const Machine& machine, Length diameter) {
  return parting_tool(shop, machine, diameter / 2.0);
}

std::vector<Length> sizes_near(const Shop& shop, const Machine& machine, ToolKind kind,
                               Length size) {
  Length below(0.0), above(0.0);
  for (const Tool& t : shop.tools)
    if (t.kind == kind && goes_on(t, machine) && !t.inch_set)
      for (const Length s : t.sizes) {
        if (s < size) below = max(below, s);
        if (s > size) above = above.si > 0 ? min(above, s) : s;
      }
  std::vector<Length> near;
  for (const Length s : {below, above})
    if (s.si > 0) near.push_back(s);
  return near;
}

BenchConditions bench_conditions(const BenchTask& t) {
  const CutContext c = context_of(t);
  CutConditions k = conditions_of(t, c);
  BenchConditions found;
  found.table = table_speed(t.shop, t.material, looked_up(t));
  found.used = k.used;
  found.exact = figure::SpindleSpeed::work_out<>({k.used.surface_speed, t.diameter}).spindle_speed;
  found.spindle = spindle_of(c, k, t.diameter, found.exact);
  found.limits = std::move(k.limits);
  found.depth_ok = k.depth_ok;
  found.taylor_constant = k.taylor_constant;
  found.taylor_exponent = k.taylor_exponent;
  return found;
}

Length deepest_cut(const BenchTask& task) { return deepest_cut(context_of(task)).depth; }

Speed taylor_constant_at(const BenchTask& t, Length feed) {
  const BenchConditions k = bench_conditions(t);
  const Grade* grade = t.shop.grade(t.tool.grade);
  const bool by_feed = grade != nullptr && feed.si > 0 && !works_a_hole(t.tool.kind) &&
                       !cuts_threads(t.tool.kind) && t.kind != StepKind::groove &&
                       t.kind != StepKind::part_off;
  return by_feed ? k.taylor_constant * std::pow(k.used.feed.si / feed.si, grade->feed_exponent)
                 : k.taylor_constant;
}

CutLoad cut_load(const Material& material, const Tool& tool, Length width, Length feed, Speed speed,
                 Length diameter) {
  const Number lead = tool.lead_angle.si > 0 ? tool.lead_angle : Number(pi / 2);
  const Pressure kc =
      figure::SpecificForce::work_out<>({material.kc11, material.mc, feed, lead}).specific_force;
  const Force force = figure::CuttingForce::work_out<>({width, feed, kc}).force;
  const Power power = figure::CuttingPower::work_out<>({width, feed, speed, kc, 1.0}).power;
  return {force, power, force * diameter / 2.0};
}

Power rated_power(const Machine& m) { return m.power * m.efficiency; }
Torque rated_torque(const Machine& m) { return m.largest_torque * m.efficiency; }

std::vector<SpeedCorrection> speed_corrections(const Shop& shop, const Machine& machine,
                                               const Tool& tool, StepKind kind,
                                               const TableSpeed& table) {
  using Kind = SpeedCorrection::Kind;
  const StepFactor& step = shop.step_factor(step_factor_of(kind, tool, machine));
  const FactorId coolant = machine.flood ? FactorId::coolant_flood : FactorId::coolant_dry;
  const FactorId state = machine.worn ? FactorId::machine_worn : FactorId::machine_good;
  std::vector<SpeedCorrection> all;
  if (!table.own()) all.push_back({Kind::step, step.name, table.factor, step.source});
  const std::vector<SpeedCorrection> of_machine{
      {machine.flood ? Kind::coolant_flood : Kind::coolant_dry,
       std::string(name_of(coolant)),
       shop.factor(coolant),
       {}},
      {machine.worn ? Kind::machine_worn : Kind::machine_good,
       std::string(name_of(state)),
       shop.factor(state),
       {}}};
  all.insert(all.end(), of_machine.begin(), of_machine.end());
  return all;
}

}  // namespace turnwright
