// SPDX-License-Identifier: MIT
#pragma once
// What a price takes for granted because the drawing does not say it: the sentence to ask the
// customer, and what another answer would do to the price, from planning the part again with it.
#include <vector>

#include "turnwright/compare/plan_method.hpp"

namespace turnwright {

struct FixedMethod;

struct Question {
  Message ask;
  Message otherwise;  // the answer that was planned
  int quantity = 1;
  Money each;         // with that answer
  double change = 0;  // share of the price quoted, below 0 when cheaper
};

/// Of a feasible method, at a quantity, the widest change first; what changes the price by less
/// than half a percent is left out.
/// Where the method no longer holds the drawing as well, by the method that the shop would quote.
std::vector<Question> open_questions(const MethodResult& method, const Shop& shop,
                                     const FixedMethod& fixed, int quantity);

}  // namespace turnwright
