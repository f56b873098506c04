// SPDX-License-Identifier: MIT
#pragma once
// How the cost of a part becomes its price: by the shop's policy, or as the request fixes it.
#include <optional>

#include "turnwright/part/part.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright {

struct Price;
struct Quote;

struct Pricing {
  double share = 0;     // margin or markup
  bool markup = false;  // `share` is of the cost instead of the price
  double discount = 0;  // taken off the price, a share of it
};
Pricing pricing_of(const Part& part, const Policy& policy);

/// The price of a price unit that was fixed by hand for this quantity.
std::optional<Money> price_by_hand(const Part& part, int quantity);

/// What is odd about prices fixed by hand: one rises with the quantity, as swapped ones do, or does
/// not cover its cost.
Messages odd_hand_prices(const Quote& quote);

/// Ordered alone, it would pay a surcharge.
bool is_below_minimum(const Price& price, const Policy& policy);

/// Cost of one piece to its price, unrounded.
Amount price_from_cost(Amount cost_each, const Pricing& pricing);

}  // namespace turnwright
