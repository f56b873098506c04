// SPDX-License-Identifier: MIT
#pragma once
#include "steps/workpiece.hpp"

namespace turnwright {

/// The deepest cut on a face: a casting is faced under its skin in one.
Length facing_depth(const OperationContext& op);

}  // namespace turnwright
