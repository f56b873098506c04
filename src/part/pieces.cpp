// SPDX-License-Identifier: MIT
#include "pieces.hpp"

#include <utility>

namespace turnwright {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::vector<Piece> split_words(std::string_view text, std::size_t offset) {
  std::vector<Piece> words;
  std::size_t i = 0;
  while (i < text.size()) {
    while (i < text.size() && text[i] == ' ') ++i;
    const std::size_t start = i;
    while (i < text.size() && text[i] != ' ') ++i;
    if (i > start) words.push_back({std::string(text.substr(start, i - start)), offset + start});
  }
  return words;
}

std::vector<Piece> split_at(std::string_view text, char separator) {
  std::vector<Piece> pieces;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i)
    if (i == text.size() || text[i] == separator) {
      pieces.push_back({std::string(text.substr(start, i - start)), start});
      start = i + 1;
    }
  return pieces;
}

Piece joined(const std::vector<Piece>& words, std::size_t from, std::size_t to) {
  if (from >= to || from >= words.size()) return {};
  Piece piece{"", words[from].offset};
  for (std::size_t i = from; i < to && i < words.size(); ++i)
    piece.text += (piece.text.empty() ? "" : " ") + words[i].text;
  return piece;
}

Node piece_node(const Node& whole, const Piece& piece) {
  Node node;
  node.kind = Node::Kind::text;
  node.at = whole.at;
  const std::string_view before = std::string_view(whole.text).substr(0, piece.offset);
  node.at.column += static_cast<int>(characters(before)) + (whole.quoted ? 1 : 0);
  node.text = piece.text;
  return node;
}

Node map_node(Position at) {
  Node node;
  node.kind = Node::Kind::map;
  node.at = at;
  return node;
}

Member member(std::string key, Node value) {
  Member m;
  m.key = std::move(key);
  m.at = value.at;
  m.value = std::move(value);
  return m;
}

void add_at(ProblemList& problems, const Node& whole, const Piece& piece, Message what,
            Message expected, std::string suggestion) {
  problems.add_inside(whole, piece.offset, characters(piece.text), std::move(what),
                      std::move(expected), std::move(suggestion));
}

}  // namespace turnwright
