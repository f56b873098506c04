// SPDX-License-Identifier: MIT
#pragma once
#include "clamping/layout.hpp"
#include "steps/tools.hpp"

namespace turnwright {

/// What parting takes of the bar: the width of the blade that reaches through the wall.
inline Length parting_width(const PlanContext& context, const Job& job) {
  const Tool* tool = parting_tool(context.shop, context.machine, parting_reach(job));
  return tool != nullptr ? tool->width : 3.0 * unit::mm;
}

}  // namespace turnwright
