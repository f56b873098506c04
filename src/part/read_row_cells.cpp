// SPDX-License-Identifier: MIT
#include "row_cells.hpp"

#include <algorithm>
#include <array>

#include "pieces.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/quantity/thousands.hpp"

namespace turnwright {
namespace {

// "1,000" may be a thousand, or one and none: such a comma separates nothing.
bool commas_separate(std::string_view text) {
  for (std::size_t at = text.find(','); at != std::string_view::npos; at = text.find(',', at + 1)) {
    std::size_t digits = 0;
    while (at + 1 + digits < text.size() && is_digit(text[at + 1 + digits])) ++digits;
    if (digits == 3) return false;
  }
  return true;
}

// "10 pcs", "50 Stk": what is counted is pieces anyway.
Node without_piece_words(Node list) {
  static constexpr std::array words{"pcs", "pc",   "pieces", "off", "ea",
                                    "Stk", "Stk.", "Stück",  "St."};
  std::erase_if(list.items, [](const Node& item) {
    return std::find(words.begin(), words.end(), item.text) != words.end();
  });
  return list;
}

// Each place being that of the cell.
void put_at(Node& node, Position at) {
  node.at = at;
  for (Node& item : node.items) put_at(item, at);
  for (Member& member : node.members) {
    member.at = at;
    put_at(member.value, at);
  }
}

// "{what: hardened, price: 3.20}" as a map; a text where it is none.
Node item_node(const Node& cell, const Piece& piece) {
  Node text = piece_node(cell, piece);
  if (!piece.text.starts_with('{')) return text;
  auto document = read_document("", piece.text);
  if (!document || document->root.kind != Node::Kind::map) return text;
  Node map = std::move(document->root);
  put_at(map, text.at);
  return map;
}

}  // namespace

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
      list.items.push_back(item_node(cell, {cell.text.substr(first, last + 1 - first), first}));
    }
    from = to + 1;
  }
  return list;
}

std::size_t decimals(std::string_view text, char mark) {
  std::size_t n = 0;
  for (std::size_t i = 1; i + 1 < text.size(); ++i)
    n += text[i] == mark && is_digit(text[i - 1]) && is_digit(text[i + 1]) ? 1 : 0;
  return n;
}

std::size_t thousands(std::string_view text, char mark) {
  const std::string run_of = std::string("0123456789") + mark;
  std::size_t n = 0;
  for (std::size_t at = text.find_first_of(run_of); at != text.npos;) {
    const std::size_t end = std::min(text.find_first_not_of(run_of, at), text.size());
    const std::string_view run = text.substr(at, end - at);
    if (parts_thousands(run, mark)) n += decimals(run, mark);
    at = text.find_first_of(run_of, end);
  }
  return n;
}

std::string with_points(std::string text) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i)
    if (text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1])) text[i] = '.';
  return text;
}

std::string column_letters(std::size_t index) {
  std::string cell = cell_of(static_cast<int>(index) + 1, 1);
  cell.pop_back();
  return cell;
}

Node quantities_node(const Node& cell, bool thousand_points) {
  Node list = without_piece_words(list_node(cell, commas_separate(cell.text) ? " ;|/," : " ;|/"));
  if (!thousand_points) return list;
  for (Node& item : list.items)
    if (parts_thousands(item.text, '.')) std::erase(item.text, '.');
  return list;
}

}  // namespace turnwright
