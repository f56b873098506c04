// SPDX-License-Identifier: MIT
#pragma once
// A face of the solid, whose axis lies along z: where it is and what of the meridian it makes.
#include <TopoDS_Face.hxx>
#include <vector>

#include "piece.hpp"

namespace turnwright::step {

struct Extent {
  double low = 1e99, high = -1e99;
  void take(double value) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
};

struct Face {
  TopoDS_Face shape;
  double area = 0;
  bool turned = false;
  std::vector<Piece> pieces;  // none for a face square to the axis
  Extent z, r;                // of its edges
};

/// What sizes are judged by: two points closer than `same` are one.
struct Scale {
  double size = 0;
  double same() const { return size * 2e-5 > 1e-4 ? size * 2e-5 : 1e-4; }
  /// What a sampled surface may be off the shape that it is taken for.
  double sampled() const { return 2e-4 * (size > 50 ? size / 50 : 1); }
};

/// Sines of angles smaller than this are none.
inline constexpr double same_direction = 2e-4;

/// The face, classified.
Face classified(const TopoDS_Face& shape, const Scale& scale);
/// A surface that is given by points only: turned where its normals stay in the meridian plane.
bool take_as_free_form(Face& face, const Scale& scale);

}  // namespace turnwright::step
