// SPDX-License-Identifier: MIT
// A row becomes the map that a part file would hold, so that both are read by one reader.
#include <algorithm>
#include <array>
#include <iterator>
#include <set>

#include "family.hpp"
#include "pieces.hpp"
#include "row_cells.hpp"
#include "row_columns.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {
namespace {

// "bore" and "bore from right" are one.
bool is_same_column(const std::string& a, const std::string& b) {
  const Column *x = column(a), *y = column(b);
  if (a == b || x == nullptr || y == nullptr) return a == b;
  return x->holds < Holds::remark && std::string_view(x->map) == y->map &&
         std::string_view(x->key) == y->key;
}

// "Ra 3.2" under a heading of roughness: the mark is in the heading already.
Node without_mark(Node node, std::string_view mark) {
  if (!node.text.starts_with(mark)) return node;
  const std::size_t from = node.text.find_first_not_of(' ', mark.size());
  return from == std::string::npos ? node : piece_node(node, {node.text.substr(from), from});
}

Node node_of(const Cell& cell, const Column& column, bool thousand_points) {
  const bool is_roughness = std::string_view(column.name) == "Ra";
  const Node node = is_roughness ? without_mark(cell_node(cell), "Ra") : cell_node(cell);
  switch (column.holds) {
    case Holds::numbers:
      return quantities_node(node, thousand_points && cell.holds == CellHolds::text);
    case Holds::list:
      return list_node(node, "|");
    case Holds::stock:
      return stock_node(node);
    case Holds::text:
    case Holds::remark:
    case Holds::family:
      break;
  }
  return node;
}

Node inch_node() {
  Node node = map_node({1, 1});
  node.kind = Node::Kind::text;
  node.text = "inch";
  return node;
}

Node& map_for(Node& root, std::string_view name, Position at) {
  if (name.empty()) return root;
  for (Member& m : root.members)
    if (m.key == name) return m.value;
  root.members.push_back({std::string(name), at, map_node(at)});
  return root.members.back().value;
}

// What the row says stands instead of what the family says.
void overlay(Node& map, std::string_view key, Position at, Node value) {
  for (Member& m : map.members)
    if (m.key == key) {
      m.value = std::move(value);
      return;
    }
  map.members.push_back({std::string(key), at, std::move(value)});
}

// The column's name; "" for one that is not read. What stands near a name is a slip, not a word of
// the customer's.
std::string read_heading(const Cell& cell, bool families, const HeadingWords& words,
                         ProblemList& problems) {
  if (column(cell.text) == nullptr && families && is_size_name(cell.text)) return cell.text;
  if (std::string found = column_named(cell.text, list_columns(), words); !found.empty())
    return found;
  const std::vector<std::string> names = names_of_columns();
  const std::string near = nearest(cell.text, names);
  if (!cell.text.empty() && (families || !near.empty()))
    problems.add(cell_node(cell), Message{"part.column-unknown", {{"column", cell.text}}},
                 one_of(names), near);
  return "";
}

// What a heading says of units in brackets.
enum class HeadUnit { none, inch, metric };
HeadUnit unit_of_heading(const std::string& heading) {
  const std::size_t open = heading.find_first_of("([");
  if (open == std::string::npos) return HeadUnit::none;
  const std::string unit =
      plain_heading(heading.substr(open + 1, heading.find_first_of(")]", open) - open - 1));
  if (unit == "in" || unit == "inch" || unit == "inches" || unit == "zoll") return HeadUnit::inch;
  return unit == "mm" ? HeadUnit::metric : HeadUnit::none;
}

// Inches in all columns that say a unit, or in none of them.
bool in_inches(const TableRow& head, const std::vector<std::string>& columns,
               ProblemList& problems) {
  bool inch = false, metric = false;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (columns[i].empty() || columns[i] == "Ra" || !holds_sizes(columns[i])) continue;
    const HeadUnit unit = unit_of_heading(head.cells[i].text);
    inch = inch || unit == HeadUnit::inch;
    metric = metric || unit == HeadUnit::metric;
    if (inch && metric) {
      problems.add(cell_node(head.cells[i]), "part.columns-in-two-units", "part.wants-one-unit");
      return false;
    }
  }
  return inch;
}

void check_once(const Cell& cell, const std::string& name, const std::vector<std::string>& before,
                ProblemList& problems) {
  if (!name.empty() && std::any_of(before.begin(), before.end(),
                                   [&](const std::string& c) { return is_same_column(c, name); }))
    problems.add(cell_node(cell), Message{"part.column-twice", {{"column", cell.text}}},
                 "part.wants-each-once");
}

// A row of a family needs no more than its number.
std::vector<std::string> needed_columns(bool families) {
  if (families) return {"number"};
  return {"number", "material", "outside"};
}

void check_no_sizes(const RowSizes& sizes, ProblemList& problems) {
  for (const auto& [name, cell] : sizes)
    problems.add(cell_node(*cell), Message{"part.size-without-family", {{"size", name}}},
                 "part.wants-family-in-row");
}

void check_no_more_cells(const TableRow& row, std::size_t columns, ProblemList& problems) {
  for (std::size_t i = columns; i < row.cells.size(); ++i)
    if (!row.cells[i].text.empty()) {
      problems.add(cell_node(row.cells[i]), "part.cell-beyond",
                   Message{"part.wants-cells", {{"n", columns}}});
      return;
    }
}

// What is wrong in the family's text with the sizes of this row stands at the row's family.
void move_to_family(Problems& problems, const std::string& family, Position at) {
  for (Problem& p : problems)
    if (p.at.line >= place_of_family.line) {
      p.what = Message{"part.of-family", {{"problem", p.what}, {"family", family}}};
      p.at = at;
      p.width = 1;
    }
}

// A list is what somebody asks for together: the minimum order is that of all its rows.
Part as_line(Part part) {
  part.selling.whole_order = false;
  return part;
}

}  // namespace

void PartTable::add_family(const std::string& name, Checked<Document> family) {
  families_.insert_or_assign(name, std::move(family));
}

bool PartTable::is_head(const TableRow& row, const HeadingWords& words) {
  const std::set<std::string> found = columns_named(row, list_columns(), words);
  return found.size() > 1 && (found.contains("number") || found.contains("family"));
}

Checked<PartTable> PartTable::read_head(const std::string& file, const TableRow& head,
                                        const HeadingWords& words) {
  if (!head.problems.empty()) return head.problems;
  PartTable table;
  table.file_ = file;
  Document document{file, head.text, {}};
  ProblemList problems(document);
  const bool families = std::any_of(head.cells.begin(), head.cells.end(),
                                    [](const Cell& c) { return c.text == "family"; });
  Messages unread;
  for (std::size_t i = 0; i < head.cells.size(); ++i) {
    const Cell& cell = head.cells[i];
    const std::string name = read_heading(cell, families, words, problems);
    check_once(cell, name, table.columns_, problems);
    table.columns_.push_back(name);
    if (name.empty()) unread.push_back(verbatim(cell.text.empty() ? column_letters(i) : cell.text));
  }
  require_columns(table.columns_, needed_columns(families), problems);
  table.inch_ = in_inches(head, table.columns_, problems);
  if (table.inch_) table.notes_.emplace_back("part.inches-by-heading");
  if (!problems.clean()) return in_file(problems.problems(), head);
  if (!families &&
      std::find(table.columns_.begin(), table.columns_.end(), "quantities") == table.columns_.end())
    table.notes_.emplace_back("part.no-quantity-column");
  if (!unread.empty())
    table.notes_.push_back({"part.columns-not-read", {{"columns", std::move(unread)}}});
  return table;
}

std::string PartTable::identity(const TableRow& row) const {
  std::string text;
  for (const auto& [name, cell] : filled_cells(columns_, row)) {
    const Column* c = column(name);
    if (c != nullptr && (c->holds == Holds::remark || c->holds == Holds::numbers)) continue;
    text += name + "\n" + cell->text + "\n";
  }
  return text;
}

std::string PartTable::cell(const TableRow& row, std::string_view name) const {
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i)
    if (columns_[i] == name) return row.cells[i].text;
  return "";
}

std::vector<std::string> PartTable::columns() const {
  std::vector<std::string> names;
  std::copy_if(columns_.begin(), columns_.end(), std::back_inserter(names),
               [](const std::string& name) { return !name.empty() && name != problem_column; });
  return names;
}

std::vector<std::string> PartTable::texts(const TableRow& row) const {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (!columns_[i].empty() && columns_[i] != problem_column)
      texts.push_back(i < row.cells.size() ? as_written(columns_[i], row.cells[i]) : "");
  return texts;
}

// The family that the row names, with its sizes, as the map to start from. Problems of the family's
// file itself are returned, those of the row added.
Problems PartTable::start_from_family(const NamedCells& cells, Node& root,
                                      ProblemList& problems) const {
  RowSizes sizes;
  const Cell* named = nullptr;
  for (const auto& [name, cell] : cells) {
    if (name == "family") named = &cell;
    if (column(name) == nullptr) sizes[name] = &cell;
  }
  if (named == nullptr) {
    check_no_sizes(sizes, problems);
    return {};
  }
  const Node at = cell_node(*named);
  const auto family = families_.find(named->text);
  if (family == families_.end()) {
    problems.add(at, Message{"part.family-missing", {{"family", named->text}}},
                 Message{"part.wants-family", {{"example", "<d1>"}}});
    return {};
  }
  if (!family->second) return family->second.problems();
  root = filled_family(family->second->root, sizes, at, names_of_columns(), problems);
  if (root.kind != Node::Kind::map)
    problems.add(at, Message{"part.family-not-a-part", {{"family", named->text}}},
                 "part.wants-keys");
  return {};
}

// A blank cell is a merged or a forgotten one as likely as one piece.
void PartTable::check_quantity(const TableRow& row, const Node& root, ProblemList& problems) const {
  const auto at = std::find(columns_.begin(), columns_.end(), "quantities");
  const bool said = std::any_of(root.members.begin(), root.members.end(),
                                [](const Member& m) { return m.key == "quantities"; });
  if (at == columns_.end() || said) return;
  const auto i = static_cast<std::size_t>(at - columns_.begin());
  const Position sheet{static_cast<int>(i) + 1, 1};
  const Position blank = row.in_sheet ? sheet : Position{1, 1};
  problems.add(i < row.cells.size() ? row.cells[i].at : blank, 1, "part.no-quantity-in-row",
               "part.wants-quantity-in-row");
}

Problems PartTable::in_row(Problems problems, const TableRow& row) const {
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i)
    if (columns_[i] == "family") move_to_family(problems, row.cells[i].text, row.cells[i].at);
  return in_file(std::move(problems), row);
}

Checked<Part> PartTable::read(const TableRow& row) const {
  if (!row.problems.empty()) return row.problems;
  Document document{file_, row.text, map_node({1, 1})};
  ProblemList problems(document);
  const NamedCells cells = read_cells(row, problems);
  if (Problems wrong = start_from_family(cells, document.root, problems); !wrong.empty())
    return wrong;
  const bool has_start = cell(row, "family").empty() || !document.root.members.empty();
  if (inch_) overlay(document.root, "units", {1, 1}, inch_node());
  for (const auto& [name, cell] : cells) {
    const Column* c = column(name);
    if (c == nullptr || c->holds == Holds::family) continue;
    overlay(map_for(document.root, c->map, cell.at), c->key, cell.at,
            node_of(cell, *c, decimal_comma_));
  }
  if (has_start) check_quantity(row, document.root, problems);
  check_no_more_cells(row, columns_.size(), problems);
  auto part =
      problems.clean() ? read_part(document, currencies_) : Checked<Part>(problems.problems());
  if (part) return as_line(*part);
  return in_row(part.problems(), row);
}

}  // namespace turnwright
