// SPDX-License-Identifier: MIT
#include "turnwright/route/segment.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

double span(const Segment& s) {
  return std::hypot(s.to.z.si - s.from.z.si, s.to.r.si - s.from.r.si);
}

// Half the central angle. From the chord while that is well conditioned, else from the centre.
double half_angle(const Segment& s) {
  const double x = span(s) / (2 * s.radius.si);
  if (x < 0.7) return std::asin(x);
  const double a = std::atan2(s.from.r.si - s.centre.r.si, s.from.z.si - s.centre.z.si);
  const double b = std::atan2(s.to.r.si - s.centre.r.si, s.to.z.si - s.centre.z.si);
  double turn = std::abs(b - a);
  if (turn > pi) turn = 2 * pi - turn;
  return turn / 2;
}

// The chord's unit normal, on the arc's side: its r component.
double normal_r(const Segment& s) {
  const double n = std::abs(s.to.z.si - s.from.z.si) / span(s);
  return s.bulge == Bulge::out ? n : -n;
}

// Below this half angle the differences are taken from their series.
constexpr double small_angle = 0.3;

// sin(x)/x - cos(x).
double sinc_less_cos(double x) {
  if (x > small_angle) return std::sin(x) / x - std::cos(x);
  const double q = x * x;
  return q * (1.0 / 3 - q * (1.0 / 30 - q * (1.0 / 840 - q * (1.0 / 45360 - q / 3991680))));
}

// x - sin(x) cos(x): the circular segment's area is radius^2 times it.
double segment_area_factor(double x) {
  if (x > small_angle) return x - std::sin(x) * std::cos(x);
  const double q = 4 * x * x;
  return q * x *
         (1.0 / 6 -
          q * (1.0 / 120 -
               q * (1.0 / 5040 - q * (1.0 / 362880 - q * (1.0 / 39916800 - q / 6227020800.0)))));
}

// Moment of the circular segment's area about its chord, over radius^3:
// (2/3) sin^3 x - (x - sin x cos x) cos x.
double segment_moment_factor(double x) {
  if (x > small_angle) {
    const double sine = std::sin(x);
    return 2.0 / 3 * sine * sine * sine - segment_area_factor(x) * std::cos(x);
  }
  const double q = x * x;
  return q * q * x *
         (2.0 / 15 -
          q * (11.0 / 315 -
               q * (17.0 / 3780 - q * (461.0 / 1247400 -
                                       q * (8303.0 / 389188800 - q * 24911.0 / 27243216000.0)))));
}

double chord_volume(const Segment& s) {
  const double a = s.from.r.si, b = s.to.r.si;
  return pi / 3 * std::abs(s.to.z.si - s.from.z.si) * (a * a + a * b + b * b);
}

}  // namespace

Segment arc_between(Point from, Point to, Length radius, Bulge bulge) {
  Segment s{from, to, bulge, {}, radius};
  const double dz = to.z.si - from.z.si, dr = to.r.si - from.r.si;
  const double half = std::hypot(dz, dr) / 2;
  const double height = std::sqrt(std::max(0.0, radius.si * radius.si - half * half));
  // The centre lies away from the bulge: below the chord for `out`.
  double nz = -dr / (2 * half), nr = dz / (2 * half);
  if (nr < 0 || (nr == 0 && nz < 0)) nz = -nz, nr = -nr;
  const double sign = bulge == Bulge::out ? -1 : 1;
  s.centre = {Length((from.z.si + to.z.si) / 2 + sign * nz * height),
              Length((from.r.si + to.r.si) / 2 + sign * nr * height)};
  return s;
}

Length radius_at(const Segment& s, Length z) {
  if (s.bulge == Bulge::none) {
    const double dz = s.to.z.si - s.from.z.si;
    if (dz == 0) return s.to.r;
    const double t = (z.si - s.from.z.si) / dz;
    return s.from.r + t * (s.to.r - s.from.r);
  }
  const double x = z.si - s.centre.z.si;
  const double h = std::sqrt(std::max(0.0, s.radius.si * s.radius.si - x * x));
  return Length(s.centre.r.si + (s.bulge == Bulge::out ? h : -h));
}

Volume volume(const Segment& s) {
  const double chord = chord_volume(s);
  if (s.bulge == Bulge::none) return Volume(chord);
  const double x = half_angle(s), R = s.radius.si, n = normal_r(s);
  // Frustum of the chord plus 2 pi times the moment of the circular segment about the axis.
  const double area = R * R * segment_area_factor(x);
  const double moment = R * R * R * segment_moment_factor(x);
  const double middle = (s.from.r.si + s.to.r.si) / 2;
  const double sign = s.bulge == Bulge::out ? 1 : -1;
  return Volume(chord + 2 * pi * (sign * area * middle + sign * moment * n));
}

Area surface(const Segment& s) {
  const double middle = (s.from.r.si + s.to.r.si) / 2;
  if (s.bulge == Bulge::none) return Area(2 * pi * middle * span(s));
  const double x = half_angle(s), R = s.radius.si;
  return Area(2 * pi * (2 * R * x) * (middle + R * sinc_less_cos(x) * normal_r(s)));
}

Length length(const Segment& s) {
  return Length(s.bulge == Bulge::none ? span(s) : 2 * s.radius.si * half_angle(s));
}

Segment between(const Segment& s, Length z_from, Length z_to) {
  Segment part = s;
  if (std::abs(z_from.si - s.from.z.si) > 0) part.from = {z_from, radius_at(s, z_from)};
  if (std::abs(z_to.si - s.to.z.si) > 0) part.to = {z_to, radius_at(s, z_to)};
  return part;
}

std::optional<Length> turning_point(const Segment& s) {
  if (s.bulge == Bulge::none) return std::nullopt;
  const double z = s.centre.z.si;
  const double low = std::min(s.from.z.si, s.to.z.si), high = std::max(s.from.z.si, s.to.z.si);
  if (z <= low + same_point || z >= high - same_point) return std::nullopt;
  return s.centre.z;
}

std::vector<Segment> split_at_radius(const Segment& s, Length r) {
  std::vector<double> cuts;
  const double a = s.from.z.si, b = s.to.z.si;
  const double low = std::min(a, b), high = std::max(a, b);
  if (s.bulge == Bulge::none) {
    const double dr = s.to.r.si - s.from.r.si;
    const double t = dr == 0 ? -1 : (r.si - s.from.r.si) / dr;
    if (t <= 0 || t >= 1) return {s};
    Segment first = s, second = s;
    first.to = second.from = {Length(a + t * (b - a)), r};
    if (length(first).si < same_point || length(second).si < same_point) return {s};
    return {first, second};
  }
  const double d = r.si - s.centre.r.si;
  const bool on_side = s.bulge == Bulge::out ? d >= 0 : d <= 0;
  const double h2 = s.radius.si * s.radius.si - d * d;
  if (!on_side || h2 <= 0) return {s};
  for (const double z : {s.centre.z.si - std::sqrt(h2), s.centre.z.si + std::sqrt(h2)})
    if (z > low + same_point && z < high - same_point) cuts.push_back(z);
  if (a > b) std::reverse(cuts.begin(), cuts.end());
  std::vector<Segment> pieces;
  Segment rest = s;
  for (const double z : cuts) {
    Segment piece = rest;
    piece.to = rest.from = {Length(z), r};
    pieces.push_back(piece);
  }
  pieces.push_back(rest);
  return pieces;
}

}  // namespace turnwright
