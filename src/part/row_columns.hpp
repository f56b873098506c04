// SPDX-License-Identifier: MIT
#pragma once
// The columns that a list of parts may have.
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "turnwright/document/table.hpp"

namespace turnwright {

enum class Holds { text, list, numbers, stock, remark, family };

/// A column, and where what it holds stands in a part file.
struct Column {
  const char* name;
  const char* words;  // of the catalogue: what headings call it
  const char* map;    // of the part file, "" for its top
  const char* key;
  Holds holds;
};
/// None for what is no column: the size of a family.
const Column* column(std::string_view name);
std::vector<std::string> names_of_columns();
/// Sizes, and words with sizes in them; numbers and names of parts and materials are not.
bool holds_sizes(const std::string& name);
/// The cells of a row that have a column and hold something, each with the name of its column.
std::vector<std::pair<std::string, const Cell*>> filled_cells(
    const std::vector<std::string>& columns, const TableRow& row);

}  // namespace turnwright
