// SPDX-License-Identifier: MIT
#include <array>

#include "element_reading.hpp"
#include "examples.hpp"

namespace turnwright {
namespace {

using Sides = std::vector<Side>;

Sides sides_named(const std::string& word) {
  if (word == "both") return {Side::right, Side::left};
  if (word == "right") return {Side::right};
  if (word == "left") return {Side::left};
  return {Side::unsaid};
}

// The trailing "right", "left" or "both" of a text, taken off it.
Sides take_sides(std::string& text) {
  const std::size_t blank = text.rfind(' ');
  Sides sides = sides_named(blank == std::string::npos ? text : text.substr(blank + 1));
  if (sides.front() != Side::unsaid) text.resize(blank == std::string::npos ? 0 : blank);
  return sides;
}

Sides read_sides(MapReader& map) {
  return sides_named(map.one_of("at", {"right", "left", "both"}).value_or(""));
}

void add_at_sides(std::vector<EdgeBreak>& breaks, EdgeBreak edge, const Sides& sides) {
  for (const Side side : sides) {
    edge.side = side;
    breaks.push_back(edge);
  }
}
void add_at_sides(std::vector<Corner>& corners, Corner corner, const Sides& sides) {
  for (const Side side : sides) {
    corner.side = side;
    corners.push_back(corner);
  }
}

struct Chamfer {
  EdgeBreak edge;
  bool below_step = false;
};

Sides chamfer_map(const ElementReading& in, const Node& node, Chamfer& chamfer) {
  EdgeBreak& edge = chamfer.edge;
  MapReader map(node, in.problems, "part.a-chamfer");
  edge.width = map.needed("width", in.bare.length);
  edge.angle = map.quantity_or("angle", unit::deg, edge.angle);
  chamfer.below_step = map.yes_no("below step").value_or(false);
  Sides sides = read_sides(map);
  map.finish();
  return sides;
}

// The trailing "below step" of a text, taken off it.
bool take_below_step(std::string& text) {
  constexpr std::string_view words = " below step";
  if (!text.ends_with(words)) return false;
  text.resize(text.size() - words.size());
  return true;
}

// "1x45", "2x30 left", "3x45 right below step"; no sides when it is something else.
Sides chamfer_text(const ElementReading& in, const Node& node, Chamfer& chamfer) {
  EdgeBreak& edge = chamfer.edge;
  std::string text = node.text;
  chamfer.below_step = take_below_step(text);
  Sides sides = take_sides(text);
  const std::size_t x = text.find('x');
  TextFault fault;
  const auto width = read_quantity(text.substr(0, x), in.bare.length, fault);
  const auto angle =
      x == std::string::npos ? std::nullopt : read_quantity(text.substr(x + 1), unit::deg, fault);
  if (!width || !angle) {
    in.problems.add(node, Message{"part.not-a-chamfer", {{"text", node.text}}},
                    Message{"part.wants-chamfer", {{"first", "1x45"}, {"second", "2x30 left"}}});
    return {};
  }
  edge.width = Length(width->si);
  edge.angle = Number(angle->si);
  return sides;
}

void read_chamfer(const ElementReading& in, const Node& node) {
  Chamfer chamfer;
  EdgeBreak& edge = chamfer.edge;
  edge.at = node.at;
  edge.angle = 45.0 * unit::deg;
  const Sides sides = node.kind == Node::Kind::map ? chamfer_map(in, node, chamfer)
                                                   : chamfer_text(in, node, chamfer);
  if (sides.empty()) return;
  if (edge.width.si <= 0 || edge.angle.si <= 0 || edge.angle.si >= pi / 2)
    in.problems.add(node, "part.chamfer-of-nothing", "part.wants-width-and-angle");
  add_at_sides(chamfer.below_step ? in.below_step : in.element.breaks, edge, sides);
}

struct Rounding {
  Length radius{};
  Sides sides;
};

// "R2 left", "0.5", {radius: 2, at: left}
Rounding read_rounding(const ElementReading& in, const Node& node, const char* name) {
  Rounding rounding;
  if (node.kind == Node::Kind::map) {
    MapReader map(node, in.problems, name);
    rounding.radius = map.needed("radius", in.bare.length);
    rounding.sides = read_sides(map);
    map.finish();
  } else {
    Node value = node;
    rounding.sides = take_sides(value.text);
    if (value.text.starts_with("R")) value.text.erase(0, 1);
    rounding.radius = in.length(value);
  }
  if (rounding.radius.si <= 0)
    in.problems.add(node, "part.radius-zero", Message{"part.wants-radius", {{"example", "R2"}}});
  return rounding;
}

void read_round(const ElementReading& in, const Node& node) {
  const auto [radius, sides] = read_rounding(in, node, "part.a-round");
  add_at_sides(in.element.breaks, {true, radius, Number(0.0), Side::unsaid, node.at}, sides);
}

void read_fillet(const ElementReading& in, const Node& node) {
  const auto [radius, sides] = read_rounding(in, node, "part.a-fillet");
  add_at_sides(in.element.corners, {CornerKind::fillet, radius, Length(0.0), Side::unsaid, node.at},
               sides);
}

// "F", "F 0.8x0.3"
void read_relief_form(const ElementReading& in, const Node& node, const std::string& text,
                      Corner& corner) {
  corner.kind = text.starts_with("F") ? CornerKind::relief_f : CornerKind::relief_e;
  const bool known = text == "E" || text == "F" || text.starts_with("E ") || text.starts_with("F ");
  if (!known) {
    in.problems.add(node,
                    Message{"part.not-a-relief", {{"text", node.text.empty() ? text : node.text}}},
                    Message{"part.wants-relief", {{"example", "F 0.8x0.3"}}});
    return;
  }
  const std::string size = text.size() > 2 ? text.substr(2) : "";
  if (size.empty()) return;
  const std::size_t x = size.find('x');
  const auto r = read_number(size.substr(0, x));
  const auto t = x == std::string::npos ? std::nullopt : read_number(size.substr(x + 1));
  if (!r || !t || *r <= 0 || *t <= 0) {
    in.problems.add(node, Message{"part.not-a-relief-size", {{"text", size}}},
                    Message{"part.wants-relief-size", {{"example", "0.8x0.3"}}});
    return;
  }
  corner.radius = *r * in.bare.length;
  corner.depth = *t * in.bare.length;
}

void read_relief(const ElementReading& in, const Node& node) {
  Corner corner;
  corner.at = node.at;
  std::string text = node.text;
  Sides sides;
  if (node.kind == Node::Kind::map) {
    MapReader map(node, in.problems, "part.a-relief");
    const bool said = map.need("form") != nullptr;
    text = map.text_or("form", "");
    sides = read_sides(map);
    map.finish();
    if (!said) return;
  } else {
    sides = take_sides(text);
  }
  read_relief_form(in, node, text, corner);
  add_at_sides(in.element.corners, corner, sides);
}

}  // namespace

void read_edges(const ElementReading& in) {
  using Read = void (*)(const ElementReading&, const Node&);
  static constexpr std::array<std::pair<const char*, Read>, 4> readers{{{"chamfer", read_chamfer},
                                                                        {"round", read_round},
                                                                        {"fillet", read_fillet},
                                                                        {"relief", read_relief}}};
  for (const auto& [key, read] : readers)
    if (const Node* node = in.map.find(key))
      for (const Node* item : as_list(*node)) read(in, *item);
}

}  // namespace turnwright
