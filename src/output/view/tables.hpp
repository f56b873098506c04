// SPDX-License-Identifier: MIT
#pragma once
// Tables that stand on several documents alike.
#include "table.hpp"
#include "turnwright/output/words.hpp"
#include "view/methods_view.hpp"

namespace turnwright {

/// Differences by cause: the first column names the row, the others hold signed money.
Table difference_table(Column first);
void add_difference(Table& table, std::string name, const Difference& difference,
                    const Words& words);

}  // namespace turnwright
