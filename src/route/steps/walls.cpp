// SPDX-License-Identifier: MIT
#include "steps/walls.hpp"

namespace turnwright {

Outline blocked_left(const Outline& shape, Length zone_left) {
  constexpr Length far(1e3);
  const Outline wall(
      std::vector<Segment>{{{zone_left - far, far}, {zone_left, far}, Bulge::none, {}, {}}});
  return combine(shape, wall, Envelope::upper);
}

namespace {
Length lowest_of(const Segment& s) {
  const Length ends = min(s.from.r, s.to.r);
  const auto turn = s.bulge == Bulge::in ? turning_point(s) : std::nullopt;
  return turn ? min(ends, radius_at(s, *turn)) : ends;
}
}  // namespace

Length lowest(const Outline& shape, const Interval& z) {
  Length low = shape.largest(z.from, z.to);
  for (const Segment& s : shape.pieces())
    if (s.to.z.si > z.from.si + same_point && s.from.z.si < z.to.si - same_point)
      low = min(low, lowest_of(s));
  return low;
}

Outline within(const Outline& shape, const Interval& z) {
  constexpr Length far(1e3);
  const Outline wall(std::vector<Segment>{{{z.to, far}, {z.to + far, far}, Bulge::none, {}, {}}});
  return combine(blocked_left(shape, z.from), wall, Envelope::upper);
}

}  // namespace turnwright
