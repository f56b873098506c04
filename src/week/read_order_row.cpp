// SPDX-License-Identifier: MIT
// A row becomes the map that a week file would hold, so that both are read by one reader.
#include <algorithm>
#include <array>
#include <set>

#include "read_order.hpp"
#include "turnwright/document/sheet_day.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

enum class Holds { text, list, day, state, remark };

struct Column {
  const char* name;   // of the week file
  const char* words;  // of the catalogue: what headings call it
  Holds holds;
};
constexpr std::array columns_known{
    Column{"order", "order-column.order", Holds::text},
    Column{"part", "order-column.part", Holds::text},
    Column{"quantity", "order-column.quantity", Holds::text},
    Column{"due", "order-column.due", Holds::day},
    Column{"customer", "order-column.customer", Holds::text},
    Column{"state", "order-column.state", Holds::state},
    Column{"release", "order-column.release", Holds::day},
    Column{"done", "order-column.done", Holds::text},
    Column{"finished", "order-column.finished", Holds::list},
    Column{"machine", "order-column.machine", Holds::text},
    Column{"not on", "order-column.not-on", Holds::list},
    Column{"importance", "order-column.importance", Holds::text},
    Column{"day late", "order-column.day-late", Holds::text},
    Column{"probability", "order-column.probability", Holds::text},
    Column{"repeat", "order-column.repeat", Holds::text},
    Column{"hold", "order-column.hold", Holds::text},
    Column{PartTable::problem_column, "column.problem", Holds::remark},
};
// No state of an order: nothing of it is left to do.
constexpr std::string_view all_done = "done";
constexpr std::array states_known{
    std::pair{"won", "order-state.won"}, std::pair{"quoted", "order-state.quoted"},
    std::pair{"running", "order-state.running"}, std::pair{"done", "order-state.done"}};

const Column* column(std::string_view name) {
  for (const Column& c : columns_known)
    if (name == c.name) return &c;
  return nullptr;
}
Node text_node(std::string text, Position at) {
  Node node;
  node.kind = Node::Kind::text;
  node.at = at;
  node.text = std::move(text);
  return node;
}

Node list_of(const Cell& cell) {
  Node list;
  list.kind = Node::Kind::list;
  list.at = cell.at;
  const std::string& text = cell.text;
  for (std::size_t from = text.find_first_not_of(" ,;|"); from != text.npos;) {
    const std::size_t to = std::min(text.find_first_of(",;|", from), text.size());
    const std::size_t last = text.find_last_not_of(' ', to - 1);
    list.items.push_back(text_node(text.substr(from, last + 1 - from), cell.at));
    from = text.find_first_not_of(" ,;|", to);
  }
  return list;
}

// A day as lists write it: 24.12.2026 as 2026-12-24, and of a sheet a number that no format shows
// as a day.
std::string day_text(const Cell& cell) {
  const std::string& text = cell.text;
  const std::size_t dot = text.find('.'), second = dot == text.npos ? dot : text.find('.', dot + 1);
  if (second != text.npos && text.size() - second == 5) {
    const auto two = [](const std::string& part) { return part.size() == 1 ? "0" + part : part; };
    return text.substr(second + 1) + "-" + two(text.substr(dot + 1, second - dot - 1)) + "-" +
           two(text.substr(0, dot));
  }
  constexpr int from_1958 = 21'186, to_2200 = 109'939;
  const auto number =
      cell.holds == CellHolds::number ? read_whole(text, from_1958, to_2200) : std::nullopt;
  return number ? day_of_sheet(*number) : text;
}

std::string state_text(const std::string& text, const HeadingWords& words) {
  const auto word = words.find(plain_heading(text));
  return word == words.end() ? text : word->second;
}

}  // namespace

std::vector<ListColumn> order_columns() {
  std::vector<ListColumn> list;
  list.reserve(columns_known.size());
  for (const Column& c : columns_known) list.push_back({c.name, c.words});
  return list;
}

std::vector<ListColumn> order_states() {
  std::vector<ListColumn> list;
  list.reserve(states_known.size());
  for (const auto& [name, words] : states_known) list.push_back({name, words});
  return list;
}

bool OrderTable::is_head(const TableRow& row, const OrderWords& words) {
  const std::set<std::string> found = columns_named(row, order_columns(), words.headings);
  return found.size() > 1 && found.contains("order");
}

Checked<OrderTable> OrderTable::read_head(const std::string& file, const TableRow& head,
                                          const OrderWords& words) {
  if (!head.problems.empty()) return head.problems;
  OrderTable table;
  table.file_ = file;
  table.words_ = words;
  const Document document{file, head.text, {}};
  ProblemList problems(document);
  Messages unread;
  for (const Cell& cell : head.cells) {
    const std::string name = column_named(cell.text, order_columns(), words.headings);
    if (!name.empty() &&
        std::find(table.columns_.begin(), table.columns_.end(), name) != table.columns_.end())
      problems.add(text_node(cell.text, cell.at), {"part.column-twice", {{"column", cell.text}}},
                   "part.wants-each-once");
    if (name.empty() && !cell.text.empty()) unread.push_back(verbatim(cell.text));
    table.columns_.push_back(name);
  }
  require_columns(table.columns_, {"order", "part", "quantity", "due"}, problems);
  if (!problems.clean()) return in_file(problems.problems(), head);
  if (!unread.empty())
    table.notes_.push_back({"part.columns-not-read", {{"columns", std::move(unread)}}});
  return table;
}

Problems OrderTable::add(const TableRow& row, Week& week, OrderNumbers& taken) const {
  if (!row.problems.empty()) return row.problems;
  const Document document{file_, row.text, {}};
  ProblemList problems(document);
  Node map;
  map.kind = Node::Kind::map;
  map.at = {1, 1};
  Position at{1, 1};
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i) {
    const Column* c = column(columns_[i]);
    const Cell& cell = row.cells[i];
    if (c == nullptr || c->holds == Holds::remark || cell.text.empty()) continue;
    std::string text = cell.text;
    if (c->holds == Holds::day) text = day_text(cell);
    if (c->holds == Holds::state) text = state_text(text, words_.states);
    if (c->holds == Holds::state && text == all_done) return {};
    if (cell.holds == CellHolds::day && c->holds != Holds::day)
      problems.add(text_node(text, cell.at), Message{"table.day", {{"text", text}}},
                   "expected.no-day");
    if (columns_[i] == "part") at = cell.at;
    map.members.push_back(
        {columns_[i], cell.at, c->holds == Holds::list ? list_of(cell) : text_node(text, cell.at)});
  }
  if (!problems.clean()) return in_file(problems.problems(), row);
  WeekOrder order = OrderReader(week, taken, problems).order(map);
  if (!problems.clean()) return in_file(problems.problems(), row);
  Problem place;
  place.file = file_;
  place.at = at;
  order.row = in_file({place}, row).front();
  taken.insert(order.number);
  week.orders.push_back(std::move(order));
  return {};
}

std::vector<std::string> OrderTable::columns() const {
  std::vector<std::string> names;
  for (const std::string& name : columns_)
    if (!name.empty() && name != PartTable::problem_column) names.push_back(name);
  return names;
}

std::vector<std::string> OrderTable::texts(const TableRow& row) const {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (!columns_[i].empty() && columns_[i] != PartTable::problem_column)
      texts.push_back(i < row.cells.size() ? row.cells[i].text : "");
  return texts;
}

}  // namespace turnwright
