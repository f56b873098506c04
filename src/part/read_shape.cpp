// SPDX-License-Identifier: MIT
#include <array>
#include <cmath>

#include "element_reading.hpp"
#include "examples.hpp"

namespace turnwright {
namespace {

// Morse tapers 0 to 6: gauge diameter, mm, and 1 : taper. ISO 296, from memory.
struct Morse {
  double gauge, taper;
};
constexpr std::array morse_tapers{
    Morse{9.045, 19.212},  Morse{12.065, 20.047}, Morse{17.780, 20.020}, Morse{23.825, 19.922},
    Morse{31.267, 19.254}, Morse{44.399, 19.002}, Morse{63.348, 19.180}};

// What a cone still needs its length for.
struct Taper {
  std::optional<double> on_diameter;
  std::optional<int> morse;
};

struct ShapeNodes {
  const Node *diameter, *thread, *cone, *arc, *hexagon, *square;
  int count() const {
    return (diameter != nullptr) + (thread != nullptr) + (cone != nullptr) + (arc != nullptr) +
           (hexagon != nullptr) + (square != nullptr);
  }
};

// "square: 24" is a shape, "square: 0.02 to A" a tie.
const Node* find_square(MapReader& map) {
  const Node* node = map.find("square");
  if (node == nullptr || node->kind != Node::Kind::text) return nullptr;
  return node->text.find(" to ") == std::string::npos ? node : nullptr;
}

void read_thread_of(const ElementReading& in, const Node& node) {
  in.element.kind = ElementKind::thread;
  const auto text =
      read_text(node, in.problems, Message{"part.wants-thread", {{"example", "M24x2"}}});
  if (!text) return;
  TextFault fault;
  const auto thread = read_thread(*text, fault);
  if (!thread) {
    in.problems.add(node, fault.what, fault.expected, fault.suggestion);
    return;
  }
  in.element.thread = *thread;
  in.element.size.nominal = thread->major;
}

// "1:10", "0.1"
std::optional<double> read_taper(const ElementReading& in, const Node& node) {
  if (node.text.starts_with("1:"))
    if (const auto n = read_number(node.text.substr(2)); n && *n > 0) return 1 / *n;
  return read_si(node, unit::ratio, in.problems);
}

void read_other_end(const ElementReading& in, MapReader& cone, Taper& taper) {
  const Node* to = cone.find("to");
  const Node* ratio = cone.find("taper");
  const Node* half = cone.find("half angle");
  if (to != nullptr) in.element.left_size = read_cone_end(*to, in.bare, in.problems);
  if (ratio != nullptr) taper.on_diameter = read_taper(in, *ratio);
  if (half != nullptr)
    if (const auto si = read_si(*half, unit::deg, in.problems))
      taper.on_diameter = 2 * std::tan(*si);
  if ((to != nullptr) + (ratio != nullptr) + (half != nullptr) > 1)
    in.problems.add(cone.node(), "part.cone-with-two-ends",
                    such_as("to 40", "taper 1:10", "half angle 5 deg"));
  if (to == nullptr && !taper.on_diameter && in.problems.clean())
    in.problems.add(cone.node(), "part.cone-without-end",
                    such_as("to 40", "taper 1:10", "half angle 5 deg"));
}

Taper read_cone(const ElementReading& in, const Node& node) {
  in.element.kind = ElementKind::cone;
  Taper taper;
  MapReader cone(node, in.problems, "part.a-cone");
  if (const Node* number = cone.find("Morse")) {
    taper.morse = read_whole(*number, in.problems, 0, 6);
  } else {
    if (const Node* from = cone.need("from"))
      in.element.size = read_cone_end(*from, in.bare, in.problems);
    read_other_end(in, cone, taper);
  }
  cone.finish();
  return taper;
}

void read_arc(const ElementReading& in, const Node& node) {
  in.element.kind = ElementKind::arc;
  MapReader arc(node, in.problems, "part.an-arc");
  if (const Node* radius = arc.need("radius")) in.element.radius = in.length(*radius);
  if (const Node* from = arc.find("from")) {
    in.element.size = read_cone_end(*from, in.bare, in.problems);
    in.element.from_step = true;
  }
  if (const Node* to = arc.need("to"))
    in.element.left_size = read_cone_end(*to, in.bare, in.problems);
  in.element.hollow = arc.yes_no("hollow").value_or(false);
  arc.finish();
}

Taper read_by_shape(const ElementReading& in, const ShapeNodes& shape) {
  Element& e = in.element;
  Taper taper;
  if (shape.diameter != nullptr) e.size = read_size(*shape.diameter, in.bare, in.problems);
  if (shape.thread != nullptr) read_thread_of(in, *shape.thread);
  if (shape.cone != nullptr) taper = read_cone(in, *shape.cone);
  if (shape.arc != nullptr) read_arc(in, *shape.arc);
  if (shape.hexagon != nullptr || shape.square != nullptr) {
    e.kind = ElementKind::polygon;
    e.hexagon = shape.hexagon != nullptr;
    e.size.nominal = in.length(e.hexagon ? *shape.hexagon : *shape.square);
  }
  if (e.kind != ElementKind::cone && e.kind != ElementKind::arc) e.left_size = e.size;
  return taper;
}

Taper read_form(const ElementReading& in) {
  MapReader& map = in.map;
  const ShapeNodes shape{map.find("diameter"), map.find("thread"),  map.find("cone"),
                         map.find("arc"),      map.find("hexagon"), find_square(map)};
  in.element.as_drawn = map.yes_no("as drawn").value_or(false);
  if (shape.count() == 1 || !in.problems.clean()) return read_by_shape(in, shape);
  in.problems.add(map.node().at, 1, shape.count() == 0 ? "part.no-shape" : "part.two-shapes",
                  one_of({"diameter", "thread", "cone", "arc", "hexagon", "square"}));
  return {};
}

void read_extent(const ElementReading& in) {
  Element& e = in.element;
  const Node* length = in.map.find("length");
  const Node* end = in.map.find("ends at");
  e.through = in.map.yes_no("through").value_or(false);
  if (length != nullptr) {
    const Size size = read_size(*length, in.bare, in.problems);
    e.to = size.nominal;  // a length until placed
    e.length_toleranced = size.toleranced;
    e.length_upper = size.upper;
    e.length_lower = size.lower;
  } else if (end != nullptr) {
    e.from = Length(-1.0);  // an ordinate, until placed
    e.to = in.length(*end);
  } else if (!e.through && in.problems.clean()) {
    in.problems.add(in.map.node().at, 1, "part.no-length",
                    one_of({"length", "ends at", "through"}));
  }
}

void apply(const Taper& taper, Element& e) {
  if (taper.morse) {
    // The gauge diameter is the large end, here at the left.
    const Morse& m = morse_tapers[static_cast<std::size_t>(*taper.morse)];
    e.left_size.nominal = m.gauge * unit::mm;
    e.size.nominal = e.left_size.nominal - e.to / m.taper;
    e.morse = true;
  }
  if (taper.on_diameter) {
    e.taper = Number(*taper.on_diameter);
    e.left_size.nominal = e.size.nominal + *taper.on_diameter * e.to;
  }
}

}  // namespace

void read_shape(const ElementReading& in) {
  const Taper taper = read_form(in);
  read_extent(in);
  apply(taper, in.element);
}

}  // namespace turnwright
