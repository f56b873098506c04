// SPDX-License-Identifier: MIT
// A row becomes the map that a part file would hold, so that both are read by one reader.
#include <algorithm>
#include <array>
#include <cctype>

#include "element_text.hpp"
#include "turnwright/document/reader.hpp"
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
  return x->holds < Holds::remark && std::string_view(x->map) == y->map &&
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

// A size of a family may have any such name that no column has.
bool is_size(std::string_view name) {
  const bool plain = std::all_of(name.begin(), name.end(), [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
  });
  return plain && !name.empty() && std::isalpha(static_cast<unsigned char>(name[0])) != 0;
}

// Where a text of a family stands: in no line of the row, so that it is known again.
constexpr Position of_family{1 << 20, 1};

// The family's tree with the row's sizes in it. Every place is that of the row's cell: what is
// wrong is wrong with this row.
class Filling {
 public:
  Filling(const std::map<std::string, const Cell*>& sizes, const Node& family, ProblemList& notes)
      : sizes_(sizes), family_(family), notes_(notes) {}

  Node filled(const Node& node) {
    Node copy = node;
    fill(copy);
    return copy;
  }
  /// The sizes that the row has and the family has not.
  void finish(const std::vector<std::string>& columns) {
    for (const auto& [name, cell] : sizes_)
      if (std::find(used_.begin(), used_.end(), name) == used_.end())
        notes_.add(text_node(*cell), "the family has no size '" + name + "'", list(used_),
                   nearest(name, columns));
  }

 private:
  static std::string list(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
    return text;
  }
  void fill(Node& node) {
    node.at = of_family;
    if (node.kind == Node::Kind::text) node.text = put_in(node.text);
    for (Node& item : node.items) fill(item);
    for (Member& member : node.members) {
      member.at = of_family;
      fill(member.value);
    }
  }
  std::string put_in(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
      const std::size_t close = text[i] == '<' ? text.find('>', i) : std::string::npos;
      const std::string name = close == std::string::npos ? "" : text.substr(i + 1, close - i - 1);
      if (!is_size(name)) {
        out += text[i];
        continue;
      }
      if (std::find(used_.begin(), used_.end(), name) == used_.end()) used_.push_back(name);
      const auto found = sizes_.find(name);
      if (found != sizes_.end())
        out += found->second->text;
      else
        missing(name);
      i = close;
    }
    return out;
  }
  void missing(const std::string& name) {
    if (std::find(missing_.begin(), missing_.end(), name) != missing_.end()) return;
    missing_.push_back(name);
    std::vector<std::string> names;
    for (const auto& [known, cell] : sizes_) names.push_back(known);
    notes_.add(family_, "the size '" + name + "' of the family has no value in this row",
               "a column '" + name + "' with its value", nearest(name, names));
  }

  const std::map<std::string, const Cell*>& sizes_;
  const Node& family_;
  ProblemList& notes_;
  std::vector<std::string> used_, missing_;
};

// What the row says stands instead of what the family says.
void put(Node& map, std::string_view key, Position at, Node value) {
  for (Member& m : map.members)
    if (m.key == key) {
      m.value = std::move(value);
      return;
    }
  map.members.push_back({std::string(key), at, std::move(value)});
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
  ProblemList notes(document);
  std::vector<std::string> names;
  std::string expected;
  for (const Column& c : columns_known) {
    names.emplace_back(c.name);
    expected += (expected.empty() ? "" : ", ") + names.back();
  }
  const bool families = std::any_of(head.cells.begin(), head.cells.end(),
                                    [](const Cell& c) { return c.text == "family"; });
  for (const Cell& cell : head.cells) {
    const Node node = text_node(cell);
    if (cell.text.empty())
      notes.add(node, "a column without a name (cells merged?)", "one of " + expected);
    else if (column(cell.text) == nullptr && !(families && is_size(cell.text)))
      notes.add(node, "unknown column '" + cell.text + "'", expected, nearest(cell.text, names));
    else if (std::any_of(table.columns_.begin(), table.columns_.end(),
                         [&](const std::string& c) { return same_place(c, cell.text); }))
      notes.add(node, "the column '" + cell.text + "' is there twice", "each once");
    table.columns_.push_back(cell.text);
  }
  for (const char* needed : {"number", "material", "outside"}) {
    if (families && needed != std::string_view("number")) continue;
    if (std::find(table.columns_.begin(), table.columns_.end(), needed) == table.columns_.end())
      notes.add({1, 1}, 1, std::string("the table lacks the column '") + needed + "'",
                families ? "number at least" : "number, material and outside at least");
  }
  if (!notes.clean()) return in_file(notes.problems(), head);
  return table;
}

std::string PartTable::cell(const TableRow& row, std::string_view name) const {
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i)
    if (columns_[i] == name) return row.cells[i].text;
  return "";
}

// The family that the row names, with its sizes, as the map to start from. Problems of the family's
// file itself are returned, those of the row noted.
Problems PartTable::start_from_family(const TableRow& row, Node& root, ProblemList& notes) const {
  std::map<std::string, const Cell*> sizes;
  const Cell* named = nullptr;
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i) {
    const Cell& cell = row.cells[i];
    if (cell.text.empty()) continue;
    if (columns_[i] == "family") named = &cell;
    if (column(columns_[i]) == nullptr) sizes[columns_[i]] = &cell;
  }
  if (named == nullptr) {
    for (const auto& [name, cell] : sizes)
      notes.add(text_node(*cell), "the size '" + name + "' of a row without a family",
                "a family in this row");
    return {};
  }
  const auto family = families_.find(named->text);
  if (family == families_.end()) {
    notes.add(text_node(*named), "there is no family file '" + named->text + "'",
              "a part file with sizes as <d1>, from the folder of the table");
    return {};
  }
  if (!family->second) return family->second.problems();
  const Node at = text_node(*named);
  Filling filling(sizes, at, notes);
  root = filling.filled(family->second->root);
  std::vector<std::string> columns;
  columns.reserve(columns_known.size());
  for (const Column& c : columns_known) columns.emplace_back(c.name);
  filling.finish(columns);
  if (root.kind != Node::Kind::map)
    notes.add(at, "the family file '" + named->text + "' is no part file", "keys and values");
  return {};
}

Checked<Part> PartTable::read(const TableRow& row) const {
  if (!row.problems.empty()) return row.problems;
  Document document{file_, row.text, {}};
  document.root.kind = Node::Kind::map;
  document.root.at = {1, 1};
  ProblemList notes(document);
  Position family_at{1, 1};
  for (std::size_t i = 0; i < std::min(columns_.size(), row.cells.size()); ++i)
    if (columns_[i] == "family") family_at = row.cells[i].at;
  if (const Problems wrong = start_from_family(row, document.root, notes); !wrong.empty())
    return wrong;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const Cell& cell = row.cells[i];
    if (cell.text.empty()) continue;
    if (i >= columns_.size()) {
      notes.add(text_node(cell), "a cell beyond the last column",
                std::to_string(columns_.size()) + " cells");
      break;
    }
    const Column* found = column(columns_[i]);
    if (found == nullptr || found->holds >= Holds::remark) continue;
    const Column& c = *found;
    Node node = text_node(cell);
    if (c.holds == Holds::numbers) node = list_node(node, " ;|/");
    if (c.holds == Holds::list) node = list_node(node, "|");
    if (c.holds == Holds::stock) node = stock_node(node);
    put(map_for(document.root, c.map, cell.at), c.key, cell.at, std::move(node));
  }
  auto part = notes.clean() ? read_part(document) : Checked<Part>(notes.problems());
  if (part) return part;
  Problems problems = part.problems();
  for (Problem& p : problems)
    if (p.at.line >= of_family.line) {
      p.what += " (of the family '" + cell(row, "family") + "' with these sizes)";
      p.at = family_at;
      p.width = 1;
    }
  return in_file(std::move(problems), row);
}

}  // namespace turnwright
