// SPDX-License-Identifier: MIT
#pragma once
#include "steps/workpiece.hpp"

namespace turnwright {

/// A knurl or thread is made in one operation: where all of it is turned, or in the last one clear
/// of the jaws.
bool made_here(const OperationContext& op, std::size_t surface, const Interval& local);

}  // namespace turnwright
