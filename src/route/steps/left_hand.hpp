// SPDX-License-Identifier: MIT
#pragma once
// The left-hand tool: it cuts towards the tailstock, up the walls that others leave behind
// shoulders. It is planned as the other tools are, on the work seen from the other end.
#include "steps/workpiece.hpp"

namespace turnwright {

/// The shop's left-hand tool for this lathe, of the grade that is used outside; or nullptr.
const Tool* left_hand_tool(const OperationContext& op);
/// A stretch down to `shape`, as far as the tool reaches, level after level.
void rough_left_handed(const OperationContext& op, Workpiece& work, const Tool& tool,
                       const Outline& shape, const Interval& z);
/// A stretch to size along its contour, where the tool reaches all of it.
void finish_left_handed(const OperationContext& op, Workpiece& work, const Tool& tool,
                        const Interval& z);

}  // namespace turnwright
