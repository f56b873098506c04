// SPDX-License-Identifier: MIT
#include "turnwright/estimate/order.hpp"

#include <algorithm>

namespace turnwright {
namespace {

std::size_t columns_of(const std::vector<Quote>& quotes) {
  std::size_t columns = 0;
  for (const Quote& quote : quotes) columns = std::max(columns, quote.prices.size());
  return columns;
}

Order order_of(const std::vector<Quote>& quotes, std::size_t column, const Policy& policy) {
  Order order;
  for (const Quote& quote : quotes) {
    if (quote.prices.empty()) continue;
    const Price& price = quote.prices[std::min(column, quote.prices.size() - 1)];
    order.quantities.push_back(price.quantity);
    order.parts = order.parts + price.total;
    for (const OneOffLine& once : quote.one_offs) order.one_offs = order.one_offs + once.price;
  }
  const Money sum = order.parts + order.one_offs;
  order.surcharge = std::max(policy.minimum_order - sum, Money());
  order.total = sum + order.surcharge;
  return order;
}

}  // namespace

std::vector<Order> orders_of(const std::vector<Quote>& quotes, const Policy& policy) {
  std::vector<Order> orders;
  for (std::size_t column = 0; column < columns_of(quotes); ++column)
    orders.push_back(order_of(quotes, column, policy));
  return orders;
}

}  // namespace turnwright
