// SPDX-License-Identifier: MIT
// A row becomes the map that a part file would hold, so that both are read by one reader.
#include <algorithm>
#include <array>

#include "element_text.hpp"
#include "turnwright/document/reader.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {
namespace {

enum class Holds { text, list, numbers, stock, remark };

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
    Column{"notes", "", "", Holds::remark},
    Column{"problem", "", "", Holds::remark},
};

const Column* column(std::string_view name) {
  for (const Column& c : columns_known)
    if (name == c.name) return &c;
  return nullptr;
}

// "bore" and "bore from right" are one.
bool same_place(const std::string& a, const std::string& b) {
  const Column *x = column(a), *y = column(b);
  if (a == b || x == nullptr || y == nullptr) return a == b;
  return x->holds != Holds::remark && std::string_view(x->map) == y->map &&
         std::string_view(x->key) == y->key;
}

Node text_node(const Cell& cell) {
  Node node;
  node.kind = Node::Kind::text;
  node.quoted = cell.quoted;
  node.at = cell.at;
  node.text = cell.text;
  return node;
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
      list.items.push_back(piece_node(cell, first, cell.text.substr(first, last + 1 - first)));
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
  Node map;
  map.kind = Node::Kind::map;
  map.at = cell.at;
  const std::size_t size_at = std::min(cell.text.find_first_not_of(' ', space), comma);
  map.members.push_back({cell.text.substr(0, space), cell.at,
                         piece_node(cell, size_at, cell.text.substr(size_at, comma - size_at))});
  const std::size_t word = cell.text.find_first_not_of(", ", comma);
  if (word != std::string::npos)
    map.members.push_back({"condition", cell.at, piece_node(cell, word, cell.text.substr(word))});
  return map;
}

Node& map_for(Node& root, std::string_view name, Position at) {
  if (name.empty()) return root;
  for (Member& m : root.members)
    if (m.key == name) return m.value;
  Node map;
  map.kind = Node::Kind::map;
  map.at = at;
  root.members.push_back({std::string(name), at, std::move(map)});
  return root.members.back().value;
}

}  // namespace

Checked<PartTable> PartTable::read_head(const std::string& file, const TableRow& head) {
  if (!head.problems.empty()) return head.problems;
  PartTable table;
  table.file_ = file;
  Document document{file, head.text, {}};
  Notes notes(document);
  std::vector<std::string> names;
  std::string expected;
  for (const Column& c : columns_known) {
    names.emplace_back(c.name);
    expected += (expected.empty() ? "" : ", ") + names.back();
  }
  for (const Cell& cell : head.cells) {
    const Node node = text_node(cell);
    if (cell.text.empty())
      notes.add(node, "a column without a name (cells merged?)", "one of " + expected);
    else if (column(cell.text) == nullptr)
      notes.add(node, "unknown column '" + cell.text + "'", expected, nearest(cell.text, names));
    else if (std::any_of(table.columns_.begin(), table.columns_.end(),
                         [&](const std::string& c) { return same_place(c, cell.text); }))
      notes.add(node, "the column '" + cell.text + "' is there twice", "each once");
    table.columns_.push_back(cell.text);
  }
  for (const char* needed : {"number", "material", "outside"})
    if (std::find(table.columns_.begin(), table.columns_.end(), needed) == table.columns_.end())
      notes.add({1, 1}, 1, std::string("the table lacks the column '") + needed + "'",
                "number, material and outside at least");
  if (!notes.clean()) return in_file(notes.problems(), head);
  return table;
}

std::string PartTable::cell(const TableRow& row, std::string_view name) const {
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i)
    if (columns_[i] == name) return row.cells[i].text;
  return "";
}

Checked<Part> PartTable::read(const TableRow& row) const {
  if (!row.problems.empty()) return row.problems;
  Document document{file_, row.text, {}};
  document.root.kind = Node::Kind::map;
  document.root.at = {1, 1};
  Notes notes(document);
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const Cell& cell = row.cells[i];
    if (cell.text.empty()) continue;
    if (i >= columns_.size()) {
      notes.add(text_node(cell), "a cell beyond the last column",
                std::to_string(columns_.size()) + " cells");
      break;
    }
    const Column& c = *column(columns_[i]);
    if (c.holds == Holds::remark) continue;
    Node node = text_node(cell);
    if (c.holds == Holds::numbers) node = list_node(node, " ;|/");
    if (c.holds == Holds::list) node = list_node(node, "|");
    if (c.holds == Holds::stock) node = stock_node(node);
    map_for(document.root, c.map, cell.at).members.push_back({c.key, cell.at, std::move(node)});
  }
  const auto part = notes.clean() ? read_part(document) : Checked<Part>(notes.problems());
  if (part) return part;
  return in_file(part.problems(), row);
}

}  // namespace turnwright
