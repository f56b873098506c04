// SPDX-License-Identifier: MIT
#include "table_columns.hpp"

namespace turnwright {

Problems lacking_columns(const std::string& file, const TableRow& head,
                         const std::vector<std::string>& needed,
                         const std::vector<std::string>& all) {
  const TableColumns columns(head);
  Problems problems;
  for (const std::string& name : needed)
    if (!columns.has(name))
      problems.push_back({file,
                          {head.line, 1},
                          1,
                          {"actuals.no-column", {{"name", name}}},
                          one_of(all),
                          "",
                          head.text});
  return problems;
}

}  // namespace turnwright
