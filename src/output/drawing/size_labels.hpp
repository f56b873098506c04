// SPDX-License-Identifier: MIT
#pragma once
// Sizes written beside a drawing, row over row, each in the nearest row where it has room.
#include <string>
#include <vector>

#include "turnwright/output/drawing.hpp"

namespace turnwright {

inline constexpr double label_letters = 13, label_row = 18;

struct SizeLabel {
  std::string text;
  double x = 0, y = 0;  // what it points to
  double middle = 0;    // of the text
  std::size_t row = 0;
};

/// Sets middles and rows on a drawing of this width; how many rows there are.
std::size_t put_in_rows(std::vector<SizeLabel>& labels, double width);

/// Texts in rows from `base` on, `step` apart, each with a line to what it means.
void draw_labels(paper::Drawing& drawing, const std::vector<SizeLabel>& labels, double base,
                 double step);

}  // namespace turnwright
