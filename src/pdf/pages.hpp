// SPDX-License-Identifier: MIT
#pragma once
// A document broken into pages.
#include "boxes.hpp"

namespace turnwright::pdf {

struct Sheet {
  double width = 0, height = 0, margin = 0, foot = 0;
  double inner_width() const { return width - 2 * margin; }
  double bottom() const { return height - margin - foot; }
};
Sheet sheet_of(const paper::Paper& paper);

/// Shrunk as far as it may where that saves pages. The boxes point into the document.
std::vector<Box> pages_of(const paper::Paper& paper, const Typesetter& type);

}  // namespace turnwright::pdf
