// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "shown.hpp"
#include "turnwright/document/reader.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright {

std::string padded(std::string text, std::size_t width, bool right) {
  const std::size_t n = characters(text);
  if (n >= width) return text;
  const std::string blanks(width - n, ' ');
  return right ? blanks + text : text + blanks;
}

// The upper half above the axis and its mirror image, left end at the left.
std::string sketch(const Job& job, int width) {
  const double length = job.part.overall.si, top = job.finished.largest().si;
  const int columns = std::max(20, width);
  // A character is about twice as high as wide.
  const int rows = std::clamp(static_cast<int>(std::lround(top / length * columns / 2)), 2, 9);
  std::vector<int> height(static_cast<std::size_t>(columns));
  for (int i = 0; i < columns; ++i) {
    const double z = -length + length * (i + 0.5) / columns;
    const double r = job.finished.left_of(Length(z)).si;
    height[static_cast<std::size_t>(i)] =
        std::max(1, static_cast<int>(std::lround(r / top * rows)));
  }
  std::string text;
  for (int row = rows; row >= -rows; --row) {
    std::string line = "  ";
    for (int i = 0; i < columns; ++i) {
      const int h = height[static_cast<std::size_t>(i)];
      if (row == 0)
        line += i % 4 == 3 ? ' ' : '-';
      else
        line += std::abs(row) == h ? '=' : std::abs(row) < h ? '.' : ' ';
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();
    text += line + "\n";
  }
  return text;
}

}  // namespace turnwright
