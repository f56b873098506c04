// SPDX-License-Identifier: MIT
#include "drawing/clamping_shapes.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/outline_shapes.hpp"

namespace turnwright {
namespace {

constexpr double edge = 1.4, thin = 0.8;

Message holder_label(const Operation& operation) {
  if (operation.mandrel) return "page.mandrel";
  if (operation.collet) return "page.collet";
  if (operation.face_plate) return "page.face-plate";
  return operation.jaws == Jaws::soft     ? "page.soft-jaws"
         : operation.jaws == Jaws::padded ? "page.padded-jaws"
                                          : "page.hard-jaws";
}

// Hatched, as what holds the work.
void draw_block(paper::Drawing& drawing, double x, double y, double wide, double high) {
  drawing.shapes.push_back({{{paper::Motion::move, x, y},
                             {paper::Motion::line, x + wide, y},
                             {paper::Motion::line, x + wide, y + high},
                             {paper::Motion::line, x, y + high},
                             {paper::Motion::close}},
                            paper::Colour::white,
                            edge});
  paper::Path hatch;
  for (double at = 8; at < wide + high; at += 8) {
    const double a = std::max(0.0, at - high), b = std::min(at, wide);
    hatch.push_back({paper::Motion::move, x + a, y + at - a});
    hatch.push_back({paper::Motion::line, x + b, y + at - b});
  }
  drawing.shapes.push_back({hatch, paper::Colour::none, thin});
}

void draw_centre(paper::Drawing& drawing, double x, int side, const Scale& scale,
                 const Words& words) {
  const double axis = scale.axis();
  drawing.shapes.push_back({{{paper::Motion::move, x - side * 4, axis},
                             {paper::Motion::line, x + side * 24, axis - 14},
                             {paper::Motion::line, x + side * 24, axis + 14},
                             {paper::Motion::close}},
                            paper::Colour::white,
                            edge});
  drawing.labels.push_back({x + side * 8, axis + 14 + jaw_label - 3, words("page.centre"),
                            side > 0 ? paper::Anchor::start : paper::Anchor::end});
}

}  // namespace

Length clamped_from(const Operation& operation) {
  return operation.support == Support::between_centres
             ? operation.before.left()
             : min(operation.before.left(), operation.grip_from);
}

void draw_bar(paper::Drawing& drawing, const Operation& operation, const Scale& scale) {
  const Length from = clamped_from(operation), to = operation.before.left();
  if (operation.mandrel || from.si > to.si - same_point) return;
  const Outline bar = Outline::cylinder(from, to, operation.grip_diameter / 2.0);
  drawing.shapes.push_back({body_path(bar, Outline(), scale), paper::Colour::body, thin});
}

void draw_jaws(paper::Drawing& drawing, const Operation& operation, const Scale& scale,
               const Words& words) {
  if (operation.support == Support::between_centres && !operation.mandrel) return;
  const double a = scale.x(operation.grip_from), b = scale.x(operation.grip_to);
  const double from = std::min(a, b), wide = std::max(std::abs(b - a), 5.0);
  const double r = scale.size(operation.grip_diameter / 2.0), axis = scale.axis();
  if (operation.mandrel) {
    draw_block(drawing, from, axis - r, wide, 2 * r);
  } else {
    draw_block(drawing, from, axis - r - jaw_height, wide, jaw_height);
    draw_block(drawing, from, axis + r, wide, jaw_height);
  }
  const double below = axis + r + (operation.mandrel ? 0 : jaw_height);
  drawing.labels.push_back(
      {from, below + jaw_label - 4, words(holder_label(operation)), paper::Anchor::start});
}

void draw_centres(paper::Drawing& drawing, const Operation& operation, bool supported,
                  const Outline& work, const Scale& scale, const Words& words) {
  if (operation.support == Support::chuck || work.empty()) return;
  const bool between = operation.support == Support::between_centres;
  const double a = scale.x(work.left()), b = scale.x(work.right());
  if (between || supported) draw_centre(drawing, std::max(a, b), 1, scale, words);
  if (between) draw_centre(drawing, std::min(a, b), -1, scale, words);
}

}  // namespace turnwright
