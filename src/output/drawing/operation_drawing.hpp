// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/output/drawing.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

/// The work as an operation leaves it: what it takes off shaded, what it turns in bold lines with
/// the sizes that are gauged, jaws, centres.
paper::Drawing operation_drawing(const Job& job, const Operation& operation, const Words& words);

/// The same for one of its steps, counted from 0.
paper::Drawing step_drawing(const Job& job, const Operation& operation, std::size_t step,
                            const Words& words);

}  // namespace turnwright
