// SPDX-License-Identifier: MIT
#pragma once
// Orders in batches, told apart.
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/week/week.hpp"

namespace turnwright {

/// The order of a batch that is named as the plan names it, "134.2"; null: it is none, or an order
/// has that number.
const WeekOrder* order_of_batch(const Week& week, std::string_view name);

/// Its batches as orders of their own, by the names that the plan has for them; the first ones get
/// the pieces that do not divide.
std::vector<WeekOrder> batches_of(const WeekOrder& order);

}  // namespace turnwright
