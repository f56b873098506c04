// SPDX-License-Identifier: MIT
#pragma once
// One element in the making: each function reads the keys of its subject from the map.
#include "read_element.hpp"

namespace turnwright {

struct ElementReading {
  MapReader& map;
  const BareUnits& bare;
  ProblemList& problems;
  Element& element;
  std::vector<EdgeBreak>& below_step;

  Length length(const Node& node) const {
    return read_length(node, bare, problems).value_or(Length(0.0));
  }
};

/// Diameter, thread, cone, arc or flats, and the length along the axis. Positions stay open:
/// `to` is a length, or an ordinate where `from` is below 0.
void read_shape(const ElementReading& in);
/// Chamfers and rounds of edges, fillets and reliefs of corners.
void read_edges(const ElementReading& in);
/// Grooves, also those for circlips and O-rings.
void read_grooves(const ElementReading& in);
/// The run-out of a thread.
void read_undercut(const ElementReading& in, const Node& node);

}  // namespace turnwright
