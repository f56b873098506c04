// SPDX-License-Identifier: MIT
#pragma once
// The outline of the turned faces, by slabs: between two neighbouring ends of faces the surfaces
// are sorted by radius. The outermost one that looks outwards is the outside, the innermost that
// looks inwards the bore, a pair between them a ring recess.
#include <functional>
#include <vector>

#include "face.hpp"

namespace turnwright::step {

/// A stretch of the outline. `envelope`: no turned surface, but what unturned faces reach.
struct Run {
  double from = 0, to = 0;  // z
  Piece piece;
  bool envelope = false;
  double from_r = 0, to_r = 0;  // once it stands from the right-hand end
  double volume() const { return piece.volume(from, to); }
};
/// A ring of no material between the outside and the bore.
struct Recess {
  double from = 0, to = 0, inner = 0, outer = 0;  // radii in its middle
  double volume = 0;
};
struct TurnedOutline {
  std::vector<Run> outside, bore;
  std::vector<Recess> recesses;
  double enveloped = 0;  // length without a turned outside
  double volume() const;
  /// Of the body: of z, and of r squared.
  double moment() const;
  double moment_about_axis() const;
};

/// The largest radius of unturned faces between two z.
using EnvelopeOf = std::function<double(double, double)>;

TurnedOutline outline_of(const std::vector<Face>& faces, const Scale& scale,
                         const EnvelopeOf& envelope);
/// From z = 0 at the right-hand end, which is the lighter one, or the other with `flip`; places
/// rounded to `grid`, so that lengths add up.
TurnedOutline from_right_end(TurnedOutline outline, bool& mirrored, bool flip, double grid);

}  // namespace turnwright::step
