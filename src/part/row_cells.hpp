// SPDX-License-Identifier: MIT
#pragma once
// Cells of a list as the nodes that a part file would hold.
#include "turnwright/document/reader.hpp"

namespace turnwright {

/// "round 36, drawn, bar", "dia 36 bar", "Rund 36 gezogen, Stange": the map of a stock, or the cell
/// as it is where its words are not those of stock or contradict each other.
Node stock_node(const Node& cell);

/// "keyway, 6 min | cross hole, 2 min": a list of what stands between the separators; "{what:
/// hardened, price: 3.20, per: kg}" is a map as in a part file.
Node list_node(const Node& cell, std::string_view separators);
/// "10 50 250", "10; 50; 250", "10, 50", "50 pcs", and where points part thousands "1.000".
Node quantities_node(const Node& cell, bool thousand_points);

/// How often a mark stands between two digits.
std::size_t decimals(std::string_view text, char mark);
/// How many of these may part thousands: of "x1.000 25.5" one.
std::size_t thousands(std::string_view text, char mark);
/// With a point for each comma between two digits.
std::string with_points(std::string text);
/// "BC", of the column of this index.
std::string column_letters(std::size_t index);

}  // namespace turnwright
