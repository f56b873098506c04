// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/part/part.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// A listed material that the part's may be as well: its name says no condition, and that of the
/// other is the same with its condition behind it ("42CrMo4" and "+QT"). Null: there is no doubt.
const Material* other_condition(const Part& part, const Shop& shop);

}  // namespace turnwright
