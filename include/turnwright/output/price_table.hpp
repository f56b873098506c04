// SPDX-License-Identifier: MIT
#pragma once
// The priced list: a row a part and quantity, as a table of text (inside copy: cost and margin).
#include <string>

#include "turnwright/document/table.hpp"
#include "turnwright/estimate/quote.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {

std::string price_table_head();
/// The rows of a quote with its band; `notes` as they stood in the list.
std::string price_table_rows(const Quote& quote, const std::string& notes);

/// What was refused, to be corrected and read again: the columns of the list, then the problem.
std::string again_head(const PartTable& table);
std::string again_row(const PartTable& table, const TableRow& row, const std::string& problem);

}  // namespace turnwright
