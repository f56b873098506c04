// SPDX-License-Identifier: MIT
#pragma once
#include "steps/cut.hpp"

namespace turnwright {

/// The variation of the deflection along each toleranced surface, doubled, is kept below a share of
/// its tolerance: by lighter last cuts, then by less feed; else a caution.
void limit_bending(const OperationContext& op, Workpiece& work, const Tool& tool, Step& step);

}  // namespace turnwright
