// SPDX-License-Identifier: MIT
#include "row_columns.hpp"

#include <algorithm>
#include <array>

#include "turnwright/part/part_table.hpp"

namespace turnwright {
namespace {

constexpr std::array columns_known{
    Column{"number", "column.number", "part", "number", Holds::text},
    Column{"name", "column.name", "part", "name", Holds::text},
    Column{"revision", "column.revision", "part", "revision", Holds::text},
    Column{"order", "column.order", "part", "order", Holds::text},
    Column{"units", "column.units", "", "units", Holds::text},
    Column{"material", "column.material", "", "material", Holds::text},
    Column{"stock", "column.stock", "", "stock", Holds::stock},
    Column{"quantities", "column.quantities", "", "quantities", Holds::numbers},
    Column{"general", "column.general", "drawing", "general", Holds::text},
    Column{"Ra", "column.Ra", "drawing", "Ra", Holds::text},
    Column{"edges", "column.edges", "drawing", "edges", Holds::text},
    Column{"overall", "column.overall", "", "overall", Holds::text},
    Column{"outside", "column.outside", "", "outside", Holds::text},
    Column{"bore", "column.bore", "", "bore from right", Holds::text},
    Column{"bore from right", "column.bore-from-right", "", "bore from right", Holds::text},
    Column{"bore from left", "column.bore-from-left", "", "bore from left", Holds::text},
    Column{"right face", "column.right-face", "faces", "right", Holds::text},
    Column{"left face", "column.left-face", "faces", "left", Holds::text},
    Column{"centres", "column.centres", "centres", "both ends", Holds::text},
    Column{"other work", "column.other-work", "", "other work", Holds::list},
    Column{"one-offs", "column.one-offs", "", "one-offs", Holds::list},
    Column{"family", "column.family", "", "", Holds::family},
    Column{"notes", "column.notes", "", "", Holds::remark},
    Column{"position", "column.position", "", "", Holds::remark},
    Column{PartTable::problem_column, "column.problem", "", "", Holds::remark},
};

}  // namespace

const Column* column(std::string_view name) {
  for (const Column& c : columns_known)
    if (name == c.name) return &c;
  return nullptr;
}

std::vector<std::string> names_of_columns() {
  std::vector<std::string> names;
  names.reserve(columns_known.size());
  for (const Column& c : columns_known) names.emplace_back(c.name);
  return names;
}

bool holds_sizes(const std::string& name) {
  const Column* c = column(name);
  if (c == nullptr) return true;  // a size of a family
  return c->holds <= Holds::list && std::string_view(c->map) != "part" &&
         std::string_view(c->key) != "material" && std::string_view(c->key) != "units";
}

std::vector<ListColumn> list_columns() {
  std::vector<ListColumn> list;
  list.reserve(columns_known.size());
  for (const Column& c : columns_known) list.push_back({c.name, c.words});
  return list;
}

std::vector<std::pair<std::string, const Cell*>> filled_cells(
    const std::vector<std::string>& columns, const TableRow& row) {
  std::vector<std::pair<std::string, const Cell*>> cells;
  for (std::size_t i = 0; i < std::min(columns.size(), row.cells.size()); ++i)
    if (!columns[i].empty() && !row.cells[i].text.empty())
      cells.emplace_back(columns[i], &row.cells[i]);
  return cells;
}

}  // namespace turnwright
