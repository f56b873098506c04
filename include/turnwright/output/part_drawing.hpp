// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/output/drawing.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/route/job.hpp"

namespace turnwright {

/// The finished part with centre line, diameters, bores and lengths; its labels are as large in a
/// narrow drawing as in a wide one.
paper::Drawing part_drawing(const Job& job, const Words& words, double width = 940);

}  // namespace turnwright
