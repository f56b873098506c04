// SPDX-License-Identifier: MIT
#pragma once
// From numbers to whole numbers, also of what is beyond them: a number that no shop ever sees stays
// the largest there is, and is no undefined one.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace turnwright {

/// The nearest whole number; the largest or smallest int beyond them, 0 for what is no number.
inline int nearest_whole(double x) {
  constexpr double most = std::numeric_limits<int>::max();
  return std::isnan(x) ? 0 : static_cast<int>(std::round(std::clamp(x, -most, most)));
}
/// The same, rounded up.
inline int whole_above(double x) { return nearest_whole(std::ceil(x)); }

}  // namespace turnwright
