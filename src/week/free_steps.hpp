// SPDX-License-Identifier: MIT
#pragma once
// Steps of time with so much of somebody free, or without.
#include "turnwright/week/calendar.hpp"

namespace turnwright {

// So many steps at once: a loop without a way out is worked as a vector.
template <class Share>
inline constexpr Minute together = 32 / sizeof(Share);

/// The first step from `from` on with as much, or with less; `to`: none. `free`: by step.
template <class Share>
Minute first_with(const Share* free, Minute from, Minute to, int share) {
  for (; from + together<Share> <= to; from += together<Share>) {
    Share all_short = -1;
    for (Minute k = 0; k < together<Share>; ++k)
      all_short = static_cast<Share>(all_short & (free[from + k] - share));
    if (all_short >= 0) break;
  }
  while (from < to && free[from] < share) ++from;
  return from;
}
template <class Share>
Minute first_without(const Share* free, Minute from, Minute to, int share) {
  for (; from + together<Share> <= to; from += together<Share>) {
    Share any_short = 0;
    for (Minute k = 0; k < together<Share>; ++k)
      any_short = static_cast<Share>(any_short | (free[from + k] - share));
    if (any_short < 0) break;
  }
  while (from < to && free[from] >= share) ++from;
  return from;
}

}  // namespace turnwright
