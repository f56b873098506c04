// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "html/drawing.hpp"
#include "html/outline_path.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

constexpr double jaw = 26;  // its height

void draw_jaws(Markup& m, const Operation& operation, const Scale& scale) {
  const double a = scale.x(operation.grip_from), b = scale.x(operation.grip_to);
  const double from = std::min(a, b), wide = std::max(std::abs(b - a), 4.0);
  const double r = scale.size(operation.grip_diameter / 2.0);
  auto block = [&](double y, double high) {
    m.shape("rect", {{"class", "jaw"},
                     {"x", px(from)},
                     {"y", px(y)},
                     {"width", px(wide)},
                     {"height", px(high)}});
  };
  if (operation.mandrel) {
    block(scale.axis() - r, 2 * r);
  } else if (operation.support != Support::between_centres) {
    block(scale.axis() - r - jaw, jaw);
    block(scale.axis() + r, jaw);
  }
}

void draw_centre(Markup& m, double x, int side, const Scale& scale) {
  m.shape("path", {{"class", "jaw"},
                   {"d", "M" + px(x - side * 4) + " " + px(scale.axis()) + "l" + px(side * 26) +
                             " -13v26z"}});
}

// Centres point into the ends: the tailstock's at the free end, the other at the driver.
void draw_centres(Markup& m, const Operation& operation, const Step& step, const Outline& work,
                  const Scale& scale) {
  const bool supported = step.kind != StepKind::face && step.kind != StepKind::centre;
  const bool between = operation.support == Support::between_centres;
  const double a = scale.x(work.left()), b = scale.x(work.right());
  if (between || (operation.support == Support::chuck_and_centre && supported))
    draw_centre(m, std::max(a, b), 1, scale);
  if (between) draw_centre(m, std::min(a, b), -1, scale);
}

Message label_of(const Operation& operation, const Step& step) {
  return {"page.step-drawing",
          {{"step", step_label(operation, step)},
           {"work", word_of(step.kind)},
           {"from", measure(-step.to, unit::mm)},
           {"to", measure(-step.from, unit::mm)}}};
}

}  // namespace

void draw_step(PageWriter& page, const Operation& operation, std::size_t k) {
  Markup& m = page.markup();
  const Step& step = operation.steps[k];
  const Outline& before = k == 0 ? operation.before : operation.steps[k - 1].work_after;
  const Outline& hollow = k == 0 ? operation.hollow_before : operation.steps[k - 1].hollow_after;
  Scale scale(operation.before.left(), operation.before.right(), operation.before.largest(),
              drawing_width - 130, 200);
  if (operation.from_left) scale = scale.turned_round();
  begin_picture(m, drawing_width, 2 * scale.axis() + 2 * jaw + 8,
                page.words()(label_of(operation, step)));
  m.open("g", {{"transform", "translate(0 " + px(jaw + 4) + ")"}});
  draw_body(m, before, hollow, scale, "cut");
  draw_body(m, step.work_after, step.hollow_after, scale, "body edge");
  draw_jaws(m, operation, scale);
  draw_centres(m, operation, step, step.work_after.empty() ? before : step.work_after, scale);
  draw_axis(m, scale);
  m.close();
  m.close();
}

}  // namespace turnwright
