// SPDX-License-Identifier: MIT
#include "geometry/profile.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

Segment raised(Segment s, Length by, Length at_most) {
  for (Point* p : {&s.from, &s.to, &s.centre}) p->r = min(p->r + by, at_most);
  return s;
}

// The surface of the outside, or of a bore, that a piece of an outline belongs to is finished
// apart.
bool finished_apart(const Job& job, const Practice& practice, const Segment& piece, bool inside) {
  const Length middle = (piece.from.z + piece.to.z) / 2.0;
  const Surface* owner = nullptr;  // a counterbore in a bore right through: the wider
  for (const Surface& s : job.surfaces)
    if (s.inside() == inside && middle > s.left && middle < s.right &&
        (owner == nullptr || s.diameter() > owner->diameter()))
      owner = &s;
  return owner != nullptr && owner->needs_finish(practice);
}

}  // namespace

// The cone that a drill leaves, 118 degrees.
Outline with_point(const Outline& hollow, Length radius) {
  const Segment cone{{hollow.left() - point_length(radius), Length(0.0)},
                     {hollow.left(), radius},
                     Bulge::none,
                     {},
                     {}};
  std::vector<Segment> pieces{cone};
  pieces.insert(pieces.end(), hollow.pieces().begin(), hollow.pieces().end());
  return Outline(pieces);
}
Length point_length(Length radius) { return radius / std::tan(59.0 / 180 * pi); }

Outline with_radial_allowance(const Job& job, const Practice& practice, Length radial) {
  const Length no_bound(1e9);
  std::vector<Segment> all;
  for (const Segment& s : job.turned.pieces())
    all.push_back(finished_apart(job, practice, s, false) ? raised(s, radial, no_bound) : s);
  return Outline(all);
}

Outline with_allowance(const Job& job, const Practice& practice, Length radial) {
  return thickened(with_radial_allowance(job, practice, radial), practice.axial_allowance);
}

Outline bore_allowance(const Job& job, const Practice& practice, const Outline& hollow) {
  std::vector<Segment> all;
  bool any = false;
  const Outline over = inverted(hollow, inversion_radius);
  for (const Segment& s : over.pieces()) {
    const bool finish = finished_apart(job, practice, s, true);
    any = any || finish;
    all.push_back(finish ? raised(s, practice.bore_finish, inversion_radius) : s);
  }
  if (!any) return Outline(all);
  // What is not finished apart comes to size at once, its bottom too.
  Outline thick = thickened(Outline(all), practice.axial_allowance);
  for (const Segment& s : over.pieces())
    if (!finished_apart(job, practice, s, true)) thick = lowered(thick, over, {s.from.z, s.to.z});
  return thick;
}

Outline spanned(const Outline& hollow, const Outline& work) {
  const Outline none = Outline::cylinder(work.left(), work.right(), Length(0.0));
  return hollow.empty() ? none
                        : combine(hollow, none, Envelope::upper).only(work.left(), work.right());
}

Outline joined(const Outline& a, const Outline& b) {
  if (b.empty()) return a;
  return a.empty() ? b : combine(a, b, Envelope::upper);
}

Outline thickened(const Outline& base, Length axial) {
  if (axial.si <= 0) return base;
  Outline thick = combine(base, base.moved(axial, Length(0.0)), Envelope::upper);
  thick = combine(thick, base.moved(-axial, Length(0.0)), Envelope::upper);
  return thick.only(base.left(), base.right());
}

}  // namespace turnwright
