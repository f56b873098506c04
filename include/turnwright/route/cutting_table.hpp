// SPDX-License-Identifier: MIT
#pragma once
// Where a step's speed and feed start: the shop's cutting table.
#include <string_view>

#include "turnwright/route/route.hpp"

namespace turnwright {

/// What is looked up: `size` in a row for the step itself (the diameter of a drill, the width of a
/// plunging tool), `depth` in a row of turning.
struct TableLookup {
  std::string_view grade;
  StepFactorId step = StepFactorId::rough;
  Length size{}, depth{};
};

/// The table at a depth, for one material and grade, between its depths on a logarithmic scale; the
/// ends hold beyond. Speed and feed are 0 when the table has no row.
struct TableSpeed {
  Speed speed{};
  Length feed{};          // 0: a row for its own step leaves it to the tool
  double factor = 1;      // of the step on the row's speed; 1 in a row for the step itself
  Time reference_life{};  // of an edge at the row's speed
  Length at{};            // the depth or size looked up
  const CuttingGroup* group = nullptr;
  const CuttingRow* row = nullptr;
  bool own() const { return row != nullptr && !row->steps.empty(); }
  /// Before coolant and machine.
  Speed of_step() const { return factor * speed; }
};
TableSpeed table_speed(const Shop& shop, const Material& material, const TableLookup& lookup);

/// The factor on the table's speed that a step with this tool takes.
StepFactorId step_factor_of(StepKind kind, const Tool& tool, const Machine& machine);

}  // namespace turnwright
