// SPDX-License-Identifier: MIT
// Prices as a customer pays them who pays in a currency of his own.
#include <algorithm>

#include "quote_parts.hpp"
#include "turnwright/estimate/order.hpp"
#include "turnwright/estimate/pricing.hpp"

namespace turnwright {
namespace {

Money exchanged(Amount amount, const ExchangeRate& rate) {
  return rounded_to_step(amount / rate.rate, smallest_unit(rate.currency));
}
// By the shop's steps, none finer than the currency has.
Money stepped(Money own, const ExchangeRate& rate, const Policy& policy) {
  const Amount amount = own.amount() / rate.rate;
  return rounded_to_step(amount, std::max(policy.step_of(amount), smallest_unit(rate.currency)));
}

// What was fixed by hand stays as it was written.
Money each_in(const Price& price, const Quote& quote, const ExchangeRate& rate,
              const Policy& policy) {
  const auto& by_hand = quote.route.job.part.selling.prices;
  const auto found = by_hand.find(price.quantity);
  if (found != by_hand.end()) return exchanged(found->second, rate);
  return stepped(price.each, rate, policy);
}

}  // namespace

std::optional<ExchangeRate> exchange_of(const Request& request, const Currencies& currencies) {
  if (request.currency.empty() || request.currency == currencies.own) return std::nullopt;
  for (const ExchangeRate& rate : currencies.rates)
    if (rate.currency == request.currency) return rate;
  return std::nullopt;
}

Quote in_currency(Quote quote, const ExchangeRate& rate, const Policy& policy) {
  quote.currency = rate.currency;
  Money once;
  for (OneOffLine& line : quote.one_offs) {
    line.price = stepped(line.price, rate, policy);
    line.cost = exchanged(line.cost.amount(), rate);
    once = once + line.price;
  }
  for (Price& price : quote.prices) {
    price.each = each_in(price, quote, rate, policy);
    price.once = once;
    price.minimum_order = exchanged(price.minimum_order.amount(), rate);
    price.cost = exchanged(price.cost.amount(), rate);
    total_up(price);
  }
  return quote;
}

Request in_currency(Request request, const ExchangeRate& rate) {
  for (Charge& charge : request.charges) charge.price = exchanged(charge.exact, rate);
  return request;
}

Policy in_currency(Policy policy, const ExchangeRate& rate) {
  policy.currency = rate.currency;
  policy.minimum_order = exchanged(policy.minimum_order.amount(), rate);
  return policy;
}

}  // namespace turnwright
