// SPDX-License-Identifier: MIT
#include "order_lists.hpp"

#include <filesystem>

#include "files.hpp"
#include "inputs.hpp"
#include "list_reader.hpp"
#include "turnwright/part/part_number.hpp"
#include "week_inputs.hpp"

namespace turnwright::cli {
namespace {

void say_what_is_read(const Session& session, const std::string& path, const ListReader& list,
                      const OrderTable& table, std::size_t above) {
  if (Messages others = list.other_sheets(); !others.empty())
    session.note({"cli.sheets-not-read", {{"path", path}, {"sheets", std::move(others)}}});
  if (above > 0) session.note({"cli.rows-above", {{"path", path}, {"n", above}}});
  for (const Message& note : table.notes()) session.note(note);
}

// A part's path beside the list, as the week would name it.
void name_beside_week(const Week& week, const std::string& list, WeekOrder& order) {
  const std::string path = part_path(list, order.part);
  if (exists(path) && !is_folder(path)) order.part = beside_week(week, path);
}

std::optional<ReadOrders> read_list(const Session& session, const std::string& path, Week& week,
                                    OrderNumbers& taken) {
  ListReader list(session, path, "");
  const OrderWords words{heading_words(order_columns()), heading_words(order_states())};
  const auto [head, above] =
      head_of(list.rows(), [&](const TableRow& row) { return OrderTable::is_head(row, words); });
  if (!head) {
    session.note({"cli.no-rows", {{"path", path}}});
    return std::nullopt;
  }
  const auto table = OrderTable::read_head(list.rows().file(), *head, words);
  if (!table) {
    session.print(table.problems());
    return std::nullopt;
  }
  say_what_is_read(session, path, list, *table, above);
  ReadOrders read{path, *table, {}};
  for (TableRow& row : list.chunk(most_orders)) {
    const std::size_t before = week.orders.size();
    Problems problems = table->add(row, week, taken);
    session.print(problems);
    if (week.orders.size() > before) name_beside_week(week, path, week.orders.back());
    read.rows.push_back({std::move(row),
                         week.orders.size() > before ? week.orders.back().number : "",
                         std::move(problems)});
  }
  if (list.rows().next()) {
    session.note({"cli.too-many-orders", {{"path", path}, {"most", most_orders}}});
    return std::nullopt;
  }
  if (list.formulas() > 0) session.note({"cli.formulas", {{"path", path}, {"n", list.formulas()}}});
  return read;
}

// The part files of a folder by their numbers.
using Numbers = std::map<std::string, std::vector<std::string>>;
Numbers numbers_in(const std::filesystem::path& folder) {
  Numbers found;
  for (const NamedText& file : read_folder(folder.string()))
    if (const std::string number = part_number_in(file.text); !number.empty())
      found[number].push_back(std::filesystem::path(file.name).filename().string());
  return found;
}

}  // namespace

std::optional<std::vector<ReadOrders>> read_order_lists(const Session& session, Week& week) {
  std::vector<ReadOrders> lists;
  OrderNumbers taken;
  for (const WeekOrder& order : week.orders) taken.insert(order.number);
  for (const OrderList& named : week.order_lists) {
    const std::string path = part_path(week.file, named.path);
    if (!exists(path) || is_folder(path)) {
      session.print({problem_in(week, named.at, {"cli.no-list", {{"name", named.path}}},
                                {"cli.path-beside", {{"path", path}}})});
      return std::nullopt;
    }
    auto read = read_list(session, path, week, taken);
    if (!read) return std::nullopt;
    lists.push_back(std::move(*read));
  }
  return lists;
}

namespace {

std::string line_of_cells(std::vector<std::string> cells, const std::string& last) {
  cells.push_back(last);
  std::string line;
  for (const std::string& cell : cells) line += (line.empty() ? "" : ",") + table_cell(cell);
  return line + "\n";
}

// What is wrong with an order that could be read and is not in the plan; none: it is.
Problems refusal_of(const std::string& number, const Week& week, const PlannedWeek& planned) {
  if (number.empty()) return {};
  for (const std::size_t i : planned.refused) {
    const WeekOrder& order = week.orders[i];
    if ((order.number != number && order.batch_of != number) || !order.row) continue;
    for (const Problem& problem : planned.problems)
      if (problem.file == order.row->file && problem.at.line == order.row->at.line)
        return {problem};
    return {problem_of(week, order, {"cli.part-not-used", {{"name", order.part}}})};
  }
  return {};
}

}  // namespace

std::string again_list(const Session& session, const ReadOrders& list, const Week& week,
                       const PlannedWeek& planned) {
  std::string lines;
  for (const ReadOrders::Row& row : list.rows) {
    const Problems problems =
        row.problems.empty() ? refusal_of(row.number, week, planned) : row.problems;
    if (!problems.empty())
      lines += line_of_cells(list.table.texts(row.cells), one_line(session, problems));
  }
  if (lines.empty()) return "";
  return line_of_cells(list.table.columns(), PartTable::problem_column) + lines;
}

Problems find_parts(Week& week) {
  std::optional<Numbers> numbers;
  Problems problems;
  for (WeekOrder& order : week.orders) {
    if (exists(part_path(week.file, order.part))) continue;
    const std::filesystem::path folder = std::filesystem::absolute(week.file).parent_path();
    if (!numbers) numbers = numbers_in(folder);
    const auto found = numbers->find(order.part);
    if (found == numbers->end()) continue;
    if (found->second.size() > 1)
      problems.push_back(problem_of(week, order,
                                    {"week.part-numbers",
                                     {{"n", found->second.size()},
                                      {"number", order.part},
                                      {"files", verbatims(found->second)}}},
                                    "week.one-part-file"));
    else
      order.part = found->second.front();
  }
  return problems;
}

}  // namespace turnwright::cli
