// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/compare/plan_method.hpp"

namespace turnwright {

/// The first of the cheapest at a quantity, an index; -1 where none is feasible.
inline int cheapest(const std::vector<MethodResult>& methods, int quantity) {
  int best = -1;
  double least = 0;
  for (std::size_t i = 0; i < methods.size(); ++i) {
    if (!methods[i].feasible()) continue;
    const double cost = lot_cost(*methods[i].quote, quantity).si;
    if (best >= 0 && cost >= least) continue;
    best = static_cast<int>(i);
    least = cost;
  }
  return best;
}

}  // namespace turnwright
