// SPDX-License-Identifier: MIT
#include "html/outline_path.hpp"

#include <algorithm>

#include "html/page_writer.hpp"

namespace turnwright {
namespace {

// The half above the axis as it grows, left open along the axis: the fill closes it, and no edge is
// drawn there.
class HalfPath {
 public:
  explicit HalfPath(const Scale& scale) : scale_(scale) {}
  void add(const Segment& segment) {
    if (segment.from.r.si < same_point && segment.to.r.si < same_point) return close();
    if (!open_) to('M', {segment.from.z, Length(0.0)});
    open_ = true;
    to('L', segment.from);
    if (segment.bulge == Bulge::none)
      to('L', segment.to);
    else
      arc(segment);
    end_ = segment.to.z;
  }
  std::string take() {
    close();
    return std::move(d_);
  }

 private:
  void to(char command, const Point& p) {
    d_ += command + px(scale_.x(p.z)) + " " + px(scale_.y(p.r));
  }
  void arc(const Segment& segment) {
    // z grows along the path; "out" bends away from the axis, which is up on the picture.
    const bool clockwise = (segment.bulge == Bulge::out) != scale_.is_turned_round();
    const std::string r = px(scale_.size(segment.radius));
    d_.append("A").append(r).append(" ").append(r).append(clockwise ? " 0 0 1 " : " 0 0 0 ");
    d_.append(px(scale_.x(segment.to.z))).append(" ").append(px(scale_.y(segment.to.r)));
  }
  void close() {
    if (open_) d_ += "L" + px(scale_.x(end_)) + " " + px(scale_.axis());
    open_ = false;
  }

  const Scale& scale_;
  std::string d_;
  Length end_{};
  bool open_ = false;
};

void draw_half(Markup& m, Markup::Attributes attributes) {
  attributes.emplace_back("fill-rule", "evenodd");
  m.shape("path", attributes);
}

}  // namespace

Scale::Scale(Length left, Length right, Length largest, double width, double height)
    : left_(left.si), right_(right.si) {
  factor_ = std::min(width / (right_ - left_), height / (2 * largest.si));
  margin_ = (drawing_width - (right_ - left_) * factor_) / 2;
  axis_ = largest.si * factor_;
}
double Scale::x(Length z) const {
  return margin_ + (turned_ ? right_ - z.si : z.si - left_) * factor_;
}
double Scale::y(Length r) const { return axis_ - r.si * factor_; }
double Scale::right() const { return margin_ + (right_ - left_) * factor_; }
Scale Scale::turned_round() const {
  Scale s = *this;
  s.turned_ = !turned_;
  return s;
}

std::string half_path(const Outline& outline, const Scale& scale) {
  HalfPath path(scale);
  for (const Segment& segment : outline.pieces()) path.add(segment);
  return path.take();
}

void draw_body(Markup& m, const Outline& outside, const Outline& hollow, const Scale& scale,
               const char* kind, const std::string& cuts) {
  const std::string half =
      half_path(outside, scale) + (hollow.empty() ? "" : half_path(hollow, scale)) + cuts;
  draw_half(m, {{"class", kind}, {"d", half}});
  // The mirror image below the axis is the same path again.
  draw_half(m, {{"class", kind},
                {"d", half},
                {"transform", "matrix(1 0 0 -1 0 " + px(2 * scale.axis()) + ")"}});
}

void draw_axis(Markup& m, const Scale& s) {
  m.shape("path", {{"class", "axis"},
                   {"d", "M" + px(s.left() - 14) + " " + px(s.axis()) + "H" + px(s.right() + 14)}});
}

}  // namespace turnwright
