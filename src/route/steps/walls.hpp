// SPDX-License-Identifier: MIT
#pragma once
// Walls that guard what an operation must not cut.
#include "turnwright/route/outline.hpp"

namespace turnwright {

/// The shape with a wall left of the zone: what is held or left to the other operation stays.
Outline blocked_left(const Outline& shape, Length zone_left);
/// The lowest radius between two z.
Length lowest(const Outline& shape, const Interval& z);
/// The shape with a wall at both ends of a stretch.
Outline within(const Outline& shape, const Interval& z);

}  // namespace turnwright
