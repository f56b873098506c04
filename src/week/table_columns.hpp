// SPDX-License-Identifier: MIT
#pragma once
// A table whose columns are known by their headings, in whatever order they stand.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "turnwright/document/table.hpp"

namespace turnwright {

class TableColumns {
 public:
  explicit TableColumns(const TableRow& head) {
    for (std::size_t i = 0; i < head.cells.size(); ++i) at_.emplace(head.cells[i].text, i);
  }
  bool has(const std::string& name) const { return at_.contains(name); }
  /// "" where the table or the row has none.
  std::string cell(const TableRow& row, const std::string& name) const {
    const auto at = at_.find(name);
    return at == at_.end() || at->second >= row.cells.size() ? "" : row.cells[at->second].text;
  }

 private:
  std::map<std::string, std::size_t> at_;
};

/// A problem for each of these columns that a table with this heading lacks; `all` are those that
/// it may have.
Problems lacking_columns(const std::string& file, const TableRow& head,
                         const std::vector<std::string>& needed,
                         const std::vector<std::string>& all);

}  // namespace turnwright
