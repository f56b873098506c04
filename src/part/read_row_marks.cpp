// SPDX-License-Identifier: MIT
// How a list writes its numbers, and its cells with that undone: by points, as a part file has
// them.
#include <algorithm>

#include "family.hpp"
#include "row_cells.hpp"
#include "row_columns.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {
namespace {

// A spreadsheet makes a date of "5/10". A revision may be one.
void check_no_day(const std::string& name, const Cell& cell, ProblemList& problems) {
  if (cell.holds == CellHolds::day && name != "revision")
    problems.add(cell_node(cell), Message{"table.day", {{"text", cell.text}}}, "expected.no-day");
}

// "1.000" where others write 3,2.
void check_no_thousands(const Cell& cell, ProblemList& problems) {
  if (cell.holds == CellHolds::text && thousands(cell.text, '.') > 0)
    problems.add(cell_node(cell), Message{"number.thousands-or-decimals", {{"text", cell.text}}},
                 "part.wants-decimal-comma");
}

}  // namespace

void PartTable::find_convention(const std::vector<TableRow>& rows) {
  std::size_t commas = 0, points = 0, comma_thousands = 0, point_thousands = 0;
  for (const TableRow& row : rows)
    for (const auto& [name, cell] : filled_cells(columns_, row))
      if (holds_sizes(name) && cell->holds == CellHolds::text) {
        commas += decimals(cell->text, ',');
        points += decimals(cell->text, '.');
        comma_thousands += thousands(cell->text, ',');
        point_thousands += thousands(cell->text, '.');
      }
  has_commas_ = commas > comma_thousands;
  decimal_comma_ = has_commas_ && points == point_thousands;
  if (decimal_comma_)
    notes_.emplace_back("part.decimal-commas");
  else if (commas > 0 && points == 0)
    notes_.emplace_back("part.commas-unclear");
  else if (commas > 0)
    notes_.push_back({"part.commas-and-points", {{"commas", commas}, {"points", points}}});
}

// What is corrected and read again is text throughout: a sheet's number has the list's own mark.
std::string PartTable::as_written(const std::string& name, const Cell& cell) const {
  std::string text = cell.text;
  if (decimal_comma_ && holds_sizes(name) && cell.holds == CellHolds::number)
    std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

// The cells of a row with points for decimal commas.
PartTable::NamedCells PartTable::read_cells(const TableRow& row, ProblemList& problems) const {
  NamedCells cells;
  for (const auto& [name, cell] : filled_cells(columns_, row)) {
    const Column* c = column(name);
    if (c != nullptr && c->holds == Holds::remark) continue;
    check_no_day(name, *cell, problems);
    if (has_commas_ && holds_sizes(name)) check_no_thousands(*cell, problems);
    cells.emplace_back(name, *cell);
    if (decimal_comma_ && holds_sizes(name))
      cells.back().second.text = with_points(std::move(cells.back().second.text));
  }
  return cells;
}

}  // namespace turnwright
