// SPDX-License-Identifier: MIT
#include "profile.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

Segment line(Length z1, Length r1, Length z2, Length r2) {
  return {{z1, r1}, {z2, r2}, Bulge::none, {}, {}};
}

// A list of surfaces to draw, seen so that the tool comes from the right. A bore is drawn turned
// over: its radii are flip - r.
struct DrawnList {
  std::vector<Surface> surfaces;
  const std::vector<Element>& elements;
  Length winner_change{};  // 0: the outside
  Length beyond_left{};    // radius of what lies left of the last one
};

// One element's pieces from left to right.
class ElementProfile {
 public:
  ElementProfile(Job& job, const DrawnList& list, std::size_t i, const Standards& standards)
      : job_(job),
        surface_(list.surfaces[i]),
        element_(list.elements[i]),
        standards_(standards),
        winner_change_(list.winner_change) {
    left_wall_ =
        i + 1 < list.surfaces.size() ? list.surfaces[i + 1].right_radius : list.beyond_left;
    right_wall_ = i > 0 ? list.surfaces[i - 1].left_radius : Length(0.0);
    left_ = surface_.left;
    right_ = surface_.right;
  }

  std::string fault;

  std::vector<Segment> pieces() {
    std::vector<Segment> left_end, right_end;
    for (const EdgeBreak& edge : element_.breaks) edge_break(edge, left_end, right_end);
    for (const Corner& corner : element_.corners) corner_at(corner, left_end, right_end);
    if (right_.si - left_.si < -same_point) fault = "edges and corners are longer than the element";
    std::vector<Segment> all = std::move(left_end);
    if (right_.si - left_.si > same_point) all.push_back(body());
    all.insert(all.end(), right_end.begin(), right_end.end());
    return all;
  }

 private:
  bool flat() const {
    return std::abs(surface_.left_radius.si - surface_.right_radius.si) < same_point &&
           element_.kind != ElementKind::arc;
  }
  bool flipped() const { return winner_change_.si > 0; }
  Length real(Length r) const { return flipped() ? winner_change_ - r : r; }
  Length radius(bool left) const { return left ? surface_.left_radius : surface_.right_radius; }

  Segment body() const {
    if (element_.kind == ElementKind::arc) {
      const Segment whole = arc_between({surface_.left, surface_.left_radius},
                                        {surface_.right, surface_.right_radius}, element_.radius,
                                        element_.hollow != flipped() ? Bulge::in : Bulge::out);
      return between(whole, left_, right_);
    }
    const Segment whole =
        line(surface_.left, surface_.left_radius, surface_.right, surface_.right_radius);
    return between(whole, left_, right_);
  }
  void edge_break(const EdgeBreak& edge, std::vector<Segment>& left_end,
                  std::vector<Segment>& right_end) {
    const bool left = edge.side == Side::left;
    const Length r = radius(left);
    const Length height = edge.round ? edge.width : edge.width * std::tan(edge.angle.si);
    const Length wall = left ? left_wall_ : right_wall_;
    if (!flat() && edge.round) fault = "a round on a cone or arc is not drawn";
    if (height.si > (r - wall).si + same_point)
      fault = "an edge break higher than the step it stands on";
    const Length outer = left ? surface_.left : surface_.right;
    const Length inner = left ? outer + edge.width : outer - edge.width;
    const Point low{outer, r - height}, high{inner, flat() ? r : radius_at(body(), inner)};
    const Point from = left ? low : high, to = left ? high : low;
    Segment s = line(from.z, from.r, to.z, to.r);
    if (edge.round) {
      s.bulge = Bulge::out;
      s.radius = edge.width;
      s.centre = {inner, r - edge.width};
    }
    (left ? left_end : right_end).push_back(s);
    (left ? left_ : right_) = inner;
  }
  void corner_at(const Corner& corner, std::vector<Segment>& left_end,
                 std::vector<Segment>& right_end) {
    const bool left = corner.side == Side::left;
    if (!flat()) {
      fault = "a corner on a cone or arc is not drawn";
      return;
    }
    if (corner.kind == CornerKind::fillet)
      fillet(corner, left, left_end, right_end);
    else
      relief(corner, left, left_end, right_end);
  }
  void fillet(const Corner& corner, bool left, std::vector<Segment>& left_end,
              std::vector<Segment>& right_end) {
    const Length r = radius(left), wall = left ? left_wall_ : right_wall_;
    if (corner.radius.si > (wall - r).si + same_point) fault = "a fillet larger than its shoulder";
    const Length outer = left ? surface_.left : surface_.right;
    const Length inner = left ? outer + corner.radius : outer - corner.radius;
    Segment s =
        left ? line(outer, r + corner.radius, inner, r) : line(inner, r, outer, r + corner.radius);
    s.bulge = Bulge::in;
    s.radius = corner.radius;
    s.centre = {inner, r + corner.radius};
    (left ? left_end : right_end).push_back(s);
    (left ? left_ : right_) = inner;
  }
  void relief(const Corner& corner, bool left, std::vector<Segment>& left_end,
              std::vector<Segment>& right_end) {
    const ReliefSize* size = standards_.relief(2.0 * real(surface_.left_radius));
    if (size == nullptr) {
      fault = "no relief is listed at this diameter";
      return;
    }
    const Length r = radius(left), depth = corner.depth.si > 0 ? corner.depth : size->depth;
    const Length width = size->width;
    // DIN 509: the bottom runs out at 15 degrees.
    const Length ramp = depth / std::tan(pi / 12);
    const Length outer = left ? surface_.left : surface_.right;
    const double sign = left ? 1 : -1;
    const Length floor_end = outer + sign * (width - ramp), end = outer + sign * width;
    if (left) {
      left_end.push_back(line(outer, r - depth, floor_end, r - depth));
      left_end.push_back(line(floor_end, r - depth, end, r));
      left_ = end;
    } else {
      right_end.push_back(line(end, r, floor_end, r - depth));
      right_end.push_back(line(floor_end, r - depth, outer, r - depth));
      right_ = end;
    }
    if (corner.kind != CornerKind::relief_f) return;
    // Into the shoulder: a wedge g high and t2 deep, turned about the axis.
    const Area wedge = size->face_height * size->face_depth / 2.0;
    const Length middle = r - depth + size->face_height / 3.0;
    const Length z = surface_.region == Region::bore_left ? job_.left() - outer : outer;
    job_.features.push_back(
        {"relief F at " + surface_.name, 2.0 * pi * real(middle) * wedge, z, true});
  }

  Job& job_;
  const Surface& surface_;
  const Element& element_;
  const Standards& standards_;
  Length winner_change_{};
  Length left_wall_{}, right_wall_{}, left_{}, right_{};
};

// The outline of a list; the element that does not fit, or null.
const Element* draw(Job& job, const DrawnList& list, const Standards& standards, Outline& into,
                    std::string& fault) {
  std::vector<Segment> pieces;
  for (std::size_t i = list.surfaces.size(); i-- > 0;) {
    ElementProfile profile(job, list, i, standards);
    const auto own = profile.pieces();
    if (!profile.fault.empty()) {
      fault = profile.fault;
      return &list.elements[i];
    }
    pieces.insert(pieces.end(), own.begin(), own.end());
  }
  into = Outline(pieces);
  return nullptr;
}

// A groove as a dip: its place and bottom radius.
struct Dip {
  Length from{}, to{}, r{};
};

// `sign` is 1 on the outside, -1 in a bore.
Dip dip_of(const DrawnList& list, std::size_t i, const Groove& g, const Standards& standards,
           std::string& fault) {
  const Surface& s = list.surfaces[i];
  const bool inside = list.winner_change.si > 0;
  Dip dip;
  Length width = g.width;
  auto drawn = [&](Length radius) { return inside ? list.winner_change - radius : radius; };
  Length bottom = g.bottom  ? drawn(*g.bottom / 2.0)
                  : g.depth ? s.right_radius - *g.depth
                            : s.right_radius;
  if (g.kind == GrooveKind::circlip) {
    const CirclipGroove* ring = standards.circlip(list.elements[i].size.nominal, inside);
    if (ring == nullptr) {
      fault = "no circlip is listed at this diameter; give the groove its width and bottom";
      return dip;
    }
    width = ring->width;
    bottom = drawn(ring->bottom / 2.0);
  }
  if (g.kind == GrooveKind::o_ring) {
    // Static seal: 1.33 of the section wide, 0.8 deep (from memory).
    width = 1.33 * g.section;
    bottom = s.right_radius - 0.8 * g.section;
  }
  if (g.at_shoulder) {
    const Length beyond =
        i + 1 < list.surfaces.size() ? list.surfaces[i + 1].right_radius : list.beyond_left;
    const bool left_shoulder = beyond.si > s.left_radius.si + same_point;
    dip.to = left_shoulder ? s.left + width : s.right;
    dip.from = left_shoulder ? s.left : s.right - width;
  } else {
    dip.to = -g.from.value_or(Length(0.0));
    dip.from = dip.to - width;
  }
  dip.r = bottom;
  if (dip.from.si < s.left.si - same_point || dip.to.si > s.right.si + same_point)
    fault = "a groove that reaches out of its element";
  if (bottom.si >= min(s.left_radius, s.right_radius).si - same_point)
    fault = "a groove whose bottom is not below the surface";
  if (!inside && bottom.si <= same_point) fault = "a groove that cuts the part through";
  return dip;
}

const Element* add_grooves(const DrawnList& list, const Standards& standards, Outline& outline,
                           std::string& fault) {
  for (std::size_t i = 0; i < list.surfaces.size(); ++i)
    for (const Groove& g : list.elements[i].grooves) {
      const Dip dip = dip_of(list, i, g, standards, fault);
      if (!fault.empty()) return &list.elements[i];
      outline = lowered(outline, Outline::cylinder(dip.from, dip.to, dip.r), {dip.from, dip.to});
    }
  return nullptr;
}

}  // namespace

const Element* draw_outside(Job& job, const Standards& standards, std::string& fault) {
  const DrawnList list{{job.outside().begin(), job.outside().end()}, job.part.outside, {}, {}};
  if (const Element* bad = draw(job, list, standards, job.turned, fault)) return bad;
  job.finished = job.turned;
  return add_grooves(list, standards, job.finished, fault);
}

const Element* draw_bore(Job& job, Region region, const Standards& standards, std::string& fault) {
  const bool left = region == Region::bore_left;
  const auto& elements = left ? job.part.bore_left : job.part.bore_right;
  if (elements.empty()) return nullptr;
  Bore& bore = job.bores[left ? 1 : 0];
  // Seen from its mouth at z = 0, turned over.
  DrawnList list{{}, elements, inversion_radius, bore.through ? Length(0.0) : inversion_radius};
  for (Surface s : job.surfaces) {
    if (s.region != region) continue;
    if (left) {
      const Length l = s.left;
      s.left = job.left() - s.right;
      s.right = job.left() - l;
      std::swap(s.left_radius, s.right_radius);
    }
    s.left_radius = inversion_radius - s.left_radius;
    s.right_radius = inversion_radius - s.right_radius;
    list.surfaces.push_back(s);
  }
  Outline turned, finished;
  if (const Element* bad = draw(job, list, standards, turned, fault)) return bad;
  finished = turned;
  if (const Element* bad = add_grooves(list, standards, finished, fault)) return bad;
  auto stored = [&](const Outline& o) {
    Outline real = inverted(o, inversion_radius);
    if (!bore.through && !elements.back().flat) real = with_point(real, bore.drilled / 2.0);
    return left ? real.mirrored(job.left()) : real;
  };
  bore.turned = stored(turned);
  bore.finished = stored(finished);
  return nullptr;
}

// The cone that a drill leaves, 118 degrees.
Outline with_point(const Outline& hollow, Length radius) {
  std::vector<Segment> pieces{
      line(hollow.left() - point_length(radius), Length(0.0), hollow.left(), radius)};
  pieces.insert(pieces.end(), hollow.pieces().begin(), hollow.pieces().end());
  return Outline(pieces);
}
Length point_length(Length radius) { return radius / std::tan(59.0 / 180 * pi); }

Outline with_allowance(const Job& job, Length radial, Length axial) {
  // Raise the surfaces that are finished apart, then thicken along the axis by copies.
  std::vector<Segment> raised;
  for (const Segment& s : job.turned.pieces()) {
    const Length middle = (s.from.z + s.to.z) / 2.0;
    const auto outside = job.outside();
    const auto owner = std::find_if(outside.begin(), outside.end(), [&](const Surface& x) {
      return middle > x.left && middle < x.right;
    });
    Segment up = s;
    if (owner != outside.end() && owner->needs_finish())
      for (Point* p : {&up.from, &up.to, &up.centre}) p->r += radial;
    raised.push_back(up);
  }
  return thickened(Outline(raised), axial);
}

Outline bore_allowance(const Job& job, const Outline& hollow, Length radial, Length axial) {
  std::vector<Segment> raised;
  const Outline over = inverted(hollow, inversion_radius);
  bool any = false;
  for (const Segment& s : over.pieces()) {
    const Length middle = (s.from.z + s.to.z) / 2.0;
    const auto owner = std::find_if(
        job.surfaces.begin(), job.surfaces.end(),
        [&](const Surface& x) { return x.inside() && middle > x.left && middle < x.right; });
    Segment up = s;
    const bool finish = owner != job.surfaces.end() && owner->needs_finish();
    any = any || finish;
    if (finish)
      for (Point* p : {&up.from, &up.to, &up.centre}) p->r = min(p->r + radial, inversion_radius);
    raised.push_back(up);
  }
  // What is not finished apart comes to size at once, its bottom too.
  return thickened(Outline(raised), any ? axial : Length(0.0));
}

Outline spanned(const Outline& hollow, const Outline& work) {
  const Outline none = Outline::cylinder(work.left(), work.right(), Length(0.0));
  return hollow.empty() ? none
                        : combine(hollow, none, Envelope::upper).only(work.left(), work.right());
}

Outline joined(const Outline& a, const Outline& b) {
  return a.empty() ? b : combine(a, b, Envelope::upper);
}

Outline thickened(const Outline& base, Length axial) {
  if (axial.si <= 0) return base;
  Outline thick = combine(base, base.moved(axial, Length(0.0)), Envelope::upper);
  thick = combine(thick, base.moved(-axial, Length(0.0)), Envelope::upper);
  return thick.only(base.left(), base.right());
}

}  // namespace turnwright
