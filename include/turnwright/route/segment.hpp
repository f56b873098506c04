// SPDX-License-Identifier: MIT
#pragma once
// A straight or circular piece of an outline or a tool path in the half-plane (z, r), r >= 0, with
// its volume, surface and length of revolution in closed form.
#include <optional>
#include <vector>

#include "turnwright/quantity/quantity.hpp"

namespace turnwright {

/// Points and depths closer than this are the same (1 nm).
inline constexpr double same_point = 1e-9;

struct Point {
  Length z{}, r{};
};

/// none: a line. out: the side of the circle away from the axis, in: towards it.
enum class Bulge { none, out, in };

struct Segment {
  Point from, to;
  Bulge bulge = Bulge::none;
  Point centre;     // of the circle; never fitted again after a split
  Length radius{};  // of the circle
};

/// The arc of `radius` between two points, on the side `bulge`; at most a half circle.
Segment arc_between(Point from, Point to, Length radius, Bulge bulge);

/// r at z, for a segment that is a function of z.
Length radius_at(const Segment& s, Length z);
/// Volume of revolution, pi * integral of r^2 dz, always positive; 0 for a vertical line.
Volume volume(const Segment& s);
/// Surface of revolution, 2 pi * integral of r ds.
Area surface(const Segment& s);
Length length(const Segment& s);
/// The part of the segment between two z values inside it, in the segment's direction.
Segment between(const Segment& s, Length z_from, Length z_to);
/// The segment cut where it crosses a radius: at most three pieces.
std::vector<Segment> split_at_radius(const Segment& s, Length r);
/// z of the top (out) or bottom (in) of an arc, when it lies inside the arc.
std::optional<Length> turning_point(const Segment& s);

}  // namespace turnwright
