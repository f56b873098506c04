// SPDX-License-Identifier: MIT
#include "profile.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

Segment line(Length z1, Length r1, Length z2, Length r2) {
  return {{z1, r1}, {z2, r2}, Bulge::none, {}, {}};
}

// One element's pieces from left to right.
class ElementProfile {
 public:
  ElementProfile(Job& job, std::size_t i, const Standards& standards)
      : job_(job), surface_(job.surfaces[i]), element_(job.part.outside[i]), standards_(standards) {
    left_wall_ = i + 1 < job.surfaces.size() ? job.surfaces[i + 1].right_radius : Length(0.0);
    right_wall_ = i > 0 ? job.surfaces[i - 1].left_radius : Length(0.0);
    left_ = surface_.left;
    right_ = surface_.right;
  }

  std::string fault;

  std::vector<Segment> pieces() {
    std::vector<Segment> left_end, right_end;
    for (const EdgeBreak& edge : element_.breaks) edge_break(edge, left_end, right_end);
    for (const Corner& corner : element_.corners) corner_at(corner, left_end, right_end);
    if (right_.si - left_.si < -touch) fault = "edges and corners are longer than the element";
    std::vector<Segment> all = std::move(left_end);
    if (right_.si - left_.si > touch) all.push_back(body());
    all.insert(all.end(), right_end.begin(), right_end.end());
    return all;
  }

 private:
  bool flat() const {
    return std::abs(surface_.left_radius.si - surface_.right_radius.si) < touch &&
           element_.kind != ElementKind::arc;
  }
  Length radius(bool left) const { return left ? surface_.left_radius : surface_.right_radius; }

  Segment body() const {
    if (element_.kind == ElementKind::arc) {
      const Segment whole = arc_between({surface_.left, surface_.left_radius},
                                        {surface_.right, surface_.right_radius}, element_.radius,
                                        element_.hollow ? Bulge::in : Bulge::out);
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
    if (height.si > (r - wall).si + touch)
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
    if (corner.radius.si > (wall - r).si + touch) fault = "a fillet larger than its shoulder";
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
    const ReliefSize* size = standards_.relief(surface_.diameter());
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
    job_.features.push_back({"relief F at " + surface_.name, 2.0 * pi * middle * wedge, outer});
  }

  Job& job_;
  const Surface& surface_;
  const Element& element_;
  const Standards& standards_;
  Length left_wall_{}, right_wall_{}, left_{}, right_{};
};

// A groove as a dip: its place and bottom radius.
struct Dip {
  Length from{}, to{}, r{};
};

Dip dip_of(const Job& job, std::size_t i, const Groove& g, const Standards& standards,
           std::string& fault) {
  const Surface& s = job.surfaces[i];
  Dip dip;
  Length width = g.width;
  Length bottom = g.bottom ? *g.bottom / 2.0 : g.depth ? s.right_radius - *g.depth : s.right_radius;
  if (g.kind == GrooveKind::circlip) {
    const CirclipGroove* ring = standards.circlip(job.part.outside[i].size.nominal);
    if (ring == nullptr) {
      fault = "no circlip is listed at this diameter; give the groove its width and bottom";
      return dip;
    }
    width = ring->width;
    bottom = ring->bottom / 2.0;
  }
  if (g.at_shoulder) {
    const bool left_shoulder = i + 1 < job.surfaces.size() &&
                               job.surfaces[i + 1].right_radius.si > s.left_radius.si + touch;
    dip.to = left_shoulder ? s.left + width : s.right;
    dip.from = left_shoulder ? s.left : s.right - width;
  } else {
    dip.to = -g.from.value_or(Length(0.0));
    dip.from = dip.to - width;
  }
  dip.r = bottom;
  if (dip.from.si < s.left.si - touch || dip.to.si > s.right.si + touch)
    fault = "a groove that reaches out of its element";
  if (bottom.si >= min(s.left_radius, s.right_radius).si - touch)
    fault = "a groove whose bottom is not below the surface";
  return dip;
}

}  // namespace

const Element* draw_profiles(Job& job, const Standards& standards, std::string& fault) {
  std::vector<Segment> pieces;
  for (std::size_t i = job.surfaces.size(); i-- > 0;) {
    ElementProfile profile(job, i, standards);
    const auto own = profile.pieces();
    if (!profile.fault.empty()) {
      fault = profile.fault;
      return &job.part.outside[i];
    }
    pieces.insert(pieces.end(), own.begin(), own.end());
  }
  job.turned = Outline(pieces);
  job.finished = job.turned;
  for (std::size_t i = 0; i < job.surfaces.size(); ++i)
    for (const Groove& g : job.part.outside[i].grooves) {
      if (g.kind == GrooveKind::o_ring) continue;
      const Dip dip = dip_of(job, i, g, standards, fault);
      if (!fault.empty()) return &job.part.outside[i];
      job.finished =
          lowered(job.finished, Outline::cylinder(dip.from, dip.to, dip.r), {dip.from, dip.to});
    }
  return nullptr;
}

Outline with_allowance(const Job& job, Length radial, Length axial) {
  // Raise the surfaces that are finished apart, then thicken along the axis by copies.
  std::vector<Segment> raised;
  for (const Segment& s : job.turned.pieces()) {
    const Length middle = (s.from.z + s.to.z) / 2.0;
    const auto owner =
        std::find_if(job.surfaces.begin(), job.surfaces.end(),
                     [&](const Surface& x) { return middle > x.left && middle < x.right; });
    Segment up = s;
    if (owner != job.surfaces.end() && owner->needs_finish())
      for (Point* p : {&up.from, &up.to, &up.centre}) p->r += radial;
    raised.push_back(up);
  }
  Outline base(raised);
  if (axial.si <= 0) return base;
  Outline thick = combine(base, base.moved(axial, Length(0.0)), Take::upper);
  thick = combine(thick, base.moved(-axial, Length(0.0)), Take::upper);
  return thick.only(base.left(), base.right());
}

}  // namespace turnwright
