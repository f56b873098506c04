// SPDX-License-Identifier: MIT
#include "turnwright/estimate/pricing.hpp"

#include "quote_parts.hpp"
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

Messages odd_hand_prices(const Quote& quote) {
  Messages odd;
  const Part& part = quote.route.job.part;
  for (std::size_t i = 0; i < quote.prices.size(); ++i) {
    const Price& p = quote.prices[i];
    const auto next = next_alike(quote.prices, i);
    const bool by_hand = price_by_hand(part, p.quantity).has_value();
    if (by_hand && p.margin < Money())
      odd.push_back(
          {"estimate.hand-price-below-cost",
           {{"quantity", p.quantity}, {"price", p.each}, {"margin", Share{p.margin_share}}}});
    if (!next || quote.prices[*next].each <= p.each) continue;
    const Price& larger = quote.prices[*next];
    odd.push_back({"estimate.hand-price-rises",
                   {{"quantity", p.quantity},
                    {"price", p.each},
                    {"more", larger.quantity},
                    {"higher", larger.each}}});
  }
  return odd;
}

bool is_below_minimum(const Price& price, const Policy& policy) {
  return missing_to(policy.minimum_order, price.total + price.once, price.rebate_share) > Money();
}

Amount price_from_cost(Amount cost_each, const Pricing& pricing) {
  return model::price_each<double>(cost_each, Number(1.0), pricing.share, pricing.markup) *
         (1 - pricing.discount);
}

}  // namespace turnwright
