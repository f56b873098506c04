// SPDX-License-Identifier: MIT
#pragma once
// The tools that turn the outside.
#include "steps/workpiece.hpp"

namespace turnwright {

/// The roughing tool, or the finishing tool where it takes both cuts; or nullptr.
const Tool* rougher(const OperationContext& op);
/// The mounted finishing tool with the roundest nose that the corners allow, unless another reaches
/// more of the contour; or nullptr.
const Tool* finishing_tool(const OperationContext& op);
/// The sharpest inner corner of the contour in this zone.
Length smallest_corner(const OperationContext& op);

}  // namespace turnwright
