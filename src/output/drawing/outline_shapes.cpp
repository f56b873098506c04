// SPDX-License-Identifier: MIT
#include "drawing/outline_shapes.hpp"

#include <algorithm>

namespace turnwright {
namespace {

// Grows a path above the axis, and gives it with its mirror image.
class Half {
 public:
  explicit Half(const Scale& scale) : scale_(scale) {}

  void move(Length z, Length r) { add(paper::Motion::move, z, r); }
  void line(Length z, Length r) { add(paper::Motion::line, z, r); }
  void piece(const Segment& s) {
    if (s.bulge == Bulge::none) return line(s.to.z, s.to.r);
    add(paper::Motion::arc, s.to.z, s.to.r);
    path_.back().radius = scale_.size(s.radius);
    // z grows along the path; "out" bends away from the axis, which is up on the picture.
    path_.back().clockwise = (s.bulge == Bulge::out) != scale_.is_turned_round();
  }
  void cut(const Cut& c) {
    move(c.from, c.outer);
    line(c.to, c.outer);
    line(c.to, c.inner);
    line(c.from, c.inner);
    path_.push_back({paper::Motion::close});
  }
  paper::Path both() const {
    paper::Path both = path_;
    for (paper::PathStep step : path_) {
      step.y = 2 * scale_.axis() - step.y;
      step.clockwise = !step.clockwise;
      both.push_back(step);
    }
    return both;
  }

 private:
  void add(paper::Motion motion, Length z, Length r) {
    path_.push_back({motion, scale_.x(z), scale_.y(r)});
  }

  const Scale& scale_;
  paper::Path path_;
};

// Open along the axis: the fill closes it, and no edge is drawn there.
void add_half(Half& half, const Outline& outline) {
  bool open = false;
  Length end{};
  auto close = [&] {
    if (open) half.line(end, Length(0.0));
    open = false;
  };
  for (const Segment& s : outline.pieces()) {
    if (s.from.r.si < same_point && s.to.r.si < same_point) {
      close();
      continue;
    }
    if (!open) half.move(s.from.z, Length(0.0));
    open = true;
    half.line(s.from.z, s.from.r);
    half.piece(s);
    end = s.to.z;
  }
  close();
}

Length left_in(const Outline& o, Length z) { return o.empty() ? Length(0.0) : o.left_of(z); }
Length right_in(const Outline& o, Length z) { return o.empty() ? Length(0.0) : o.right_of(z); }

// The face at z, where what is drawn jumps there and the other does not stand in it.
void add_face(Half& half, const Outline& drawn, const Outline& other, Envelope where, Length z) {
  const Length left = left_in(drawn, z), right = right_in(drawn, z);
  Length low = min(left, right), high = max(left, right);
  const bool lower = where == Envelope::lower;
  // On the side that the face looks to.
  const bool looks_right = lower ? right < left : right > left;
  const Length there = looks_right ? right_in(other, z) : left_in(other, z);
  if (lower)
    high = min(high, there);
  else
    low = max(low, there);
  if ((high - low).si <= same_point) return;
  half.move(z, low);
  half.line(z, high);
}

}  // namespace

paper::Path body_path(const Outline& outside, const Outline& hollow, const Scale& scale,
                      const std::vector<Cut>& cuts) {
  Half half(scale);
  add_half(half, outside);
  add_half(half, hollow);
  for (const Cut& c : cuts) half.cut(c);
  return half.both();
}

paper::Path new_path(const Outline& drawn, const Outline& other, Envelope where,
                     const Scale& scale) {
  Half half(scale);
  if (drawn.empty()) return {};
  const Outline none = Outline::cylinder(drawn.left(), drawn.right(), Length(0.0));
  const Outline& against = other.empty() ? none : other;
  const bool lower = where == Envelope::lower;
  for (const Interval& i : lower ? where_above(against, drawn) : where_above(drawn, against))
    for (const Segment& s : drawn.pieces()) {
      const Length from = max(i.from, s.from.z), to = min(i.to, s.to.z);
      if ((to - from).si <= same_point) continue;
      const Segment part = between(s, from, to);
      if (part.from.r.si < same_point && part.to.r.si < same_point) continue;
      half.move(part.from.z, part.from.r);
      half.piece(part);
    }
  add_face(half, drawn, against, where, drawn.left());
  for (const Segment& s : drawn.pieces()) add_face(half, drawn, against, where, s.to.z);
  return half.both();
}

paper::Shape axis_shape(const Scale& scale, double before, double behind) {
  return {{{paper::Motion::move, scale.left() - before, scale.axis()},
           {paper::Motion::line, scale.right() + behind, scale.axis()}},
          paper::Colour::none,
          0.8,
          true};
}

}  // namespace turnwright
