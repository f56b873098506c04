// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "html/drawing.hpp"
#include "html/outline_path.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

constexpr double jaw = 26;           // its height
constexpr double label_height = 18;  // under it

Message holder_label(const Operation& operation) {
  if (operation.mandrel) return "page.mandrel";
  if (operation.collet) return "page.collet";
  if (operation.face_plate) return "page.face-plate";
  return operation.jaws == Jaws::soft     ? "page.soft-jaws"
         : operation.jaws == Jaws::padded ? "page.padded-jaws"
                                          : "page.hard-jaws";
}

void draw_jaws(PageWriter& page, const Operation& operation, const Scale& scale) {
  Markup& m = page.markup();
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
  } else {
    return;
  }
  picture_text(m, from, scale.axis() + r + (operation.mandrel ? 0 : jaw) + label_height - 4,
               page.words()(holder_label(operation)), "start");
}

void draw_centre(PageWriter& page, double x, int side, const Scale& scale) {
  Markup& m = page.markup();
  m.shape("path", {{"class", "jaw"},
                   {"d", "M" + px(x - side * 4) + " " + px(scale.axis()) + "l" + px(side * 26) +
                             " -13v26z"}});
  picture_text(m, x + side * 8, scale.axis() + 13 + label_height - 2, page.words()("page.centre"),
               side > 0 ? "start" : "end");
}

// Centres point into the ends: the tailstock's at the free end, the other at the driver.
void draw_centres(PageWriter& page, const Operation& operation, bool supported, const Outline& work,
                  const Scale& scale) {
  const bool between = operation.support == Support::between_centres;
  const double a = scale.x(work.left()), b = scale.x(work.right());
  if (between || (operation.support == Support::chuck_and_centre && supported))
    draw_centre(page, std::max(a, b), 1, scale);
  if (between) draw_centre(page, std::min(a, b), -1, scale);
}

Message label_of(const Operation& operation, const Step& step) {
  return {"page.step-drawing",
          {{"step", step_label(operation, step)},
           {"work", word_of(step.kind)},
           {"from", measure(-step.to, unit::mm)},
           {"to", measure(-step.from, unit::mm)}}};
}

// Work before and after, what lies between shaded.
struct Change {
  const Outline &before, &hollow_before, &after, &hollow_after;
  bool supported = false;  // by the centre, where the operation has one
};

void draw_change(PageWriter& page, const Operation& operation, const Change& change,
                 const Message& label) {
  Markup& m = page.markup();
  Scale scale(operation.before.left(), operation.before.right(), operation.before.largest(),
              drawing_width - 150, 180);
  if (operation.from_left) scale = scale.turned_round();
  begin_picture(m, drawing_width, 2 * scale.axis() + 2 * jaw + label_height + 8,
                page.words()(label));
  m.open("g", {{"transform", "translate(0 " + px(jaw + 4) + ")"}});
  draw_body(m, change.before, change.hollow_before, scale, "cut");
  draw_body(m, change.after, change.hollow_after, scale, "body edge");
  draw_jaws(page, operation, scale);
  draw_centres(page, operation, change.supported,
               change.after.empty() ? change.before : change.after, scale);
  draw_axis(m, scale);
  m.close();
  m.close();
}

}  // namespace

void draw_operation_whole(PageWriter& page, const Operation& operation) {
  draw_change(
      page, operation,
      {operation.before, operation.hollow_before, operation.after, operation.hollow_after, true},
      {"page.operation-drawing", {{"op", operation_label(operation)}}});
}

void draw_step(PageWriter& page, const Operation& operation, std::size_t k) {
  const Step& step = operation.steps[k];
  draw_change(
      page, operation,
      {k == 0 ? operation.before : operation.steps[k - 1].work_after,
       k == 0 ? operation.hollow_before : operation.steps[k - 1].hollow_after, step.work_after,
       step.hollow_after, step.kind != StepKind::face && step.kind != StepKind::centre},
      label_of(operation, step));
}

}  // namespace turnwright
