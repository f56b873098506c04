// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/compare/compare.hpp"

namespace turnwright {

/// Money of `other` less `first` for a lot of this quantity, by cause.
Difference difference(const Quote& first, const Quote& other, int quantity);

/// What the part is quoted by, from the methods. `quantity`: the main one; 0 is the part's.
void judge_choice(Comparison& c, const Part& part, const Shop& shop, int quantity);
/// Who leads, why, and from where on; after the choice.
void judge(Comparison& c, const Part& part, const Shop& shop);

}  // namespace turnwright
