// SPDX-License-Identifier: MIT
#pragma once
// Pieces of a meridian: what a turned face looks like in the half-plane (z, r). Millimetres.
#include <vector>

namespace turnwright::step {

struct MeridianPoint {
  double z = 0, r = 0;
};

enum class PieceForm { line, arc, free };

/// A function of z from `from` to `to`, from.z < to.z.
struct Piece {
  MeridianPoint from, to;
  PieceForm form = PieceForm::line;
  MeridianPoint centre;               // arc
  double radius = 0;                  // arc
  bool upper = true;                  // arc: the half away from the axis
  std::vector<MeridianPoint> points;  // free form, rising z
  bool outwards = true;               // the material lies towards the axis
  int face = 0;

  double at(double z) const;
  /// The other goes on as this one does.
  bool continues(const Piece& other, double tolerance) const;
  /// Of the body of revolution between two z.
  double volume(double from_z, double to_z) const;
  /// Of that body: of z, and of r squared.
  double moment(double from_z, double to_z) const;
  double moment_about_axis(double from_z, double to_z) const;
  /// Seen from the other end: z becomes `end` - z.
  Piece mirrored(double end) const;
  Piece moved(double dz) const;
};

}  // namespace turnwright::step
