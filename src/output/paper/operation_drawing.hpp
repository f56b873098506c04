// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/output/paper.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

/// The work as an operation leaves it: what it takes off shaded, what it turns in bold lines with
/// its sizes, jaws, centres and rests.
paper::Drawing operation_drawing(const Job& job, const Operation& operation, const Words& words);

}  // namespace turnwright
