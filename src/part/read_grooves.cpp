// SPDX-License-Identifier: MIT
#include <array>
#include <cmath>

#include "element_reading.hpp"
#include "examples.hpp"
#include "pieces.hpp"

namespace turnwright {
namespace {

// "95", "12..15", "shoulder"
void read_place(const ElementReading& in, const Node& at, Groove& groove) {
  if (at.text == "shoulder") {
    groove.at_shoulder = true;
    return;
  }
  const std::size_t dots = at.text.find("..");
  if (dots == std::string::npos) {
    groove.from = in.length(at);
    return;
  }
  const auto low = read_number(at.text.substr(0, dots)),
             high = read_number(at.text.substr(dots + 2));
  if (!low || !high || *high <= *low) {
    in.problems.add(at, Message{"part.not-a-range", {{"text", at.text}}}, such_as("12..15"));
    return;
  }
  groove.from = *low * in.bare.length;
  groove.width = (*high - *low) * in.bare.length;
}

void groove_map(const ElementReading& in, const Node& node, Groove& groove) {
  MapReader map(node, in.problems, "part.a-groove");
  groove.width = map.needed("width", in.bare.length);
  groove.bottom = map.quantity("bottom", in.bare.length);
  groove.depth = map.quantity("depth", in.bare.length);
  if (const Node* at = map.need("at")) read_place(in, *at, groove);
  map.finish();
}

// Two words of a groove's text: "3 wide", "1.5 deep", "to 22", "at 12". False when they are none.
bool read_pair(const ElementReading& in, const Node& node, const Piece& first, const Piece& second,
               Groove& groove) {
  if (second.text == "wide")
    groove.width = in.length(piece_node(node, first));
  else if (second.text == "deep")
    groove.depth = in.length(piece_node(node, first));
  else if (first.text == "to")
    groove.bottom = in.length(piece_node(node, second));
  else if (first.text == "at")
    read_place(in, piece_node(node, second), groove);
  else
    return false;
  return true;
}

// "3 wide to 22 at 12", "3 wide 1.5 deep at shoulder", "to 22 at 12..15"
void groove_text(const ElementReading& in, const Node& node, Groove& groove) {
  const auto words = split_words(node.text);
  for (std::size_t i = 0; i < words.size(); i += 2) {
    if (i + 1 < words.size() && read_pair(in, node, words[i], words[i + 1], groove)) continue;
    add_at(in.problems, node, words[i],
           Message{"part.not-expected-here", {{"word", words[i].text}}},
           such_as("3 wide to 22 at 12", "3 wide 1.5 deep at shoulder"));
    return;
  }
  if (!groove.from && !groove.at_shoulder)
    in.problems.add(node, "part.groove-without-place", such_as("at 12", "at shoulder"));
}

void read_groove(const ElementReading& in, const Node& node) {
  Groove groove;
  groove.at = node.at;
  if (node.kind == Node::Kind::map)
    groove_map(in, node, groove);
  else
    groove_text(in, node, groove);
  if (!groove.bottom && !groove.depth)
    in.problems.add(node, "part.groove-without-bottom",
                    such_as("3 wide to 22 at 12", "3 wide 1.5 deep at 12"));
  else if (groove.width.si <= 0 || (groove.depth && groove.depth->si <= 0))
    in.problems.add(node, "part.groove-zero", "part.wants-both-above-zero");
  in.element.grooves.push_back(groove);
}

// What a groove of another form says in pairs of words: "13 wide", "2.5 deep", "at 12".
void form_words(const ElementReading& in, const Node& node, std::size_t from,
                const std::vector<Piece>& words, Groove& groove) {
  for (std::size_t i = from; i < words.size(); i += 2) {
    if (i + 1 < words.size() && read_pair(in, node, words[i], words[i + 1], groove)) continue;
    add_at(in.problems, node, words[i],
           Message{"part.not-expected-here", {{"word", words[i].text}}},
           such_as("V-groove 38 deg 13 wide 10 deep at 8", "round groove R2 at 20"));
    return;
  }
}
void form_map(const ElementReading& in, MapReader& map, Groove& groove) {
  groove.width = map.quantity_or("width", in.bare.length, Length(0.0));
  groove.depth = map.quantity("depth", in.bare.length);
  if (const Node* at = map.find("at")) read_place(in, *at, groove);
  map.finish();
}

// A groove of another form that cannot be: its text, or that the sizes of its map do not fit.
Message no_groove(const Node& node, const char* id) {
  if (node.kind == Node::Kind::map) return "part.groove-sizes";
  return {id, {{"text", node.text}}};
}

void keep_form_groove(const ElementReading& in, const Node& node, const Groove& groove) {
  if (!groove.from || groove.at_shoulder || groove.bottom)
    in.problems.add(node, "part.groove-without-place", such_as("at 12"));
  in.element.grooves.push_back(groove);
}

// The words of a groove that is spelt as text; none, and why, where it is something else.
std::vector<Piece> words_of(const ElementReading& in, const Node& node, const char* example) {
  const auto text = read_text(node, in.problems, such_as(example));
  return text ? split_words(*text) : std::vector<Piece>();
}

// "38 deg 10 deep at 8" runs to a point, "38 deg 13 wide 10 deep at 8" to a floor.
void read_vee(const ElementReading& in, const Node& node) {
  Groove groove;
  groove.at = node.at;
  groove.kind = GrooveKind::vee;
  if (node.kind == Node::Kind::map) {
    MapReader map(node, in.problems, "part.a-groove");
    groove.angle = map.needed("angle", unit::deg);
    form_map(in, map, groove);
  } else if (const auto words = words_of(in, node, "V-groove 38 deg 13 wide 10 deep at 8");
             words.size() > 2) {
    if (const auto si = read_si(piece_node(node, joined(words, 0, 2)), unit::deg, in.problems))
      groove.angle = Number(*si);
    form_words(in, node, 2, words, groove);
  }
  const bool open = groove.angle.si > 0 && groove.angle.si < 3 && groove.depth;
  const Length point = open ? 2.0 * *groove.depth * std::tan(groove.angle.si / 2) : Length(0.0);
  if (groove.width.si == 0) groove.width = point;
  if (!open || groove.depth->si <= 0 || groove.width.si < point.si - 1e-9)
    in.problems.add(node, no_groove(node, "part.not-a-vee"),
                    such_as("V-groove 38 deg 13 wide 10 deep at 8"));
  keep_form_groove(in, node, groove);
}

// "R2 at 20" is half round, "R2 1.5 deep at 20" less.
void read_round_groove(const ElementReading& in, const Node& node) {
  Groove groove;
  groove.at = node.at;
  groove.kind = GrooveKind::half_round;
  if (node.kind == Node::Kind::map) {
    MapReader map(node, in.problems, "part.a-groove");
    groove.radius = map.needed("radius", in.bare.length);
    form_map(in, map, groove);
  } else if (const auto words = words_of(in, node, "round groove R2 at 20");
             !words.empty() && words[0].text.starts_with("R")) {
    groove.radius = in.length(piece_node(node, {words[0].text.substr(1), words[0].offset + 1}));
    form_words(in, node, 1, words, groove);
  }
  if (!groove.depth) groove.depth = groove.radius;
  const double r = groove.radius.si, d = groove.depth->si;
  if (r <= 0 || d <= 0 || d > r + 1e-9)
    in.problems.add(node, no_groove(node, "part.not-a-round-groove"),
                    such_as("round groove R2 at 20", "round groove R2 1.5 deep at 20"));
  else
    groove.width = Length(2 * std::sqrt(d * (2 * r - d)));
  keep_form_groove(in, node, groove);
}

// "at 30", {at: 30}
void read_circlip(const ElementReading& in, const Node& node) {
  Groove groove;
  groove.at = node.at;
  groove.kind = GrooveKind::circlip;
  const auto words = split_words(node.text);
  if (node.kind == Node::Kind::map) {
    MapReader map(node, in.problems, "part.a-circlip");
    if (const Node* at = map.need("at")) read_place(in, *at, groove);
    map.finish();
  } else if (words.size() == 2 && words[0].text == "at") {
    read_place(in, piece_node(node, words[1]), groove);
  } else {
    in.problems.add(node, Message{"part.no-place-in", {{"text", node.text}}},
                    such_as("circlip at 30"));
    return;
  }
  in.element.grooves.push_back(groove);
}

// "3.0 at 30", {section: 3.0, at: 30}
void read_o_ring(const ElementReading& in, const Node& node) {
  Groove groove;
  groove.at = node.at;
  groove.kind = GrooveKind::o_ring;
  const auto words = split_words(node.text);
  if (node.kind == Node::Kind::map) {
    MapReader map(node, in.problems, "part.an-o-ring");
    groove.section = map.needed("section", in.bare.length);
    if (const Node* at = map.need("at")) read_place(in, *at, groove);
    map.finish();
  } else if (words.size() == 3 && words[1].text == "at") {
    groove.section = in.length(piece_node(node, words[0]));
    read_place(in, piece_node(node, words[2]), groove);
  } else {
    in.problems.add(node, Message{"part.no-place-in", {{"text", node.text}}},
                    such_as("O-ring 3.0 at 30"));
    return;
  }
  in.element.grooves.push_back(groove);
}

void undercut_map(const ElementReading& in, const Node& node, Undercut& undercut) {
  MapReader map(node, in.problems, "part.an-undercut");
  undercut.width = map.needed("width", in.bare.length);
  undercut.bottom = map.needed("bottom", in.bare.length);
  map.finish();
}

// "DIN 76-A", "DIN 76-B": by the standard, long or short, outside or inside; a bare word is the
// long form.
bool undercut_by_standard(const std::string& text, Undercut& undercut) {
  undercut.short_form = text == "DIN 76-B" || text == "DIN 76-D";
  return undercut.short_form || text == "yes" || text == "DIN 76" || text == "DIN 76-A" ||
         text == "DIN 76-C";
}

// "3 wide to 20.3"
bool undercut_text(const ElementReading& in, const Node& node, Undercut& undercut) {
  const auto words = split_words(node.text);
  if (words.size() != 4 || words[1].text != "wide" || words[2].text != "to") {
    in.problems.add(node, Message{"part.not-an-undercut", {{"text", node.text}}},
                    such_as("DIN 76-A", "DIN 76-B", "3 wide to 20.3"));
    return false;
  }
  undercut.width = in.length(piece_node(node, words[0]));
  undercut.bottom = in.length(piece_node(node, words[3]));
  return true;
}

}  // namespace

void read_grooves(const ElementReading& in) {
  using Read = void (*)(const ElementReading&, const Node&);
  static constexpr std::array<std::pair<const char*, Read>, 6> readers{
      {{"groove", read_groove},
       {"grooves", read_groove},
       {"V-groove", read_vee},
       {"round groove", read_round_groove},
       {"circlip", read_circlip},
       {"O-ring", read_o_ring}}};
  for (const auto& [key, read] : readers)
    if (const Node* node = in.map.find(key))
      for (const Node* item : as_list(*node)) read(in, *item);
}

void read_undercut(const ElementReading& in, const Node& node) {
  Undercut undercut;
  undercut.at = node.at;
  const bool map = node.kind == Node::Kind::map;
  if (!map && undercut_by_standard(node.text, undercut)) {
    in.element.undercut = undercut;
    return;
  }
  if (map)
    undercut_map(in, node, undercut);
  else if (!undercut_text(in, node, undercut))
    return;
  if (undercut.width.si <= 0 || undercut.bottom.si <= 0)
    in.problems.add(node, "part.undercut-zero", "part.wants-both-above-zero");
  in.element.undercut = undercut;
}

}  // namespace turnwright
