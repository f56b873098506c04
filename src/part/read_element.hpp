// SPDX-License-Identifier: MIT
#pragma once
// Element maps as elements; then their positions, edges and corners from the neighbours.
#include <vector>

#include "turnwright/document/reader.hpp"
#include "turnwright/part/part.hpp"

namespace turnwright {

/// The units a bare number of this file takes.
struct BareUnits {
  UnitOf<Dim{1}> length = unit::mm;
  UnitOf<Dim{1}> roughness = unit::um;
};

/// An element, and its chamfers whose foot lies deeper than the step beside them.
struct ReadElement {
  Element element;
  std::vector<EdgeBreak> below_step;
};
ReadElement read_element(const Node& map, const BareUnits& bare, ProblemList& problems);

/// "30 k6", "30 +0.015/+0.002", "29.98..30.00", "1-1/4 in".
Size read_size(const Node& node, const BareUnits& bare, ProblemList& problems);
/// The same of an end of a cone, which may be a point: "0".
Size read_cone_end(const Node& node, const BareUnits& bare, ProblemList& problems);
std::optional<Length> read_length(const Node& node, const BareUnits& bare, ProblemList& problems);

/// Fills `from` and `to`, settles unsaid sides, checks what only neighbours can tell. Sides of a
/// bore are then as seen from its mouth, `right` being the mouth.
void place_elements(std::vector<Element>& elements, Region region, Length total,
                    ProblemList& problems);

}  // namespace turnwright
