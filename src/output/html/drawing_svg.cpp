// SPDX-License-Identifier: MIT
#include "html/drawing_svg.hpp"

#include <array>

#include "html/page_writer.hpp"

namespace turnwright {
namespace {

std::string path_text(const paper::Path& path) {
  std::string d;
  for (const paper::PathStep& step : path) {
    const std::string to = px(step.x) + " " + px(step.y), r = px(step.radius);
    switch (step.motion) {
      case paper::Motion::move:
        d += "M" + to;
        break;
      case paper::Motion::line:
        d += "L" + to;
        break;
      case paper::Motion::arc:
        d.append("A").append(r).append(" ").append(r);
        d.append(step.clockwise ? " 0 0 1 " : " 0 0 0 ").append(to);
        break;
      case paper::Motion::close:
        d += "z";
        break;
    }
  }
  return d;
}

void put_shape(Markup& m, const paper::Shape& shape) {
  std::string kind =
      shape.fill == paper::Colour::none ? "fill-none" : std::string("fill-") + name_of(shape.fill);
  if (shape.stroke > 0) kind += shape.pale ? " pen-pale" : " pen";
  Markup::Attributes attributes{
      {"class", kind}, {"d", path_text(shape.path)}, {"fill-rule", "evenodd"}};
  if (shape.stroke > 0) attributes.emplace_back("stroke-width", px(shape.stroke));
  if (shape.chain) attributes.emplace_back("stroke-dasharray", "14 4 3 4");
  m.shape("path", attributes);
}

}  // namespace

void put_drawing(Markup& m, const paper::Drawing& drawing, Markup::Attributes attributes) {
  attributes.emplace_back("viewBox", "0 0 " + px(drawing.width) + " " + px(drawing.height));
  attributes.emplace_back("role", "img");
  attributes.emplace_back("aria-label", drawing.label);
  m.open("svg", attributes);
  for (const paper::Shape& shape : drawing.shapes) put_shape(m, shape);
  static constexpr std::array anchors{"start", "middle", "end"};
  for (const paper::Label& label : drawing.labels)
    m.put("text", label.text,
          {{"x", px(label.x)},
           {"y", px(label.y)},
           {"font-size", px(drawing.letters)},
           {"text-anchor", anchors[static_cast<std::size_t>(label.anchor)]}});
  m.close().raw("\n");
}

void put_picture(Markup& m, const paper::Drawing& drawing) {
  put_drawing(m, drawing, {{"width", px(drawing.width)}, {"height", px(drawing.height)}});
}

}  // namespace turnwright
