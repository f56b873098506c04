// SPDX-License-Identifier: MIT
#pragma once
// Where a step's speed and feed start: the shop's cutting table.
#include <string_view>

#include "turnwright/route/route.hpp"

namespace turnwright {

/// The table at a depth, for one material and grade, between its depths on a logarithmic scale; the
/// ends hold beyond. Speed and feed are 0 when the table has no row.
struct TableSpeed {
  Speed speed{};
  Length feed{};
  const CuttingGroup* group = nullptr;
  const CuttingRow* row = nullptr;
};
TableSpeed table_speed(const Shop& shop, const Material& material, std::string_view grade,
                       Length depth);

/// The factor on the table's speed that a step with this tool takes.
StepFactorId step_factor_of(StepKind kind, const Tool& tool, const Machine& machine);

}  // namespace turnwright
