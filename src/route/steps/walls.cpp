// SPDX-License-Identifier: MIT
#include "steps/walls.hpp"

namespace turnwright {

Outline blocked_left(const Outline& shape, Length zone_left) {
  constexpr Length far(1e3);
  const Outline wall(
      std::vector<Segment>{{{zone_left - far, far}, {zone_left, far}, Bulge::none, {}, {}}});
  return combine(shape, wall, Envelope::upper);
}

Outline within(const Outline& shape, const Interval& z) {
  constexpr Length far(1e3);
  const Outline wall(std::vector<Segment>{{{z.to, far}, {z.to + far, far}, Bulge::none, {}, {}}});
  return combine(blocked_left(shape, z.from), wall, Envelope::upper);
}

}  // namespace turnwright
