// SPDX-License-Identifier: MIT
// What is laid out, drawn.
#include <array>
#include <cmath>

#include "boxes.hpp"
#include "turnwright/output/palette.hpp"

namespace turnwright::pdf {
namespace {

void set(cairo_t* cairo, unsigned rgb) {
  cairo_set_source_rgb(cairo, (rgb >> 16 & 0xff) / 255.0, (rgb >> 8 & 0xff) / 255.0,
                       (rgb & 0xff) / 255.0);
}

// An arc of SVG: from here to there with a radius, never more than half round.
void arc_to(cairo_t* cairo, const paper::PathStep& step) {
  double x0 = 0, y0 = 0;
  cairo_get_current_point(cairo, &x0, &y0);
  const double dx = step.x - x0, dy = step.y - y0, chord = std::hypot(dx, dy);
  if (chord <= 0) return;
  const double radius = std::max(step.radius, chord / 2);
  const double rise = std::sqrt(std::max(radius * radius - chord * chord / 4, 0.0));
  const double side = step.clockwise ? 1 : -1;  // of the chord on which the centre is
  const double cx = (x0 + step.x) / 2 - side * rise * dy / chord;
  const double cy = (y0 + step.y) / 2 + side * rise * dx / chord;
  const double from = std::atan2(y0 - cy, x0 - cx), to = std::atan2(step.y - cy, step.x - cx);
  if (step.clockwise)
    cairo_arc(cairo, cx, cy, radius, from, to);
  else
    cairo_arc_negative(cairo, cx, cy, radius, from, to);
}

void trace(cairo_t* cairo, const paper::Path& path) {
  cairo_new_path(cairo);
  for (const paper::PathStep& step : path) switch (step.motion) {
      case paper::Motion::move:
        cairo_move_to(cairo, step.x, step.y);
        break;
      case paper::Motion::line:
        cairo_line_to(cairo, step.x, step.y);
        break;
      case paper::Motion::arc:
        arc_to(cairo, step);
        break;
      case paper::Motion::close:
        cairo_close_path(cairo);
        break;
    }
}

void draw_shape(cairo_t* cairo, const paper::Shape& shape) {
  trace(cairo, shape.path);
  cairo_set_fill_rule(cairo, CAIRO_FILL_RULE_EVEN_ODD);
  if (shape.fill != paper::Colour::none) {
    set_colour(cairo, shape.fill);
    cairo_fill_preserve(cairo);
  }
  if (shape.stroke > 0) {
    static constexpr std::array<double, 4> chain{14, 4, 3, 4};
    cairo_set_line_width(cairo, shape.stroke);
    cairo_set_dash(cairo, chain.data(), shape.chain ? 4 : 0, 0);
    set(cairo, shape.pale ? paper::line_rgb : paper::rgb_of(paper::Colour::ink));
    cairo_stroke_preserve(cairo);
  }
  cairo_new_path(cairo);
}

void draw_label(cairo_t* cairo, const paper::Drawing& of, const paper::Label& label,
                const Typesetter& type) {
  const Lines lines = type.set(label.text, {of.letters});
  const double width = width_of(lines);
  const double back = label.anchor == paper::Anchor::middle ? width / 2
                      : label.anchor == paper::Anchor::end  ? width
                                                            : 0;
  set_ink(cairo, paper::Ink::black);
  cairo_move_to(cairo, label.x - back, label.y - base_of(lines));
  pango_cairo_show_layout(cairo, lines.get());
}

struct Drawer {
  cairo_t* cairo;
  const Typesetter& type;
  double x, y;

  void operator()(const PlacedText& text) const {
    set_ink(cairo, text.ink);
    cairo_move_to(cairo, x, y);
    pango_cairo_show_layout(cairo, text.lines.get());
  }
  void operator()(const PlacedGround& ground) const {
    set_colour(cairo, ground.colour);
    cairo_rectangle(cairo, x, y, ground.width, ground.height);
    cairo_fill(cairo);
  }
  void operator()(const PlacedRule& rule) const {
    set(cairo, rule.thickness > 1 ? paper::rgb_of(paper::Colour::ink) : paper::line_rgb);
    cairo_set_line_width(cairo, rule.thickness);
    cairo_move_to(cairo, x, y);
    cairo_line_to(cairo, x + rule.to_x, y + rule.to_y);
    cairo_stroke(cairo);
  }
  void operator()(const PlacedDrawing& placed) const {
    cairo_save(cairo);
    cairo_translate(cairo, x, y);
    cairo_scale(cairo, placed.scale, placed.scale);
    draw_drawing(cairo, *placed.drawing, type);
    cairo_restore(cairo);
  }
  void operator()(const TagBegin& tag) const { cairo_tag_begin(cairo, tag.name, nullptr); }
  void operator()(const TagEnd& tag) const { cairo_tag_end(cairo, tag.name); }
};

}  // namespace

void set_colour(cairo_t* cairo, paper::Colour colour) { set(cairo, paper::rgb_of(colour)); }

void set_ink(cairo_t* cairo, paper::Ink ink) { set(cairo, paper::rgb_of(ink)); }

void draw_drawing(cairo_t* cairo, const paper::Drawing& drawing, const Typesetter& type) {
  for (const paper::Shape& shape : drawing.shapes) draw_shape(cairo, shape);
  for (const paper::Label& label : drawing.labels) draw_label(cairo, drawing, label, type);
}

Box drawing_box(const paper::Drawing& drawing, double width, const Setting& setting) {
  const double scale =
      std::min(width / drawing.width, drawing.highest * mm * setting.scale / drawing.height);
  Box box;
  box.height = drawing.height * scale;
  box.begin("Figure");
  box.put((width - drawing.width * scale) / 2, 0, PlacedDrawing{&drawing, scale});
  box.end("Figure");
  return box;
}

void draw(cairo_t* cairo, const Box& page, const Typesetter& type) {
  for (const Item& item : page.items) std::visit(Drawer{cairo, type, item.x, item.y}, item.is);
}

}  // namespace turnwright::pdf
