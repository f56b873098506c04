// SPDX-License-Identifier: MIT
#include "read_element.hpp"

#include <algorithm>
#include <array>

#include "element_reading.hpp"
#include "examples.hpp"
#include "given.hpp"
#include "pieces.hpp"

namespace turnwright {
namespace {

// Roughness classes in micrometres: N1 = 0.025 … N12 = 50 (ISO 1302:1992, withdrawn in 2002).
constexpr std::array n_classes{0.025, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.3, 12.5, 25.0, 50.0};

// "Morse 4", "cone 30 to 40", "cone 20 taper 1:50", "arc R20 to 30".
std::string text_of_shape(const Member& shape) {
  std::string text = shape.key;
  for (const Member& m : shape.value.members) {
    if (m.value.kind != Node::Kind::text) continue;
    if (m.key == "Morse") return m.key + " " + m.value.text;
    if (m.key == "from") text += " " + m.value.text;
    if (m.key == "radius") text += " R" + m.value.text;
    if (m.key == "to" || m.key == "taper" || m.key == "half angle")
      text += " " + m.key + " " + m.value.text;
  }
  return text;
}

// The element as the drawing has it, for messages: "30 k6 x42".
std::string text_of_map(const Node& node) {
  std::string text;
  for (const Member& m : node.members) {
    if (m.key == "cone" || m.key == "arc") text.insert(0, text_of_shape(m));
    if (m.value.kind != Node::Kind::text) continue;
    if (m.key == "diameter" || m.key == "thread") text.insert(0, m.value.text);
    if (m.key == "hexagon" || m.key == "square") text.insert(0, m.key + " " + m.value.text);
    if (m.key == "length") text += " x" + m.value.text;
  }
  return text.empty() ? node.members.front().key : text;
}

void read_roughness_class(const ElementReading& in, const Node& node) {
  const auto k = read_whole(node.text.starts_with("N") ? node.text.substr(1) : node.text, 1,
                            static_cast<int>(n_classes.size()));
  if (k)
    in.element.ra = n_classes[static_cast<std::size_t>(*k) - 1] * unit::um;
  else
    in.problems.add(node, Message{"part.not-a-roughness-class", {{"class", node.text}}},
                    Message{"part.wants-range", {{"first", "N1"}, {"last", "N12"}}});
}

void read_roughness(const ElementReading& in) {
  Element& e = in.element;
  if (const auto ra = in.map.quantity("Ra", in.bare.roughness)) e.ra = ra;
  if (const auto rz = in.map.quantity("Rz", in.bare.roughness)) {
    // Ra taken as Rz / 5: between Rz/4 and Rz/7, from memory; the quote says so.
    e.ra = *rz / 5.0;
    e.ra_from_rz = true;
  }
  if (const Node* n = in.map.find("N")) read_roughness_class(in, *n);
  if (e.ra && e.ra->si <= 0)
    in.problems.add(in.map.node().at, 1, "part.roughness-zero", "part.wants-ra");
}

// "A", or of a common axis each seat of "A-B".
void add_ties(const ElementReading& in, Tie tie, const Node& datum) {
  for (std::size_t from = 0; from <= datum.text.size();) {
    const std::size_t to = std::min(datum.text.find('-', from), datum.text.size());
    const Node letter = piece_node(datum, {datum.text.substr(from, to - from), from});
    tie.datum = letter.text;
    tie.at = letter.at;
    in.element.ties.push_back(tie);
    from = to + 1;
  }
}

// "0.02 to A"; without a datum "square" is a shape.
void read_tie(const ElementReading& in, TieKind kind, const Node& node) {
  const std::size_t to = node.text.find(" to ");
  if (to == std::string::npos) {
    if (kind != TieKind::square)
      in.problems.add(node, "part.tie-without-datum", such_as("0.02 to A"));
    return;
  }
  const Node text = piece_node(node, {node.text.substr(0, to), 0});
  const auto value = read_length(text, in.bare, in.problems);
  if (!value) return;
  if (value->si <= 0) in.problems.add(node, "part.tie-zero", such_as("0.02 to A"));
  const std::size_t datum = to + 4;
  add_ties(in, {kind, *value, {}, {}}, piece_node(node, {node.text.substr(datum), datum}));
}

void read_ties(const ElementReading& in) {
  static constexpr std::array kinds{std::pair{"runout", TieKind::runout},
                                    std::pair{"coaxial", TieKind::coaxial},
                                    std::pair{"square", TieKind::square}};
  for (const auto& [key, kind] : kinds)
    if (const Node* node = in.map.find(key))
      for (const Node* item : as_list(*node)) read_tie(in, kind, *item);
  in.element.seat = in.map.text_or("seat", "");
}

struct KnurlText {
  std::string kind, pitch;
};

// "RGE 1.0", {kind: RGE, pitch: 1.0}; none, and why, of a map that lacks one of them
std::optional<KnurlText> knurl_text(const ElementReading& in, const Node& node) {
  if (node.kind == Node::Kind::map) {
    MapReader map(node, in.problems, "part.a-knurl");
    const bool whole = map.need("kind") != nullptr && map.need("pitch") != nullptr;
    KnurlText text{map.text_or("kind", ""), map.text_or("pitch", "")};
    map.finish();
    return whole ? std::optional(text) : std::nullopt;
  }
  const std::size_t blank = node.text.find(' ');
  if (blank == std::string::npos) return KnurlText{node.text, ""};
  return KnurlText{node.text.substr(0, blank), node.text.substr(blank + 1)};
}

void read_knurl(const ElementReading& in, const Node& node) {
  static const std::vector<std::string> kinds{"RAA", "RBL", "RBR", "RGE", "RGV", "RKE", "RKV"};
  const auto text = knurl_text(in, node);
  if (!text) return;
  const auto& [kind, pitch] = *text;
  if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) {
    in.problems.add(node, Message{"part.not-a-knurl", {{"kind", kind}}}, one_of(kinds),
                    nearest(kind, kinds));
    return;
  }
  const auto p = read_number(pitch);
  if (!p || *p < 0.3 || *p > 3) {
    in.problems.add(node, Message{"part.not-a-knurl-pitch", {{"pitch", pitch}}},
                    Message{"part.wants-knurl-pitch", {{"example", "RGE 1.0"}}});
    return;
  }
  in.element.knurl = Knurl{kind, *p * unit::mm, node.at};
}

// "1/10"
std::optional<double> share_of_two(const std::string& text, std::size_t slash) {
  const auto a = read_number(text.substr(0, slash)), b = read_number(text.substr(slash + 1));
  if (!a || !b || *b <= 0 || *a < 0 || *a > *b) return std::nullopt;
  return *a / *b;
}

void read_gauge_share(const ElementReading& in, const Node& node) {
  const std::size_t slash = node.text.find('/');
  const auto share = slash == std::string::npos ? read_si(node, unit::ratio, in.problems)
                                                : share_of_two(node.text, slash);
  if (share && *share >= 0 && *share <= 1)
    in.element.gauge_share = *share;
  else
    in.problems.add(node, Message{"part.not-a-share", {{"text", node.text}}},
                    such_as("100 %", "1/10"));
}

// How it is made, gauged and timed.
void read_making(const ElementReading& in) {
  Element& e = in.element;
  if (const Node* gauge = in.map.find("gauge")) read_gauge_share(in, *gauge);
  e.ground = in.map.yes_no("ground").value_or(false);
  e.no_spiral = in.map.yes_no("no spiral").value_or(false);
  e.flat = in.map.yes_no("flat").value_or(false);
  e.leave = in.map.quantity_or("leave", in.bare.length, Length(0.0));
  if (e.leave.si < 0) {
    const Node& leave = *in.map.find("leave");
    in.problems.add(leave, found(leave), "part.0-or-more");
  }
  e.allow = in.map.quantity("allow", unit::min);
  if (is_absurd(e.allow, longest))
    in.problems.add(in.map.node().at, 1, "part.absurd-time-or-price", wants_sensible());
}

}  // namespace

ReadElement read_element(const Node& node, const BareUnits& bare, ProblemList& problems) {
  if (node.members.empty()) return {};  // its fault is noted already
  MapReader map(node, problems, "part.an-element");
  ReadElement read;
  Element& element = read.element;
  element.at = node.at;
  element.text = text_of_map(node);
  const ElementReading in{map, bare, problems, element, read.below_step};
  read_shape(in);
  read_roughness(in);
  read_edges(in);
  read_grooves(in);
  read_ties(in);
  if (const Node* knurl = map.find("knurl")) read_knurl(in, *knurl);
  if (const Node* undercut = map.find("undercut")) read_undercut(in, *undercut);
  read_making(in);
  map.finish();
  return read;
}

}  // namespace turnwright
