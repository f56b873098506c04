// SPDX-License-Identifier: MIT
#pragma once
#include <cmath>

namespace turnwright {

/// Corners over flats of a hexagon or a square.
inline double corners_of(bool hexagon) { return hexagon ? 2 / std::sqrt(3.0) : std::sqrt(2.0); }

}  // namespace turnwright
