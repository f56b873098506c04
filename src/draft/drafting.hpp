// SPDX-License-Identifier: MIT
#pragma once
// A draft in the making.
#include <string>
#include <vector>

#include "turnwright/draft/draft.hpp"
#include "turnwright/part/part.hpp"

namespace turnwright {

/// Two sizes closer than this are one: what a model's points are good for.
inline constexpr double same_size = 2e-7;  // m
inline bool same(Length a, Length b) { return a.si - b.si < same_size && b.si - a.si < same_size; }

/// Numbers as a drawing has them, in its unit.
class Numbers {
 public:
  explicit Numbers(bool inch) : inch_(inch) {}
  /// Places and lengths: to a thousandth of a millimetre, a ten-thousandth of an inch.
  std::string place(Length l) const;
  /// Diameters and radii, one digit finer: what cones end in.
  std::string size(Length l) const;
  static std::string degrees(double radians);

 private:
  bool inch_;
};

/// A contour: the outside, or a bore seen from its mouth.
struct ContourRuns {
  std::vector<ModelRun> runs;
  Region region = Region::outside;
  bool through = false;  // the last element of a bore goes out at the other end
  bool flat = false;     // a blind bore without a point
  bool inside() const { return region != Region::outside; }
};

/// Its elements, and what is to be confirmed of them.
struct ContourDraft {
  std::vector<std::string> elements;
  Messages to_confirm;
  int diameters = 0;  // cylinders
};
ContourDraft elements_of(const ContourRuns& contour, const Recognition& model, DraftDetail detail);

/// The void's contours from both faces, and what of it no tool reaches.
struct Bores {
  ContourRuns right, left;
  Messages to_confirm;
};
Bores bores_of(const Recognition& model);
/// Without stretches that rounding left empty.
std::vector<ModelRun> drawn_runs(const std::vector<ModelRun>& runs);

/// The flats that are drawn as an element of the outside, not milled: nothing when there are none.
const ModelFeature* polygon_of_stock(const Recognition& model);

/// Recesses of the end faces; others are other work.
void draft_recesses(const Recognition& model, const Numbers& numbers, Draft& draft);

/// "M8", where a hole of this diameter is usually tapped, or a shaft threaded; "" otherwise.
std::string tapped_in(Length hole);
std::string threaded_on(Length shaft);

}  // namespace turnwright
