// SPDX-License-Identifier: MIT
#pragma once
// Starting conditions from the cutting table, and the limits that change them.
#include <optional>
#include <vector>

#include "turnwright/route/bench.hpp"
#include "turnwright/tune/cut_optimum.hpp"

namespace turnwright {

/// Everything that a step's conditions depend on beside the geometry.
struct CutContext {
  const Shop& shop;
  const Material& material;
  const Machine& machine;
  const Tool& tool;
  StepKind kind;
  Length largest_diameter;
  Length grip_diameter;
  Length ra;         // asked, 0: none
  Length deepest{};  // rough cuts of what stands far out; 0: no such limit
};

/// Conditions at one depth, with speed and feed taken down until every limit holds. `depth_ok` is
/// false when only a smaller depth would help (torque, grip).
struct CutConditions {
  Conditions wanted, used;
  std::vector<LimitCheck> limits;
  bool depth_ok = true;
  bool at_most = false;  // a limit holds at this speed, not above: no lever is put beyond it
  Speed taylor_constant{};
  double taylor_exponent = 0.25;
  Time reference_life{};            // of an edge at the table's speed
  std::optional<CutOptimum> tuned;  // where the shop's rule is not the handbook
};
CutConditions conditions_at(const CutContext& context, Length depth);

/// Conditions of a drill, reamer, tap or countersink of a diameter in a hole of a depth.
CutConditions hole_conditions(const CutContext& context, Length diameter, Length depth);
/// Conditions of a thread cut by a single point, a tap or a die: the feed is the lead.
CutConditions thread_conditions(const CutContext& context, Length diameter, Length lead,
                                Length infeed);

/// What coolant and the state of the machine do to the table's speed.
double machine_factor(const CutContext& context);
/// The passive force on a tool at a depth and feed (specific, cutting, passive force in turn).
Force passive_force(const Material& material, const Tool& tool, Length depth, Length feed);

/// The feed the machine really has, not above the wanted one.
Length machine_feed(const Machine& machine, Length wanted);
/// The spindle speed of a manual lathe at a diameter; keeps `current` when changing does not pay
/// over a path.
Frequency lever_speed(const CutContext& context, const CutConditions& conditions, Length diameter,
                      Length path, Frequency current);

}  // namespace turnwright
