// SPDX-License-Identifier: MIT
// Unit-load method: the deflection at a under a unit force at b is the integral of the product of
// both moments over E I; the centre's reaction follows from its own flexibility. Source: any text
// on strength of materials, Castigliano's theorem.
#include "geometry/bend.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace turnwright {
namespace {

// The fourth power of the void's radius at z, never so large that nothing is left.
double hole4(const HeldWork& w, double z, double r) {
  if (w.hollow == nullptr) return 0;
  const double hole = std::min(w.hollow->left_of(Length(z)).si, 0.98 * r);
  return hole * hole * hole * hole;
}

// Integral of (p + q s)^2 / (E I(s)) between two z, s counted from the jaw; cylinders exactly,
// other pieces in eight slices. The moment of a unit force is a straight line between supports and
// force.
double moment_integral(const HeldWork& w, double from_z, double to_z, double p1, double q1,
                       double p2, double q2) {
  double sum = 0;
  for (const Segment& piece : w.shape.pieces()) {
    const double from = std::max(piece.from.z.si, from_z), to = std::min(piece.to.z.si, to_z);
    if (to <= from) continue;
    const bool flat = piece.bulge == Bulge::none && piece.from.r.si == piece.to.r.si;
    const int slices = flat && w.hollow == nullptr ? 1 : 8;
    for (int i = 0; i < slices; ++i) {
      const double l = from + (to - from) * i / slices, h = from + (to - from) * (i + 1) / slices;
      const double r = std::max(radius_at(piece, Length((l + h) / 2)).si, 1e-4);
      const double I = pi / 4 * (r * r * r * r - hole4(w, (l + h) / 2, r));
      auto primitive = [&](double z) {
        const double s = z - w.jaw.si;
        return p1 * p2 * s + (p1 * q2 + p2 * q1) * s * s / 2 + q1 * q2 * s * s * s / 3;
      };
      sum += (primitive(h) - primitive(l)) / (w.elastic_modulus.si * I);
    }
  }
  return sum;
}

// Deflection at a under a unit force at b, fixed at the jaw and free at the other end.
double flexibility(const HeldWork& w, double a, double b) {
  const double x = a - w.jaw.si, y = b - w.jaw.si;
  return moment_integral(w, w.jaw.si, std::min(a, b), x, -1, y, -1);
}

// Pinned at the jaw and at the centre: under the force where it acts.
double between_centres(const HeldWork& w, double z) {
  const double span = (w.centre - w.jaw).si, x = z - w.jaw.si, t = x / span;
  return moment_integral(w, w.jaw.si, z, 0, 1 - t, 0, 1 - t) +
         moment_integral(w, z, w.centre.si, t * span, -t, t * span, -t) +
         w.practice.centre_compliance.si * ((1 - t) * (1 - t) + t * t);
}

}  // namespace

double compliance_at(const HeldWork& work, Length z) {
  if (work.support == Support::between_centres) return between_centres(work, z.si);
  auto flex = [&](double a, double b) { return flexibility(work, a, b) + work.chuck_compliance; };
  const double own = flex(z.si, z.si);
  // Each support pushes back so that the work does not move there but for its own give.
  const double behind = work.practice.follow_rest_behind.si;
  std::array<double, 2> at{};
  std::size_t n = 0;
  if (work.support == Support::chuck_and_centre) at[n++] = work.centre.si;
  if (work.steady)
    at[n++] = work.steady->si;
  else if (work.follows && z.si + behind < work.centre.si)
    at[n++] = z.si + behind;
  if (n == 0) return own;
  const double a = flex(at[0], at[0]) + work.practice.centre_compliance.si, u = flex(z.si, at[0]);
  if (n == 1) return own - u * u / a;
  const double b = flex(at[1], at[1]) + work.practice.steady_compliance.si, v = flex(z.si, at[1]);
  const double ab = flex(at[0], at[1]), det = a * b - ab * ab;
  return own - (u * u * b - 2 * u * v * ab + v * v * a) / det;
}

double compliance_range(const HeldWork& work, Length from, Length to) {
  double low = 1e300, high = 0;
  constexpr int points = 8;
  for (int i = 0; i <= points; ++i) {
    const double y = compliance_at(work, from + (to - from) * (static_cast<double>(i) / points));
    low = std::min(low, y);
    high = std::max(high, y);
  }
  return high - low;
}

Frequency bending_frequency(const Material& material, Length diameter, Length out, bool propped) {
  const double k = propped ? 3.927 : 1.875;
  const double wave = std::sqrt(material.elastic_modulus.si / material.density.si);
  return Frequency(k * k / (2 * pi) * (diameter.si / 4) * wave / (out.si * out.si));
}

Frequency steady_speed(const Material& material, const Operation& operation, bool propped) {
  const Length out = operation.stick_out;
  return bending_frequency(material, out / operation.free_ratio, out, propped) / 2.0;
}

Length effective_diameter(const Outline& shape, Length from, Length to) {
  // Beyond its left end the stock goes on.
  const Length begin = max(from, shape.left()), l = to - begin;
  const Volume v = shape.only(begin, to).volume();
  return l.si <= 0 ? Length(0.0) : sqrt(4.0 * v / (pi * l));
}

}  // namespace turnwright
