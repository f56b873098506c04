// SPDX-License-Identifier: MIT
#include "envelope.hpp"

#include <algorithm>
#include <cmath>

#include "face_edges.hpp"

namespace turnwright::step {

Envelope::Envelope(const std::vector<Face>& faces) {
  constexpr int steps = 32;
  for (const Face& face : faces) {
    if (face.turned) continue;
    for_each_edge(face.shape, [&](const BRepAdaptor_Curve& curve) {
      const int n = curve.GetType() == GeomAbs_Line ? 1 : steps;
      gp_Pnt a = point_along(curve, 0);
      for (int i = 1; i <= n; ++i) {
        const gp_Pnt b = point_along(curve, double(i) / n);
        const bool rising = a.Z() <= b.Z();
        const gp_Pnt &low = rising ? a : b, &high = rising ? b : a;
        chords_.push_back({low.Z(), low.X(), low.Y(), high.Z(), high.X(), high.Y()});
        a = b;
      }
    });
  }
}

double Envelope::Chord::radius_at(double z) const {
  const double t = z1 - z0 < 1e-12 ? 0 : std::clamp((z - z0) / (z1 - z0), 0.0, 1.0);
  return std::hypot(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t);
}

double Envelope::reach(double from, double to) const {
  double most = 0;
  for (const Chord& c : chords_) {
    if (c.z1 < from || c.z0 > to) continue;
    most = std::max({most, c.radius_at(std::max(from, c.z0)), c.radius_at(std::min(to, c.z1))});
    if (c.z1 - c.z0 < 1e-12) most = std::max(most, std::hypot(c.x1, c.y1));
  }
  return most;
}

}  // namespace turnwright::step
