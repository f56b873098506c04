// SPDX-License-Identifier: MIT
#include "piece.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace turnwright::step {
namespace {

constexpr double nothing = 1e-12;

double on_line(const MeridianPoint& a, const MeridianPoint& b, double z) {
  const double dz = b.z - a.z;
  return dz < nothing ? a.r : a.r + (b.r - a.r) * (z - a.z) / dz;
}

double on_polyline(const std::vector<MeridianPoint>& points, double z) {
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    if (z <= points[i + 1].z + nothing) return on_line(points[i], points[i + 1], z);
  return points.back().r;
}

double slope(const Piece& p) { return (p.to.r - p.from.r) / (p.to.z - p.from.z); }

// Integral of r squared along an arc's z, in closed form.
double arc_integral(const Piece& p, double z) {
  const double x = std::clamp(z - p.centre.z, -p.radius, p.radius);
  const double root = std::sqrt(std::max(0.0, p.radius * p.radius - x * x));
  const double half = (x * root + p.radius * p.radius * std::asin(x / p.radius)) / 2;
  const double sign = p.upper ? 1 : -1;
  return p.centre.r * p.centre.r * x + 2 * sign * p.centre.r * half + p.radius * p.radius * x -
         x * x * x / 3;
}

template <class Function>
double simpson(double a, double b, Function f) {
  constexpr int steps = 400;
  const double h = (b - a) / steps;
  double sum = 0;
  for (int i = 0; i < steps; ++i) {
    const double z = a + i * h;
    sum += h / 6 * (f(z) + 4 * f(z + h / 2) + f(z + h));
  }
  return sum;
}
double square(double x) { return x * x; }

}  // namespace

double Piece::at(double z) const {
  if (form == PieceForm::free) return on_polyline(points, z);
  if (form == PieceForm::line) return on_line(from, to, z);
  const double x = z - centre.z;
  const double root = std::sqrt(std::max(0.0, radius * radius - x * x));
  return std::max(0.0, upper ? centre.r + root : centre.r - root);
}

bool Piece::continues(const Piece& other, double tolerance) const {
  if (form != other.form || form == PieceForm::free) return false;
  if (form == PieceForm::arc)
    return upper == other.upper && std::abs(centre.z - other.centre.z) < tolerance &&
           std::abs(centre.r - other.centre.r) < tolerance &&
           std::abs(radius - other.radius) < tolerance;
  constexpr double same_slope = 1e-4;
  const double there = other.from.r + slope(other) * (from.z - other.from.z);
  return std::abs(slope(*this) - slope(other)) < same_slope && std::abs(from.r - there) < tolerance;
}

double Piece::volume(double from_z, double to_z) const {
  if (form == PieceForm::arc)
    return std::numbers::pi * (arc_integral(*this, to_z) - arc_integral(*this, from_z));
  if (form == PieceForm::free)
    return std::numbers::pi * simpson(from_z, to_z, [&](double z) { return square(at(z)); });
  const double a = at(from_z), b = at(to_z);
  return std::numbers::pi * (to_z - from_z) * (a * a + a * b + b * b) / 3;
}

double Piece::moment(double from_z, double to_z) const {
  return std::numbers::pi * simpson(from_z, to_z, [&](double z) { return z * square(at(z)); });
}

double Piece::moment_about_axis(double from_z, double to_z) const {
  return std::numbers::pi / 2 *
         simpson(from_z, to_z, [&](double z) { return square(square(at(z))); });
}

Piece Piece::mirrored(double end) const {
  Piece seen = *this;
  seen.from = {end - to.z, to.r};
  seen.to = {end - from.z, from.r};
  seen.centre.z = end - centre.z;
  for (MeridianPoint& p : seen.points) p.z = end - p.z;
  std::reverse(seen.points.begin(), seen.points.end());
  return seen;
}

Piece Piece::moved(double dz) const {
  Piece seen = *this;
  seen.from.z += dz;
  seen.to.z += dz;
  seen.centre.z += dz;
  for (MeridianPoint& p : seen.points) p.z += dz;
  return seen;
}

}  // namespace turnwright::step
