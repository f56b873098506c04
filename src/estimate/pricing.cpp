// SPDX-License-Identifier: MIT
#include "turnwright/estimate/pricing.hpp"

#include "turnwright/estimate/model.hpp"

namespace turnwright {

Pricing pricing_of(const Part& part, const Policy& policy) {
  const Selling& selling = part.selling;
  const double discount = selling.discount.value_or(0);
  if (selling.margin) return {*selling.margin, false, discount};
  return {policy.margin, policy.markup, discount};
}

std::optional<Money> price_by_hand(const Part& part, int quantity) {
  const auto found = part.selling.prices.find(quantity);
  if (found == part.selling.prices.end()) return std::nullopt;
  return rounded(found->second);
}

Amount price_from_cost(Amount cost_each, const Pricing& pricing) {
  return model::price_each<double>(cost_each, Number(1.0), pricing.share, pricing.markup) *
         (1 - pricing.discount);
}

}  // namespace turnwright
