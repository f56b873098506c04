// SPDX-License-Identifier: MIT

#include "turnwright/quantity/text.hpp"
#include "turnwright/week/posted.hpp"

namespace turnwright {
namespace {

constexpr int most_operations = 10000;

std::optional<PostedRun> run_in(const Week& week, const TableRow& row) {
  if (!row.problems.empty() || row.cells.size() < 4) return std::nullopt;
  const auto operation = read_whole(row.cells[2].text, 1, most_operations);
  if (!operation) return std::nullopt;
  const Minute from = read_moment(week, row.cells[3].text);
  if (from == never) return std::nullopt;
  constexpr std::size_t place = 7;
  const auto at = row.cells.size() > place ? read_whole(row.cells[place].text, 0, most_operations)
                                           : std::nullopt;
  return PostedRun{row.cells[0].text, row.cells[1].text, *operation, from, at.value_or(-1)};
}

// Of an order that is not in the plan: neither machine nor operation.
bool is_not_planned(const TableRow& row) {
  return row.problems.empty() && row.cells.size() >= 4 && row.cells[0].text.empty() &&
         row.cells[2].text.empty() && row.cells[3].text.empty();
}

}  // namespace

Checked<std::vector<PostedRun>> read_posted(const Week& week, RowReader& table) {
  std::vector<PostedRun> posted;
  Problems problems;
  table.next();  // headings
  while (const auto row = table.next()) {
    if (is_not_planned(*row)) continue;
    if (auto run = run_in(week, *row))
      posted.push_back(std::move(*run));
    else
      problems.push_back({table.file(),
                          {row->line, 1},
                          1,
                          "week.no-line-of-a-plan",
                          "week.line-of-a-plan",
                          "",
                          row->text});
  }
  if (!problems.empty()) return problems;
  return posted;
}

}  // namespace turnwright
