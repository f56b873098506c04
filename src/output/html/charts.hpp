// SPDX-License-Identifier: MIT
#pragma once
// The few charts of the page, as SVG; beside each stands a table with its numbers.
#include <string>
#include <vector>

#include "html/page_writer.hpp"

namespace turnwright {

/// A piece of a bar: its length, its colour (0 to 7), what it is in the reader's words.
struct BarPiece {
  double length = 0;
  int colour = 0;
  std::string name;
  bool hatched = false;
};
struct Bar {
  std::string name;
  std::vector<BarPiece> pieces;
};
/// Bars beneath each other, all to one scale, with the whole at the end of each.
void draw_bars(PageWriter& page, const std::vector<Bar>& bars, const Message& label,
               const std::string& unit);

struct Curve {
  std::string name;
  std::vector<double> x, y;
  int colour = 0;
  bool marked = false;  // points only
};
/// Curves over a logarithmic quantity, as wide as the page or beside a table.
inline constexpr double whole_width = 940, beside_width = 350;
void draw_curves(PageWriter& page, const std::vector<Curve>& curves, const Message& label,
                 const std::string& unit, double width = whole_width);

}  // namespace turnwright
