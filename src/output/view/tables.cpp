// SPDX-License-Identifier: MIT
#include "view/tables.hpp"

#include "formatting.hpp"

namespace turnwright {

Table difference_table(Column first) {
  Table table;
  table.columns.push_back(std::move(first));
  for (const DifferencePart part : difference_parts)
    table.columns.push_back(number_column(Message(std::string("methods.part-") + name_of(part))));
  return table;
}

void add_difference(Table& table, std::string name, const Difference& difference,
                    const Words& words) {
  Cells cells{std::move(name)};
  for (const DifferencePart part : difference_parts)
    cells.push_back(signed_text(part_of(difference, part), words));
  table.add(std::move(cells));
}

}  // namespace turnwright
