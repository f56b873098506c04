// SPDX-License-Identifier: MIT
#include "turnwright/route/outline.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

Segment flat(double z_from, double z_to, double r) {
  return {{Length(z_from), Length(r)}, {Length(z_to), Length(r)}, Bulge::none, {}, {}};
}

// The piece of an outline that covers the middle of an interval, cut to it; r = 0 outside.
class Walker {
 public:
  explicit Walker(const std::vector<Segment>& pieces) : pieces_(pieces) {}
  Segment over(double from, double to) {
    const double middle = (from + to) / 2;
    while (next_ < pieces_.size() && pieces_[next_].to.z.si <= middle) ++next_;
    if (next_ == pieces_.size() || pieces_[next_].from.z.si > middle) return flat(from, to, 0);
    return between(pieces_[next_], Length(from), Length(to));
  }

 private:
  const std::vector<Segment>& pieces_;
  std::size_t next_ = 0;
};

void circle_crossings(const Segment& line, const Segment& arc, std::vector<double>& at) {
  // The line as a point and a direction, put into the circle's equation.
  const double z0 = line.from.z.si - arc.centre.z.si, r0 = line.from.r.si - arc.centre.r.si;
  const double dz = line.to.z.si - line.from.z.si, dr = line.to.r.si - line.from.r.si;
  const double a = dz * dz + dr * dr, b = z0 * dz + r0 * dr;
  const double c = z0 * z0 + r0 * r0 - arc.radius.si * arc.radius.si;
  const double d = b * b - a * c;
  if (d < 0 || a == 0) return;
  for (const double t : {(-b - std::sqrt(d)) / a, (-b + std::sqrt(d)) / a})
    at.push_back(line.from.z.si + t * dz);
}

void two_circles(const Segment& p, const Segment& q, std::vector<double>& at) {
  const double dz = q.centre.z.si - p.centre.z.si, dr = q.centre.r.si - p.centre.r.si;
  const double d2 = dz * dz + dr * dr, R = p.radius.si, S = q.radius.si;
  if (d2 < same_point * same_point) return;
  const double t = (R * R - S * S + d2) / (2 * d2);
  const double h2 = R * R / d2 - t * t;
  if (h2 < 0) return;
  const double h = std::sqrt(h2);
  for (const double side : {-h, h}) at.push_back(p.centre.z.si + t * dz + side * dr);
}

// z values where two pieces over the same interval cross, in order.
std::vector<double> crossings(const Segment& a, const Segment& b) {
  const double from = a.from.z.si, to = a.to.z.si;
  std::vector<double> at;
  if (a.bulge == Bulge::none && b.bulge == Bulge::none) {
    const double left = a.from.r.si - b.from.r.si, right = a.to.r.si - b.to.r.si;
    if ((left > 0) != (right > 0) && left != right)
      at.push_back(from + left / (left - right) * (to - from));
  } else if (a.bulge == Bulge::none) {
    circle_crossings(a, b, at);
  } else if (b.bulge == Bulge::none) {
    circle_crossings(b, a, at);
  } else {
    two_circles(a, b, at);
  }
  std::erase_if(at, [&](double z) { return !(z > from + same_point && z < to - same_point); });
  std::sort(at.begin(), at.end());
  return at;
}

bool same_line(const Segment& a, const Segment& b) {
  return a.bulge == Bulge::none && b.bulge == Bulge::none && a.from.r.si == a.to.r.si &&
         b.from.r.si == b.to.r.si && a.to.r.si == b.from.r.si && a.to.z.si == b.from.z.si;
}
bool same_arc(const Segment& a, const Segment& b) {
  return a.bulge == b.bulge && a.bulge != Bulge::none && a.radius.si == b.radius.si &&
         a.centre.z.si == b.centre.z.si && a.centre.r.si == b.centre.r.si &&
         a.to.z.si == b.from.z.si;
}

void append(std::vector<Segment>& pieces, const Segment& s) {
  if (!pieces.empty() && (same_line(pieces.back(), s) || same_arc(pieces.back(), s)))
    pieces.back().to = s.to;
  else
    pieces.push_back(s);
}

std::vector<double> breakpoints(const Outline& a, const Outline& b) {
  std::vector<double> at;
  for (const Outline* o : {&a, &b})
    for (const Segment& s : o->pieces()) {
      at.push_back(s.from.z.si);
      at.push_back(s.to.z.si);
    }
  std::sort(at.begin(), at.end());
  // Points closer than that are one, else slivers without a name appear.
  std::vector<double> merged;
  for (const double z : at)
    if (merged.empty() || z - merged.back() > same_point) merged.push_back(z);
  return merged;
}

template <class Visit>
void over_both(const Outline& a, const Outline& b, Visit visit) {
  const std::vector<double> at = breakpoints(a, b);
  Walker left(a.pieces()), right(b.pieces());
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Segment p = left.over(at[i], at[i + 1]), q = right.over(at[i], at[i + 1]);
    std::vector<double> cuts = crossings(p, q);
    cuts.push_back(at[i + 1]);
    double from = at[i];
    for (const double to : cuts) {
      visit(between(p, Length(from), Length(to)), between(q, Length(from), Length(to)));
      from = to;
    }
  }
}

double middle_radius(const Segment& s) { return radius_at(s, (s.from.z + s.to.z) / 2.0).si; }

}  // namespace

Outline::Outline(const std::vector<Segment>& pieces) {
  for (const Segment& s : pieces) {
    if (s.to.z.si - s.from.z.si <= same_point) continue;
    if (!pieces_.empty() && s.from.z.si - pieces_.back().to.z.si > same_point)
      append(pieces_, flat(pieces_.back().to.z.si, s.from.z.si, 0));
    Segment next = s;
    // Where a sliver was dropped its neighbour goes on: no volume is lost between two pieces.
    if (!pieces_.empty()) next.from.z = pieces_.back().to.z;
    append(pieces_, next);
  }
}

Outline Outline::cylinder(Length left, Length right, Length r) {
  return Outline({flat(left.si, right.si, r.si)});
}

Length Outline::left_of(Length z) const {
  for (const Segment& s : pieces_)
    if (z.si > s.from.z.si + same_point && z.si <= s.to.z.si + same_point)
      return radius_at(s, min(z, s.to.z));
  return Length(0.0);
}
Length Outline::right_of(Length z) const {
  for (const Segment& s : pieces_)
    if (z.si >= s.from.z.si - same_point && z.si < s.to.z.si - same_point)
      return radius_at(s, max(z, s.from.z));
  return Length(0.0);
}

Length Outline::largest() const { return empty() ? Length(0.0) : largest(left(), right()); }

Length Outline::largest(Length from, Length to) const {
  Length most(0.0);
  for (const Segment& s : pieces_) {
    const Length a = max(s.from.z, from), b = min(s.to.z, to);
    if (b.si - a.si <= same_point) continue;
    most = max(most, max(radius_at(s, a), radius_at(s, b)));
    if (const auto top = turning_point(s); top && *top > a && *top < b)
      most = max(most, radius_at(s, *top));
  }
  return most;
}

Volume Outline::volume() const {
  Volume sum(0.0);
  for (const Segment& s : pieces_) sum += turnwright::volume(s);
  return sum;
}

Outline Outline::only(Length from, Length to) const {
  std::vector<Segment> kept;
  for (const Segment& s : pieces_) {
    const Length a = max(s.from.z, from), b = min(s.to.z, to);
    if (b.si - a.si > same_point) kept.push_back(between(s, a, b));
  }
  Outline part(kept);
  return part;
}

Outline Outline::moved(Length dz, Length dr) const {
  Outline result = *this;
  for (Segment& s : result.pieces_)
    for (Point* p : {&s.from, &s.to, &s.centre}) {
      p->z += dz;
      p->r += dr;
    }
  return result;
}

Outline Outline::mirrored(Length mirror) const {
  std::vector<Segment> pieces;
  for (auto s = pieces_.rbegin(); s != pieces_.rend(); ++s) {
    Segment m = *s;
    m.from = {mirror - s->to.z, s->to.r};
    m.to = {mirror - s->from.z, s->from.r};
    m.centre.z = mirror - s->centre.z;
    pieces.push_back(m);
  }
  Outline result;
  result.pieces_ = std::move(pieces);
  return result;
}

Outline combine(const Outline& a, const Outline& b, Envelope take) {
  std::vector<Segment> pieces;
  over_both(a, b, [&](const Segment& p, const Segment& q) {
    const bool first = take == Envelope::lower ? middle_radius(p) <= middle_radius(q)
                                               : middle_radius(p) >= middle_radius(q);
    append(pieces, first ? p : q);
  });
  return Outline(pieces);
}

Volume body_volume(const Outline& outside, const Outline& hollow) {
  if (hollow.empty()) return outside.volume();
  return outside.volume() - combine(outside, hollow, Envelope::lower).volume();
}

namespace {
Area ring(Length a, Length b) { return Area(pi * std::abs((a * a - b * b).si)); }
// Without what closes it at its ends.
Area walls(const Outline& o) {
  Area sum(0.0);
  const auto& pieces = o.pieces();
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    sum += surface(pieces[i]);
    if (i > 0) sum += ring(pieces[i - 1].to.r, pieces[i].from.r);
  }
  return sum;
}
}  // namespace

Area body_surface(const Outline& outside, const Outline& hollow) {
  const Outline bore = hollow.empty() ? hollow : hollow.only(outside.left(), outside.right());
  Area sum = walls(outside);
  if (!bore.empty()) sum += walls(bore);
  for (const Length end : {outside.left(), outside.right()}) {
    const bool left = end == outside.left();
    auto r = [&](const Outline& o) {
      return o.empty() ? Length(0.0) : left ? o.right_of(end) : o.left_of(end);
    };
    sum += ring(r(outside), r(bore));
  }
  return sum;
}

Outline inverted(const Outline& o, Length about) {
  std::vector<Segment> pieces = o.pieces();
  for (Segment& s : pieces) {
    for (Point* p : {&s.from, &s.to, &s.centre}) p->r = about - p->r;
    s.bulge = s.bulge == Bulge::in ? Bulge::out : s.bulge == Bulge::out ? Bulge::in : s.bulge;
  }
  return Outline(pieces);
}

Outline lowered(const Outline& work, const Outline& shape, const Interval& where) {
  std::vector<Segment> pieces;
  for (const Outline& part : {work.only(work.left(), where.from),
                              combine(work, shape, Envelope::lower).only(where.from, where.to),
                              work.only(where.to, work.right())})
    for (const Segment& s : part.pieces()) append(pieces, s);
  return Outline(pieces);
}

std::vector<Interval> where_above(const Outline& high, const Outline& low) {
  std::vector<Interval> found;
  over_both(high, low, [&](const Segment& p, const Segment& q) {
    const Length from = p.from.z, to = p.to.z;
    const double gap =
        std::max({radius_at(p, from).si - radius_at(q, from).si,
                  middle_radius(p) - middle_radius(q), radius_at(p, to).si - radius_at(q, to).si});
    if (gap <= same_point) return;
    if (!found.empty() && from.si - found.back().to.si <= same_point)
      found.back().to = to;
    else
      found.push_back({from, to});
  });
  return found;
}

Outline reachable(const Outline& limit, Number angle) {
  const double slope = std::tan(angle.si);
  std::vector<Segment> pieces;
  bool started = false;
  double best = 0;  // largest r - z slope seen from the right
  const auto& all = limit.pieces();
  for (auto s = all.rbegin(); s != all.rend(); ++s) {
    const double l = s->from.z.si, r = s->to.z.si;
    auto consider = [&](double z) {
      const double value = radius_at(*s, Length(z)).si - z * slope;
      best = started ? std::max(best, value) : value;
      started = true;
    };
    consider(r);
    // Where an arc falls to the left more steeply than the ray, the ray leaves it at the tangent.
    if (s->bulge == Bulge::out) {
      const double z = s->centre.z.si - s->radius.si * std::sin(std::atan(slope));
      if (z > l && z < r) consider(z);
    }
    const Segment ray{{Length(l), Length(best + l * slope)},
                      {Length(r), Length(best + r * slope)},
                      Bulge::none,
                      {},
                      {}};
    const Outline raised = combine(Outline({*s}), Outline({ray}), Envelope::upper);
    pieces.insert(pieces.begin(), raised.pieces().begin(), raised.pieces().end());
    consider(l);
  }
  return Outline(pieces);
}

namespace {
// A plane at a radius, with a wall wherever it would lie below the limit.
Outline walled_plane(const Outline& plane, const Outline& limit, Length radius) {
  constexpr double wall = 1e6;  // nothing is cut here
  const Outline blocked =
      combine(limit, plane.moved(Length(0.0), Length(same_point)), Envelope::upper);
  std::vector<Segment> cut;
  Length at = plane.left();
  auto open_until = [&](Length to) {
    if (to.si - at.si > same_point) cut.push_back(flat(at.si, to.si, radius.si));
  };
  for (const Interval& interval :
       where_above(blocked, plane.moved(Length(0.0), Length(2 * same_point)))) {
    open_until(interval.from);
    cut.push_back(flat(interval.from.si, interval.to.si, wall));
    at = interval.to;
  }
  open_until(plane.right());
  return Outline(cut);
}
}  // namespace

Level cut_level(const Outline& work, const Outline& limit, Length radius) {
  const Outline plane =
      Outline::cylinder(min(work.left(), limit.left()), max(work.right(), limit.right()), radius);
  Level level;
  // Cut where the level lies on or above the limit and below the work.
  level.after = combine(work, walled_plane(plane, limit, radius), Envelope::lower);
  level.cuts = where_above(work, level.after);
  return level;
}

}  // namespace turnwright
