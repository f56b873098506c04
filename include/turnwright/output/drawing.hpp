// SPDX-License-Identifier: MIT
#pragma once
// A drawing as shapes and labels, in units of its own: written as SVG, drawn on paper or as a
// picture.
#include <string>
#include <string_view>
#include <vector>

namespace turnwright::paper {

/// Grounds of cells and fills of drawings.
enum class Colour { none, green, blue, yellow, red, black, white, shade, body, cut, ink };
/// As pages and machine levers call them; none where it is no name of a colour.
Colour colour_named(std::string_view name);
const char* name_of(Colour colour);

enum class Motion { move, line, arc, close };
/// A step of a path; y grows downwards.
struct PathStep {
  Motion motion = Motion::move;
  double x = 0, y = 0;
  double radius = 0;       // of an arc, never more than half round
  bool clockwise = false;  // as seen
};
using Path = std::vector<PathStep>;

struct Shape {
  Path path;
  Colour fill = Colour::none;
  double stroke = 0;   // width; 0: none
  bool chain = false;  // dashed as a centre line
  bool pale = false;   // a line that only leads to a label
};
enum class Anchor { start, middle, end };
struct Label {
  double x = 0, y = 0;  // of its base line
  std::string text;
  Anchor anchor = Anchor::middle;
};
struct Drawing {
  std::string label;
  double width = 0, height = 0;  // its units
  std::vector<Shape> shapes = {};
  std::vector<Label> labels = {};
  double highest = 60;  // mm on paper
  double letters = 11;  // size of labels, in its units
};

}  // namespace turnwright::paper
