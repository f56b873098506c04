// SPDX-License-Identifier: MIT
#pragma once
// What ordering the parts of a request comes to: the minimum order holds for all of them together,
// a rebate comes off the goods, freight and tax on top.
#include <vector>

#include "turnwright/estimate/quote.hpp"
#include "turnwright/part/request.hpp"

namespace turnwright {

/// What all parts of an order share.
struct OrderTerms {
  Money minimum, charges;
  double rebate = 0, tax = 0;  // shares
};
/// The request with what its customer has agreed with the shop, where it says nothing else.
Request with_customer_terms(Request request, const Shop& shop);
/// The rate of the request's currency; none where that is the shop's own.
std::optional<ExchangeRate> exchange_of(const Request& request, const Currencies& currencies);
/// Prices in another currency, each rounded to its step, totals from them: for the customer's copy.
Quote in_currency(Quote quote, const ExchangeRate& rate, const Policy& policy);
/// Freight and other charges, and the minimum order, in it.
Request in_currency(Request request, const ExchangeRate& rate);
Policy in_currency(Policy policy, const ExchangeRate& rate);
/// Of the policy, where the request says nothing else.
OrderTerms order_terms(const Policy& policy, const Request* request = nullptr);

/// One quantity of each part, what is charged once, and what is missing to the minimum order.
struct Order {
  std::vector<int> quantities;  // in the order of the parts
  Money parts, one_offs;
  Money rebate;     // off these
  Money surcharge;  // what the minimum lacks after it
  Money charges;
  Money net, tax, total;  // net: all of the above; total: with the tax
};

/// The orders that the quantities make, column by column: the first quantity of each part, the
/// second … and the last of those that have no more. One, where each part has one quantity.
std::vector<Order> orders_of(const std::vector<Quote>& quotes, const OrderTerms& terms);

}  // namespace turnwright
