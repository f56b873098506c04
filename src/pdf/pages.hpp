// SPDX-License-Identifier: MIT
#pragma once
// A document broken into pages.
#include <stdexcept>

#include "boxes.hpp"

namespace turnwright::pdf {

struct Sheet {
  double width = 0, height = 0, margin = 0, foot = 0;
  double inner_width() const { return width - 2 * margin; }
  double bottom() const { return height - margin - foot; }
};
Sheet sheet_of(const paper::Paper& paper);

/// What may not be parted, a row or a drawing, leaves the sheet at any size that it may have.
struct HigherThanAPage : std::runtime_error {
  HigherThanAPage() : std::runtime_error("higher than a page") {}
};

/// Shrunk as far as it may where that saves pages. The boxes point into the document. Throws
/// HigherThanAPage.
std::vector<Box> pages_of(const paper::Paper& paper, const Typesetter& type);

}  // namespace turnwright::pdf
