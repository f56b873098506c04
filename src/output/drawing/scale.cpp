// SPDX-License-Identifier: MIT
#include "drawing/scale.hpp"

#include <algorithm>

namespace turnwright {

Scale::Scale(Length left, Length right, Length largest, double width, double height, double drawing)
    : left_(left.si), right_(right.si) {
  factor_ = std::min(width / (right_ - left_), height / (2 * largest.si));
  margin_ = (drawing - (right_ - left_) * factor_) / 2;
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

}  // namespace turnwright
