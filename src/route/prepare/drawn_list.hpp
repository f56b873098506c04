// SPDX-License-Identifier: MIT
#pragma once
// A list of surfaces to draw, seen so that the tool comes from the right.
#include "prepare/preparation.hpp"

namespace turnwright {

/// A bore is drawn turned over, as an outside: its radii are `flip` - r.
struct DrawnList {
  std::vector<Surface> surfaces;
  const std::vector<Element>& elements;
  Length flip{};         // 0: the outside
  Length beyond_left{};  // radius of what lies left of the last one

  bool flipped() const { return flip.si > 0; }
  /// A radius as drawn from a real one, and back.
  Length turned(Length r) const { return flipped() ? flip - r : r; }
  /// The radius that the surface beside this one has at their common face.
  Length left_wall(std::size_t i) const {
    return i + 1 < surfaces.size() ? surfaces[i + 1].right_radius : beyond_left;
  }
  Length right_wall(std::size_t i) const {
    return i > 0 ? surfaces[i - 1].left_radius : Length(0.0);
  }
};

/// The pieces of one element from left to right, edges and corners too; reliefs put their wedges
/// into the job's features. A size that does not fit is a problem.
std::vector<Segment> pieces_of(Preparation& preparation, const DrawnList& list, std::size_t i);
/// The outline with the grooves of all elements cut into it.
Outline with_grooves(Preparation& preparation, const DrawnList& list, Outline outline);

}  // namespace turnwright
