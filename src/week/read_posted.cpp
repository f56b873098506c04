// SPDX-License-Identifier: MIT
#include "table_columns.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/posted.hpp"

namespace turnwright {
namespace {

constexpr int most_operations = 10000;  // the number of one
// Of the list: an order has a handful of operations.
constexpr int most_places = 1'000'000;

const std::vector<std::string>& needed_columns() {
  static const std::vector<std::string> all{"machine", "order", "operation", "setup from"};
  return all;
}

std::optional<PostedRun> run_in(const Week& week, const TableColumns& columns,
                                const TableRow& row) {
  const auto operation = read_whole(columns.cell(row, "operation"), 1, most_operations);
  const auto from = read_moment(columns.cell(row, "setup from"), week.from);
  if (!row.problems.empty() || !operation || !from) return std::nullopt;
  const auto place = read_whole(columns.cell(row, "place"), 0, most_places);
  return PostedRun{columns.cell(row, "machine"), columns.cell(row, "order"), *operation, *from,
                   place.value_or(-1)};
}

// Of an order that is not in the plan: neither machine nor operation.
bool is_not_planned(const TableColumns& columns, const TableRow& row) {
  return row.problems.empty() && row.cells.size() >= needed_columns().size() &&
         columns.cell(row, "machine").empty() && columns.cell(row, "operation").empty() &&
         columns.cell(row, "setup from").empty();
}

}  // namespace

Checked<std::vector<PostedRun>> read_posted(const Week& week, RowReader& table) {
  std::vector<PostedRun> posted;
  const auto head = table.next();
  if (!head) return posted;
  Problems problems = lacking_columns(table.file(), *head, needed_columns(), needed_columns());
  if (!problems.empty()) return problems;
  const TableColumns columns(*head);
  while (const auto row = table.next()) {
    if (is_not_planned(columns, *row)) continue;
    if (auto run = run_in(week, columns, *row))
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
