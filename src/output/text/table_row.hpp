// SPDX-License-Identifier: MIT
#pragma once
// The row of the cutting table that a speed starts from.
#include "text/text_writer.hpp"
#include "turnwright/route/cutting_table.hpp"

namespace turnwright {

/// The row with the life that its speed stands for, and where it comes from; `work`: of a row for
/// one kind of step.
void table_row(TextWriter& out, const Shop& shop, const TableSpeed& row, const std::string& work);

}  // namespace turnwright
