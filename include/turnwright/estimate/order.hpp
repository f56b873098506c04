// SPDX-License-Identifier: MIT
#pragma once
// What ordering the parts of a request comes to: the minimum order holds for all of them together.
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// One quantity of each part, what is charged once, and what is missing to the minimum order.
struct Order {
  std::vector<int> quantities;  // in the order of the parts
  Money parts, one_offs, surcharge, total;
};

/// The orders that the quantities make, column by column: the first quantity of each part, the
/// second … and the last of those that have no more. One, where each part has one quantity.
std::vector<Order> orders_of(const std::vector<Quote>& quotes, const Policy& policy);

}  // namespace turnwright
