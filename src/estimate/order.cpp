// SPDX-License-Identifier: MIT
#include "turnwright/estimate/order.hpp"

#include <algorithm>

#include "quote_parts.hpp"

namespace turnwright {
namespace {

// Options stand beside what is ordered: alternatives are never added up.
std::vector<const Quote*> in_order(const std::vector<Quote>& quotes) {
  std::vector<const Quote*> found;
  for (const Quote& quote : quotes)
    if (quote.route.job.part.selling.option.empty()) found.push_back(&quote);
  return found;
}

std::size_t columns_of(const std::vector<const Quote*>& quotes) {
  std::size_t columns = 0;
  for (const Quote* quote : quotes) columns = std::max(columns, quote->prices.size());
  return columns;
}

Order order_of(const std::vector<const Quote*>& quotes, std::size_t column,
               const OrderTerms& terms) {
  Order order;
  for (const Quote* quote : quotes) {
    if (quote->prices.empty()) continue;
    const Price& price = quote->prices[std::min(column, quote->prices.size() - 1)];
    order.quantities.push_back(price.quantity);
    order.parts = order.parts + price.total;
    for (const OneOffLine& once : quote->one_offs) order.one_offs = order.one_offs + once.price;
  }
  const Money sum = order.parts + order.one_offs;
  order.rebate = rounded(sum.amount() * terms.rebate);
  order.surcharge = missing_to(terms.minimum, sum, terms.rebate);
  order.charges = terms.charges;
  order.net = sum - order.rebate + order.surcharge + order.charges;
  order.tax = rounded(order.net.amount() * terms.tax);
  order.total = order.net + order.tax;
  return order;
}

}  // namespace

Request with_customer_terms(Request request, const Shop& shop) {
  const CustomerTerms* agreed = shop.customer(request.customer);
  if (agreed == nullptr) return request;
  const auto take = [&](std::optional<double>& share, const std::optional<double>& theirs,
                        std::string& of) {
    if (share || !theirs) return;
    share = theirs;
    of = agreed->name;
  };
  take(request.rebate, agreed->rebate, request.rebate_of);
  if (request.payment.empty()) request.payment = agreed->payment;
  for (RequestItem& item : request.parts) {
    take(item.selling.margin, agreed->margin, item.selling.margin_of);
    take(item.selling.discount, agreed->discount, item.selling.discount_of);
  }
  return request;
}

OrderTerms order_terms(const Policy& policy, const Request* request) {
  OrderTerms terms{policy.minimum_order, {}, policy.rebate, policy.tax};
  if (request == nullptr) return terms;
  terms.rebate = request->rebate.value_or(policy.rebate);
  terms.tax = request->tax.value_or(policy.tax);
  for (const Charge& charge : request->charges) terms.charges = terms.charges + charge.price;
  return terms;
}

std::vector<Order> orders_of(const std::vector<Quote>& quotes, const OrderTerms& terms) {
  std::vector<Order> orders;
  const std::vector<const Quote*> ordered = in_order(quotes);
  for (std::size_t column = 0; column < columns_of(ordered); ++column)
    orders.push_back(order_of(ordered, column, terms));
  return orders;
}

}  // namespace turnwright
