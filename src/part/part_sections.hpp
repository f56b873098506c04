// SPDX-License-Identifier: MIT
#pragma once
// The sections of a part file, one function each.
#include "read_element.hpp"

namespace turnwright {

/// What an edge is broken by where the drawing says nothing.
inline Length small_edge() { return 0.3 * unit::mm; }

/// What every section is read with.
struct SectionReading {
  const BareUnits& bare;
  ProblemList& problems;
  bool draft = false;  // with `to confirm`: material and minutes may be empty

  /// Left empty, and rightly.
  bool is_open(const Node& node) const;
  Length length(const Node& node) const {
    return read_length(node, bare, problems).value_or(Length(0.0));
  }
};

void read_material(const SectionReading& in, const Node& node, Part& part);
PartStock read_stock(const SectionReading& in, const Node& node);
Drawing read_drawing(const SectionReading& in, const Node& node);
void read_faces(const SectionReading& in, const Node& node, Part& part);
CentreRequest read_centres(const SectionReading& in, const Node& node);
OtherWork read_other_work(const SectionReading& in, const Node& node);
OneOff read_one_off(const SectionReading& in, const Node& node);
std::vector<std::string> read_to_confirm(const SectionReading& in, const Node& node);
Learning read_learning(const SectionReading& in, const Node& node);

/// Adds an element to those read before it, its chamfers below steps as cones beside it.
void append_with_edges(std::vector<Element>& list, ReadElement read, Region region,
                       ProblemList& problems);
/// A tolerance of position to a seat that the part does not have is a problem.
void check_seats(const Part& part, ProblemList& problems);
/// An edge at the end of a bore right through, where the wider one from the other face begins,
/// becomes the last element of the wide one.
void place_edges_between_bores(Part& part, ProblemList& problems);

}  // namespace turnwright
