// SPDX-License-Identifier: MIT
#pragma once
// What the planner decides about one cut, for those who ask without a part: one cut at the bench
// and the speed card.
#include "turnwright/route/cutting_table.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

/// The length that jaws hold in rough work.
Length full_grip(const Practice& practice, Length diameter);

/// The first tool of a kind: one that is mounted in the machine before the shop's list; or null.
const Tool* usual_tool(const Shop& shop, const Machine& machine, ToolKind kind);
/// The sizes of the lathe's tools of a kind next to one that none of them has, ascending.
std::vector<Length> sizes_near(const Shop& shop, const Machine& machine, ToolKind kind,
                               Length size);

/// A tool on a lathe at a diameter, the work held well.
struct BenchTask {
  const Shop& shop;
  const Material& material;
  const Machine& machine;
  const Tool& tool;
  StepKind kind = StepKind::rough;
  Length diameter{}, depth{};  // of a hole: how deep it goes
  Length ra{};                 // asked, 0: none
  Length lead{};               // of a thread
};
/// Speed, feed and spindle speed as a step of the planner begins with them.
struct BenchConditions {
  TableSpeed table;  // the row it starts from
  Conditions used;
  std::vector<LimitCheck> limits;
  bool depth_ok = true;
  Frequency exact{};    // of the surface speed
  Frequency spindle{};  // that the lathe has
  Speed taylor_constant{};
  double taylor_exponent = 0.25;
};
BenchConditions bench_conditions(const BenchTask& task);
/// The deepest cut that tool, power, torque and grip stand.
Length deepest_cut(const BenchTask& task);
/// C of a cut with another feed than its row's: a lighter feed lasts longer.
Speed taylor_constant_at(const BenchTask& task, Length feed);

/// The feed that leaves this roughness behind a nose.
Length feed_for_roughness(const Policy& policy, Length nose_radius, Length ra);

/// What a cut of a width takes of the machine at a diameter.
struct CutLoad {
  Force force{};
  Power power{};
  Torque torque{};
};
CutLoad cut_load(const Material& material, const Tool& tool, Length width, Length feed, Speed speed,
                 Length diameter);
/// What the machine gives at the spindle; the fastest that machine and chuck run.
Power rated_power(const Machine& machine);
Torque rated_torque(const Machine& machine);
Frequency fastest_speed(const Machine& machine);

/// How far the work bends away under a step that turns its outside, where it bends most, and the
/// feed at which that were half of what is left for the finishing cut (unlimited: it does not).
struct Deflected {
  Length by{};
  Length feed{};
};
Deflected deflected(const Route& route, const Operation& operation, const Step& step,
                    const Shop& shop);

/// The factors on the table's speed of a step, by name, with their sources; a row for the step
/// itself takes none for it.
struct SpeedCorrection {
  enum class Kind { step, coolant_flood, coolant_dry, machine_good, machine_worn, interrupted };
  Kind kind = Kind::step;
  std::string row;  // of the rates
  double factor = 1;
  Source source;
};
std::vector<SpeedCorrection> speed_corrections(const Shop& shop, const Machine& machine,
                                               const Tool& tool, StepKind kind,
                                               const TableSpeed& table);

}  // namespace turnwright
