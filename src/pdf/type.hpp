// SPDX-License-Identifier: MIT
#pragma once
// Text set in lines. All lengths here and in what is made of it are points, y downwards.
#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <vector>

#include "turnwright/output/paper.hpp"

namespace turnwright::pdf {

inline constexpr double mm = 72 / 25.4;

enum class Side { left, middle, right };

struct Look {
  double points = 10;
  bool bold = false, italic = false;
};

using Lines = std::shared_ptr<PangoLayout>;

class Typesetter {
 public:
  explicit Typesetter(const std::string& language);
  bool has_fonts() const;
  /// Broken into lines of a width; below 0: one line.
  Lines set(const std::string& text, const Look& look, double width = -1,
            Side side = Side::left) const;
  /// Of the longest word.
  double least_width(const std::string& text, const Look& look) const;

 private:
  std::shared_ptr<PangoFontMap> fonts_;
  std::shared_ptr<PangoContext> context_;
};

/// A line of a text set: where it stands in the text, without what breaks it, and how high.
struct Line {
  std::size_t from = 0, to = 0;  // bytes of text_in
  double top = 0, bottom = 0;
};
std::vector<Line> each_of(const Lines& lines);
/// As it was set, which is valid whatever was given.
std::string text_in(const Lines& lines);

double width_of(const Lines& lines);
double height_of(const Lines& lines);
/// From the top to the first base line.
double base_of(const Lines& lines);

}  // namespace turnwright::pdf
