// SPDX-License-Identifier: MIT
#pragma once
// Parts out of a table: a row a part, in each cell the words of the part file.
#include <string>
#include <vector>

#include "turnwright/document/table.hpp"
#include "turnwright/part/part.hpp"

namespace turnwright {

class PartTable {
 public:
  /// The columns by the first row; all problems of it when one is unknown, missing or twice there.
  static Checked<PartTable> read_head(const std::string& file, const TableRow& head);
  /// The part of a row, or its problems, each with the column that it is in.
  Checked<Part> read(const TableRow& row) const;
  /// The text of a named column; empty when the table has none.
  std::string cell(const TableRow& row, std::string_view column) const;
  const std::vector<std::string>& columns() const { return columns_; }

 private:
  std::string file_;
  std::vector<std::string> columns_;
};

}  // namespace turnwright
