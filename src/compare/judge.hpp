// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/compare/compare.hpp"

namespace turnwright {

/// Money of `other` less `first` for a lot of this quantity, by cause.
Difference difference(const Quote& first, const Quote& other, int quantity);

/// Fills in what follows from the methods: who leads, why, and from where on.
void judge(Comparison& c, const Job& job, const Shop& shop);

}  // namespace turnwright
