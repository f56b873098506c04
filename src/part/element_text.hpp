// SPDX-License-Identifier: MIT
#pragma once
// The strings of a part file ("30 k6 x42, Ra 0.8, relief F") as the maps they mean.
#include <vector>

#include "pieces.hpp"

namespace turnwright {

/// A list of element strings and maps becomes a list of element maps; an item that begins with an
/// attribute belongs to the element before it. Faults are noted with their column.
std::vector<Node> element_maps(const Node& list, ProblemList& problems);

/// The first words of an element, from its shape to its length, as a map.
Node shape_map(const Node& whole, std::vector<Piece> words, ProblemList& problems);

/// Work of other machines that people write among the elements.
bool is_not_turned(const std::string& word);
void add_not_turned(ProblemList& problems, const Node& whole, const Piece& word);

}  // namespace turnwright
