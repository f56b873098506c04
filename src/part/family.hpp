// SPDX-License-Identifier: MIT
#pragma once
// A family: a part file with named sizes as <d1>, which a row of a table fills in.
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/reader.hpp"
#include "turnwright/document/table.hpp"

namespace turnwright {

/// The sizes of a row by their names.
using RowSizes = std::map<std::string, const Cell*>;

Node cell_node(const Cell& cell);

/// A size of a family may have any such name that no column has.
bool is_size_name(std::string_view name);

/// Where a text of a family stands: in no line of the row, so that it is known again.
inline constexpr Position place_of_family{1 << 20, 1};

/// The family's tree with the row's sizes in it, each place being `place_of_family`: what is wrong
/// is wrong with this row. Problems stand at `named`, the cell that names the family, or at a size.
/// `columns` are the names that a size may have been mistaken for.
Node filled_family(const Node& root, const RowSizes& sizes, const Node& named,
                   const std::vector<std::string>& columns, ProblemList& problems);

}  // namespace turnwright
