// SPDX-License-Identifier: MIT
// A row becomes the map that a part file would hold, so that both are read by one reader.
#include <algorithm>
#include <array>
#include <iterator>

#include "family.hpp"
#include "pieces.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {
namespace {

enum class Holds { text, list, numbers, stock, remark, family };

struct Column {
  const char* name;
  const char* map;  // of the part file, "" for its top
  const char* key;
  Holds holds;
};
constexpr std::array columns_known{
    Column{"number", "part", "number", Holds::text},
    Column{"name", "part", "name", Holds::text},
    Column{"revision", "part", "revision", Holds::text},
    Column{"order", "part", "order", Holds::text},
    Column{"units", "", "units", Holds::text},
    Column{"material", "", "material", Holds::text},
    Column{"stock", "", "stock", Holds::stock},
    Column{"quantities", "", "quantities", Holds::numbers},
    Column{"general", "drawing", "general", Holds::text},
    Column{"Ra", "drawing", "Ra", Holds::text},
    Column{"edges", "drawing", "edges", Holds::text},
    Column{"overall", "", "overall", Holds::text},
    Column{"outside", "", "outside", Holds::text},
    Column{"bore", "", "bore from right", Holds::text},
    Column{"bore from right", "", "bore from right", Holds::text},
    Column{"bore from left", "", "bore from left", Holds::text},
    Column{"right face", "faces", "right", Holds::text},
    Column{"left face", "faces", "left", Holds::text},
    Column{"centres", "centres", "both ends", Holds::text},
    Column{"other work", "", "other work", Holds::list},
    Column{"one-offs", "", "one-offs", Holds::list},
    Column{"family", "", "", Holds::family},
    Column{"notes", "", "", Holds::remark},
    Column{PartTable::problem_column, "", "", Holds::remark},
};

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

// "bore" and "bore from right" are one.
bool is_same_column(const std::string& a, const std::string& b) {
  const Column *x = column(a), *y = column(b);
  if (a == b || x == nullptr || y == nullptr) return a == b;
  return x->holds < Holds::remark && std::string_view(x->map) == y->map &&
         std::string_view(x->key) == y->key;
}

// "10 50 250", "10; 50; 250", "keyway, 6 min | cross hole, 2 min".
Node list_node(const Node& cell, std::string_view separators) {
  Node list;
  list.kind = Node::Kind::list;
  list.at = cell.at;
  std::size_t from = 0;
  while (from < cell.text.size()) {
    const std::size_t to = std::min(cell.text.find_first_of(separators, from), cell.text.size());
    const std::size_t first = cell.text.find_first_not_of(' ', from);
    if (first < to) {
      const std::size_t last = cell.text.find_last_not_of(' ', to - 1);
      list.items.push_back(piece_node(cell, {cell.text.substr(first, last + 1 - first), first}));
    }
    from = to + 1;
  }
  return list;
}

// "round 55", "hexagon 36, drawn", "tube 70x12": form, size, condition.
Node stock_node(const Node& cell) {
  const std::size_t space = cell.text.find(' ');
  if (space == std::string::npos) return cell;
  const std::size_t comma = std::min(cell.text.find(','), cell.text.size());
  Node map = map_node(cell.at);
  const std::size_t size_at = std::min(cell.text.find_first_not_of(' ', space), comma);
  map.members.push_back({cell.text.substr(0, space), cell.at,
                         piece_node(cell, {cell.text.substr(size_at, comma - size_at), size_at})});
  const std::size_t word = cell.text.find_first_not_of(", ", comma);
  if (word != std::string::npos)
    map.members.push_back({"condition", cell.at, piece_node(cell, {cell.text.substr(word), word})});
  return map;
}

Node node_of(const Cell& cell, Holds holds) {
  Node node = cell_node(cell);
  switch (holds) {
    case Holds::numbers:
      return list_node(node, " ;|/");
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

void check_column(const Cell& cell, bool families, const std::vector<std::string>& before,
                  ProblemList& problems) {
  const Node node = cell_node(cell);
  const std::vector<std::string> names = names_of_columns();
  const std::vector<Place> named{{"column", cell.text}};
  if (cell.text.empty())
    problems.add(node, "part.column-unnamed", one_of(names));
  else if (column(cell.text) == nullptr && !(families && is_size_name(cell.text)))
    problems.add(node, Message{"part.column-unknown", named}, one_of(names),
                 nearest(cell.text, names));
  else if (std::any_of(before.begin(), before.end(),
                       [&](const std::string& c) { return is_same_column(c, cell.text); }))
    problems.add(node, Message{"part.column-twice", named}, "part.wants-each-once");
}

// A row of a family needs no more than its number.
void check_needed(const std::vector<std::string>& columns, bool families, ProblemList& problems) {
  const std::vector<std::string> needed =
      families ? std::vector<std::string>{"number"}
               : std::vector<std::string>{"number", "material", "outside"};
  Messages names;
  for (const std::string& name : needed) names.push_back(verbatim(name));
  for (const std::string& name : needed)
    if (std::find(columns.begin(), columns.end(), name) == columns.end())
      problems.add({1, 1}, 1, Message{"part.column-missing", {{"column", name}}},
                   Message{"part.wants-columns", {{"columns", names}}});
}

// The cells of a row that have a column and hold something, each with the name of its column.
std::vector<std::pair<std::string, const Cell*>> filled_cells(
    const std::vector<std::string>& columns, const TableRow& row) {
  std::vector<std::pair<std::string, const Cell*>> cells;
  for (std::size_t i = 0; i < std::min(columns.size(), row.cells.size()); ++i)
    if (!row.cells[i].text.empty()) cells.emplace_back(columns[i], &row.cells[i]);
  return cells;
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

}  // namespace

void PartTable::add_family(const std::string& name, Checked<Document> family) {
  families_.insert_or_assign(name, std::move(family));
}

Checked<PartTable> PartTable::read_head(const std::string& file, const TableRow& head) {
  if (!head.problems.empty()) return head.problems;
  PartTable table;
  table.file_ = file;
  Document document{file, head.text, {}};
  ProblemList problems(document);
  const bool families = std::any_of(head.cells.begin(), head.cells.end(),
                                    [](const Cell& c) { return c.text == "family"; });
  for (const Cell& cell : head.cells) {
    check_column(cell, families, table.columns_, problems);
    table.columns_.push_back(cell.text);
  }
  check_needed(table.columns_, families, problems);
  if (!problems.clean()) return in_file(problems.problems(), head);
  return table;
}

std::vector<std::string> PartTable::known_columns() { return names_of_columns(); }

std::string PartTable::cell(const TableRow& row, std::string_view name) const {
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i)
    if (columns_[i] == name) return row.cells[i].text;
  return "";
}

std::vector<std::string> PartTable::columns() const {
  std::vector<std::string> names;
  std::copy_if(columns_.begin(), columns_.end(), std::back_inserter(names),
               [](const std::string& name) { return name != problem_column; });
  return names;
}

std::vector<std::string> PartTable::texts(const TableRow& row) const {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (columns_[i] != problem_column)
      texts.push_back(i < row.cells.size() ? row.cells[i].text : "");
  return texts;
}

// The family that the row names, with its sizes, as the map to start from. Problems of the family's
// file itself are returned, those of the row added.
Problems PartTable::start_from_family(const TableRow& row, Node& root,
                                      ProblemList& problems) const {
  RowSizes sizes;
  const Cell* named = nullptr;
  for (const auto& [name, cell] : filled_cells(columns_, row)) {
    if (name == "family") named = cell;
    if (column(name) == nullptr) sizes[name] = cell;
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

Checked<Part> PartTable::read(const TableRow& row) const {
  if (!row.problems.empty()) return row.problems;
  Document document{file_, row.text, map_node({1, 1})};
  ProblemList problems(document);
  if (Problems wrong = start_from_family(row, document.root, problems); !wrong.empty())
    return wrong;
  Position family_at{1, 1};
  for (const auto& [name, cell] : filled_cells(columns_, row)) {
    const Column* c = column(name);
    if (name == "family") family_at = cell->at;
    if (c == nullptr || c->holds >= Holds::remark) continue;
    overlay(map_for(document.root, c->map, cell->at), c->key, cell->at, node_of(*cell, c->holds));
  }
  check_no_more_cells(row, columns_.size(), problems);
  const auto part =
      problems.clean() ? read_part(document, currencies_) : Checked<Part>(problems.problems());
  if (part) return part;
  Problems found = part.problems();
  move_to_family(found, cell(row, "family"), family_at);
  return in_file(std::move(found), row);
}

}  // namespace turnwright
