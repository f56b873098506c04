// SPDX-License-Identifier: MIT
#pragma once
// What a quote is put together from.
#include "turnwright/estimate/quote.hpp"

namespace turnwright {

MaterialCost material_cost(const Route& route, const Shop& shop);

/// What a lot costs by, from route, times and material of the quote; the quantity is set per price.
model::LotInputs<double> lot_inputs(const Quote& quote, const Shop& shop);

/// What a minimum lacks after the rebate is taken off goods.
Money missing_to(Money minimum, Money goods, double rebate_share);

/// Total, surcharge, rebate and margin of a price from what it asks for each piece.
void total_up(Price& price);

/// Adds the part's one-offs: to the lot, or as lines of their own. A repeat order pays none again.
void add_one_offs(Quote& quote, const Shop& shop);

}  // namespace turnwright
