// SPDX-License-Identifier: MIT
#pragma once
// Times and prices that a part file gives as they are: beyond these it is a typing slip, no work.
#include <optional>

#include "turnwright/quantity/message.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {

inline constexpr Amount dearest(1e7);
inline constexpr Time longest = 1e6 * unit::min;
inline constexpr double longest_away = 3650;  // days at another firm

template <class Q>
bool is_absurd(const std::optional<Q>& q, Q most) {
  return q && (q->si < 0 || *q > most);
}

inline Message wants_sensible() {
  return {"part.wants-sensible",
          {{"time", Figure{in(longest, unit::min), 7}}, {"price", Figure{dearest.si, 8}}}};
}

}  // namespace turnwright
