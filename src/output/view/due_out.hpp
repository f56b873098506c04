// SPDX-License-Identifier: MIT
#pragma once
#include "table.hpp"
#include "view/week_view.hpp"

namespace turnwright {

/// The orders by due date, with the customer where one is named.
Table due_out_table(const Week& week, const WeekView& view, const Words& words);

}  // namespace turnwright
