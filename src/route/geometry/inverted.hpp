// SPDX-License-Identifier: MIT
#pragma once
// A void inverted, so that a bar cuts it by the rules of the outside.
#include <utility>
#include <vector>

#include "geometry/profile.hpp"

namespace turnwright {

/// r stands for `inversion_radius` - r: where the void is widest, the body is thinnest. What is
/// solid has the inversion radius itself.
class InvertedBody {
 public:
  /// Of a void, over the whole length that it spans.
  static InvertedBody of(const Outline& hollow) {
    return InvertedBody(inverted(hollow, inversion_radius));
  }
  /// An outline that was drawn inverted.
  explicit InvertedBody(Outline shape) : shape_(std::move(shape)) {}

  const Outline& shape() const { return shape_; }
  Outline hollow() const { return inverted(shape_, inversion_radius); }
  /// The real radius at one of the body.
  static Length radius(Length inverted_radius) { return inversion_radius - inverted_radius; }

 private:
  Outline shape_;
};

inline InvertedBody lower_of(const InvertedBody& a, const InvertedBody& b) {
  return InvertedBody(combine(a.shape(), b.shape(), Envelope::lower));
}
inline std::vector<Interval> where_above(const InvertedBody& high, const InvertedBody& low) {
  return where_above(high.shape(), low.shape());
}

}  // namespace turnwright
