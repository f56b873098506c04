// SPDX-License-Identifier: MIT
#include "batches.hpp"

#include <algorithm>

#include "turnwright/quantity/text.hpp"

namespace turnwright {

const WeekOrder* order_of_batch(const Week& week, std::string_view name) {
  const auto named = [&](std::string_view number) {
    const auto found = std::find_if(week.orders.begin(), week.orders.end(),
                                    [&](const WeekOrder& o) { return o.number == number; });
    return found == week.orders.end() ? nullptr : &*found;
  };
  const std::size_t point = name.rfind('.');
  if (point == std::string_view::npos || named(name) != nullptr) return nullptr;
  const WeekOrder* order = named(name.substr(0, point));
  if (order == nullptr || order->batches < 2) return nullptr;
  return read_whole(std::string(name.substr(point + 1)), 1, order->batches) ? order : nullptr;
}

std::vector<WeekOrder> batches_of(const WeekOrder& order) {
  std::vector<WeekOrder> batches;
  const int n = order.batches;
  for (int b = 1; b <= n; ++b) {
    WeekOrder batch = order;
    batch.number += "." + std::to_string(b);
    batch.batch_of = order.number;
    batch.whole = order.quantity;
    batch.quantity = order.quantity / n + (b <= order.quantity % n ? 1 : 0);
    batch.importance /= n;
    batch.batches = 1;
    batches.push_back(std::move(batch));
  }
  return batches;
}

}  // namespace turnwright
