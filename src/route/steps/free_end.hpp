// SPDX-License-Identifier: MIT
#pragma once
// Work that a centre holds while it is turned, and not before and after.
#include "steps/workpiece.hpp"

namespace turnwright {

/// The lathe while nothing holds the free end: it turns at no more than half the first bending
/// frequency of what stands out of the chuck.
Machine at_free_end(const OperationContext& op);

}  // namespace turnwright
