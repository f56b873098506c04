// SPDX-License-Identifier: MIT
// What one element looks like: its body between edges and corners.
#include <cmath>

#include "prepare/drawn_list.hpp"

namespace turnwright {
namespace {

Segment line(Length z1, Length r1, Length z2, Length r2) {
  return {{z1, r1}, {z2, r2}, Bulge::none, {}, {}};
}
Segment rounded(Segment s, Bulge bulge, Length radius, Point centre) {
  s.bulge = bulge;
  s.radius = radius;
  s.centre = centre;
  return s;
}

class ElementProfile {
 public:
  ElementProfile(Preparation& preparation, const DrawnList& list, std::size_t i)
      : preparation_(preparation),
        list_(list),
        surface_(list.surfaces[i]),
        element_(list.elements[i]),
        index_(i),
        walls_{list.left_wall(i), list.right_wall(i)},
        left_(surface_.left),
        right_(surface_.right) {}

  std::vector<Segment> pieces() {
    for (const EdgeBreak& edge : element_.breaks) edge_break(edge);
    for (const Corner& corner : element_.corners) corner_at(corner);
    if (right_.si - left_.si < -same_point) refuse(element_.at, "prepare.edges-too-long");
    std::vector<Segment> all = std::move(left_end_);
    if (right_.si - left_.si > same_point) all.push_back(body());
    all.insert(all.end(), right_end_.begin(), right_end_.end());
    return all;
  }

 private:
  void refuse(Position at, Message what, Message expected = "prepare.expect-size-that-fits") {
    preparation_.refuse(at, std::move(what), std::move(expected));
  }
  bool flat() const {
    return std::abs(surface_.left_radius.si - surface_.right_radius.si) < same_point &&
           element_.kind != ElementKind::arc;
  }
  Length radius(bool left) const { return left ? surface_.left_radius : surface_.right_radius; }
  Length wall(bool left) const { return left ? walls_.left : walls_.right; }
  Length outer(bool left) const { return left ? surface_.left : surface_.right; }
  // A piece at one end, given from its outer to its inner point; the body gives way to it.
  void add(bool left, Point outer, Point inner, Bulge bulge = Bulge::none, Length radius = {},
           Point centre = {}) {
    const Point from = left ? outer : inner, to = left ? inner : outer;
    (left ? left_end_ : right_end_)
        .push_back(rounded(line(from.z, from.r, to.z, to.r), bulge, radius, centre));
    (left ? left_ : right_) = inner.z;
  }

  Segment body() const {
    if (element_.kind == ElementKind::arc) {
      const Segment whole = arc_between(
          {surface_.left, surface_.left_radius}, {surface_.right, surface_.right_radius},
          element_.radius, element_.hollow != list_.flipped() ? Bulge::in : Bulge::out);
      return between(whole, left_, right_);
    }
    const Segment whole =
        line(surface_.left, surface_.left_radius, surface_.right, surface_.right_radius);
    return between(whole, left_, right_);
  }
  static Length height_of(const EdgeBreak& edge) {
    return edge.round ? edge.width : edge.width * std::tan(edge.angle.si);
  }
  void edge_break(const EdgeBreak& edge) {
    const bool left = edge.side == Side::left;
    const Length r = radius(left);
    const Length height = height_of(edge), step = r - wall(left);
    if (!flat() && edge.round) refuse(edge.at, "prepare.round-on-slope");
    if (height.si > step.si + same_point)
      refuse(edge.at, {"prepare.edge-too-high", {{"height", height}, {"step", step}}});
    const Length end = left ? outer(left) + edge.width : outer(left) - edge.width;
    const Point low{outer(left), r - height}, high{end, flat() ? r : radius_at(body(), end)};
    if (edge.round)
      add(left, low, high, Bulge::out, edge.width, {end, r - edge.width});
    else
      add(left, low, high);
  }
  void corner_at(const Corner& corner) {
    const bool left = corner.side == Side::left;
    if (!flat())
      refuse(corner.at, "prepare.corner-on-slope");
    else if (corner.kind == CornerKind::fillet)
      fillet(corner, left);
    else
      relief(corner, left);
  }
  // What the broken edge of the shoulder beside it takes of the wall.
  Length broken_beside(bool left) const {
    if (left ? index_ + 1 >= list_.elements.size() : index_ == 0) return Length(0.0);
    for (const EdgeBreak& edge : list_.elements[left ? index_ + 1 : index_ - 1].breaks)
      if ((edge.side == Side::left) != left) return height_of(edge);
    return Length(0.0);
  }
  void fillet(const Corner& corner, bool left) {
    const Length r = radius(left);
    const Length height = wall(left) - r - broken_beside(left);
    if (corner.radius.si > height.si + same_point)
      refuse(corner.at,
             {"prepare.fillet-too-large", {{"radius", corner.radius}, {"height", height}}});
    const Length end = left ? outer(left) + corner.radius : outer(left) - corner.radius;
    add(left, {outer(left), r + corner.radius}, {end, r}, Bulge::in, corner.radius,
        {end, r + corner.radius});
  }
  void relief(const Corner& corner, bool left) {
    const Standards& standards = preparation_.shop.standards;
    const ReliefSize* size = standards.relief(2.0 * list_.turned(surface_.left_radius));
    if (size == nullptr) {
      return refuse(corner.at, "prepare.no-relief-listed");
    }
    const Length r = radius(left), depth = corner.depth.si > 0 ? corner.depth : size->depth;
    // DIN 509: the bottom runs out at 15 degrees.
    const Length ramp = depth / std::tan(pi / 12);
    const double sign = left ? 1 : -1;
    const Point floor{outer(left), r - depth},
        floor_end{outer(left) + sign * (size->width - ramp), r - depth},
        end{outer(left) + sign * size->width, r};
    if (left) {
      add(left, floor, floor_end);
      add(left, floor_end, end);
    } else {
      add(left, floor_end, end);
      add(left, floor, floor_end);
      right_ = end.z;
    }
    if (corner.kind == CornerKind::relief_f) wedge(*size, outer(left), r - depth);
  }
  // Into the shoulder: a wedge g high and t2 deep, turned about the axis.
  void wedge(const ReliefSize& size, Length at, Length floor) {
    const Area section = size.face_height * size.face_depth / 2.0;
    const Length middle = floor + size.face_height / 3.0;
    Job& job = preparation_.job;
    const Length z = surface_.region == Region::bore_left ? job.left() - at : at;
    job.features.push_back({{"feature.relief-f", {{"surface", surface_.name}}},
                            2.0 * pi * list_.turned(middle) * section,
                            z,
                            true});
  }

  struct Walls {
    Length left{}, right{};
  };
  Preparation& preparation_;
  const DrawnList& list_;
  const Surface& surface_;
  const Element& element_;
  std::size_t index_;
  const Walls walls_;
  Length left_{}, right_{};  // of the body
  std::vector<Segment> left_end_, right_end_;
};

}  // namespace

std::vector<Segment> pieces_of(Preparation& p, const DrawnList& list, std::size_t i) {
  return ElementProfile(p, list, i).pieces();
}

}  // namespace turnwright
