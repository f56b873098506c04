// SPDX-License-Identifier: MIT
#pragma once
// The texts of a part file taken apart, each piece with its place in the file.
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/reader.hpp"

namespace turnwright {

/// A piece of a text with its place in it.
struct Piece {
  std::string text;
  std::size_t offset = 0;  // bytes from the start of the node's text
};

bool is_digit(char c);

/// The words of a text that begins `offset` bytes after the start of its node's.
std::vector<Piece> split_words(std::string_view text, std::size_t offset = 0);
std::vector<Piece> split_at(std::string_view text, char separator);
/// The words from one on, up to another, with a blank between them.
Piece joined(const std::vector<Piece>& words, std::size_t from, std::size_t to);

/// A text node for a piece of another one.
Node piece_node(const Node& whole, const Piece& piece);
Node map_node(Position at);
Member member(std::string key, Node value);

/// A problem with a piece of a node's text.
void add_at(ProblemList& problems, const Node& whole, const Piece& piece, Message what,
            Message expected, std::string suggestion = "");

}  // namespace turnwright
