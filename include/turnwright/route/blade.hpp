// SPDX-License-Identifier: MIT
#pragma once
// The blade that a piece is parted off with.
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// The narrowest blade that reaches the middle of a diameter, a mounted one first; or null.
const Tool* parting_blade(const Shop& shop, const Machine& machine, Length diameter);

}  // namespace turnwright
