// SPDX-License-Identifier: MIT
// Prices as a customer pays them who pays in a currency of his own.
#include "quote_parts.hpp"
#include "turnwright/estimate/order.hpp"

namespace turnwright {
namespace {

Money exchanged(Money amount, const ExchangeRate& rate) {
  return rounded(amount.amount() / rate.rate);
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
  for (Price& price : quote.prices) {
    const Amount each = price.each.amount() / rate.rate;
    price.each = rounded_to_step(each, policy.step_of(each));
    price.least = exchanged(price.least, rate);
    price.cost = exchanged(price.cost, rate);
    total_up(price);
  }
  for (OneOffLine& line : quote.one_offs) {
    const Amount price = line.price.amount() / rate.rate;
    line.price = rounded_to_step(price, policy.step_of(price));
    line.cost = exchanged(line.cost, rate);
  }
  return quote;
}

Request in_currency(Request request, const ExchangeRate& rate) {
  for (Charge& charge : request.charges) charge.price = exchanged(charge.price, rate);
  return request;
}

Policy in_currency(Policy policy, const ExchangeRate& rate) {
  policy.currency = rate.currency;
  policy.minimum_order = exchanged(policy.minimum_order, rate);
  return policy;
}

}  // namespace turnwright
