// SPDX-License-Identifier: MIT
#pragma once
// How far faces that are not turned reach from the axis, by points along their edges.
#include <vector>

#include "face.hpp"

namespace turnwright::step {

class Envelope {
 public:
  explicit Envelope(const std::vector<Face>& faces);
  /// The largest radius between two z; 0 where nothing is.
  double reach(double from, double to) const;

 private:
  // A short straight piece of an edge, ends by rising z.
  struct Chord {
    double z0, x0, y0, z1, x1, y1;
    double radius_at(double z) const;
  };
  std::vector<Chord> chords_;
};

}  // namespace turnwright::step
