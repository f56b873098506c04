// SPDX-License-Identifier: MIT
#pragma once
// Exact slopes of recorded formulas: every term with its derivative beside it, as dual numbers do
// (W. K. Clifford 1873; R. E. Wengert, Comm. ACM 7, 1964).
#include "turnwright/figure/recorded.hpp"

namespace turnwright {

/// d number / d leaf, both in SI. Where a formula has a step (a whole number, rounded money) the
/// slope is that of the tread, 0; where two branches meet, that of the branch taken.
/// NaN where the leaf is nowhere in the formula: it does nothing, or was used as a plain number.
double slope(const ExpressionGraph& record, const Expression& number, const Expression& leaf);

}  // namespace turnwright
