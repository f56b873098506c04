// SPDX-License-Identifier: MIT
#pragma once
// The strings of a part file ("30 k6 x42, Ra 0.8, relief F") as the maps they mean.
#include <vector>

#include "turnwright/document/reader.hpp"

namespace turnwright {

/// A list of element strings and maps becomes a list of element maps; an item that begins with an
/// attribute belongs to the element before it. Faults are noted with their column.
std::vector<Node> element_maps(const Node& list, ProblemList& notes);

/// A piece of a text with its place in the file.
struct Piece {
  std::string text;
  std::size_t offset = 0;  // bytes from the start of the node's text
};
/// The words of a text, with their offsets.
std::vector<Piece> words_of(std::string_view text, std::size_t offset);

/// A text node for a piece of another one.
Node piece_node(const Node& whole, std::size_t offset, std::string text);

}  // namespace turnwright
