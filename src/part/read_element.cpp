// SPDX-License-Identifier: MIT
#include "read_element.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "element_text.hpp"

namespace turnwright {
namespace {

// Roughness classes in micrometres: N1 = 0.025 … N12 = 50 (ISO 1302:1992, withdrawn in 2002).
constexpr std::array n_classes{0.025, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.3, 12.5, 25.0, 50.0};
// Morse tapers 0 to 6: gauge diameter, mm, and 1 : taper. ISO 296, from memory.
struct Morse {
  double gauge, taper;
};
constexpr std::array morse_tapers{
    Morse{9.045, 19.212},  Morse{12.065, 20.047}, Morse{17.780, 20.020}, Morse{23.825, 19.922},
    Morse{31.267, 19.254}, Morse{44.399, 19.002}, Morse{63.348, 19.180}};

/// One element map on its way to an Element.
class ElementReader {
 public:
  ElementReader(const Node& node, const BareUnits& bare, ProblemList& notes)
      : map_(node, notes, "an element"), bare_(bare), notes_(notes) {
    element_.at = node.at;
    element_.text = described_map(node);
  }

  Element read() {
    shape();
    run();
    finish_of();
    edges();
    grooves();
    ties();
    rest();
    map_.finish();
    return element_;
  }

 private:
  static std::string described_map(const Node& node) {
    std::string text;
    for (const Member& m : node.members) {
      if (m.value.kind != Node::Kind::text) continue;
      if (m.key == "diameter" || m.key == "thread") text.insert(0, m.value.text);
      if (m.key == "hexagon" || m.key == "square") text.insert(0, m.key + " " + m.value.text);
      if (m.key == "length") text += " x" + m.value.text;
    }
    if (node.members.empty()) return "element";
    return text.empty() ? node.members.front().key : text;
  }
  void note(const Node& node, std::string what, std::string expected) {
    notes_.add(node, std::move(what), std::move(expected));
  }
  Length length(const Node& node) { return read_length(node, bare_, notes_).value_or(Length(0.0)); }

  void shape() {
    const Node* diameter = map_.find("diameter");
    const Node* thread = map_.find("thread");
    const Node* cone = map_.find("cone");
    const Node* arc = map_.find("arc");
    const Node* hexagon = map_.find("hexagon");
    const Node* square = polygon_square();
    element_.as_drawn = map_.yes_no("as drawn").value_or(false);
    const int shapes = (diameter != nullptr) + (thread != nullptr) + (cone != nullptr) +
                       (arc != nullptr) + (hexagon != nullptr) + (square != nullptr);
    if (shapes != 1 && notes_.clean()) {
      notes_.add(map_.node().at, 1,
                 shapes == 0 ? "an element without a shape" : "two shapes in one element",
                 "one of diameter, thread, cone, arc, hexagon, square");
      return;
    }
    if (diameter != nullptr) element_.size = read_size(*diameter, bare_, notes_);
    if (thread != nullptr) thread_of(*thread);
    if (cone != nullptr) read_cone(*cone);
    if (arc != nullptr) read_arc(*arc);
    if (hexagon != nullptr || square != nullptr) {
      element_.kind = ElementKind::polygon;
      element_.hexagon = hexagon != nullptr;
      element_.size.nominal = length(hexagon != nullptr ? *hexagon : *square);
    }
    if (element_.kind != ElementKind::cone && element_.kind != ElementKind::arc)
      element_.left_size = element_.size;
  }
  // "square: 24" is a shape, "square: 0.02 to A" a tie.
  const Node* polygon_square() {
    const Node* node = map_.find("square");
    if (node == nullptr || node->kind != Node::Kind::text) return nullptr;
    return node->text.find(" to ") == std::string::npos ? node : nullptr;
  }
  void thread_of(const Node& node) {
    element_.kind = ElementKind::thread;
    const auto text = read_text(node, notes_, "a thread as M24x2");
    if (!text) return;
    ThreadFault fault;
    const auto thread = turnwright::read_thread(*text, fault);
    if (!thread) {
      notes_.add(node, fault.what, fault.expected, fault.suggestion);
      return;
    }
    element_.thread = *thread;
    element_.size.nominal = thread->major;
  }
  void read_cone(const Node& node) {
    element_.kind = ElementKind::cone;
    MapReader cone(node, notes_, "a cone");
    if (const Node* number = cone.find("Morse")) {
      if (const auto n = read_whole(*number, notes_, 0, 6)) morse_ = *n;
      cone.finish();
      return;
    }
    if (const Node* from = cone.need("from")) element_.size = read_size(*from, bare_, notes_);
    const Node* to = cone.find("to");
    const Node* taper = cone.find("taper");
    const Node* half = cone.find("half angle");
    if (to != nullptr) element_.left_size = read_size(*to, bare_, notes_);
    if (taper != nullptr) taper_ = read_taper(*taper);
    if (half != nullptr)
      if (const auto si = read_si(*half, unit::deg, notes_)) taper_ = 2 * std::tan(*si);
    if (to == nullptr && !taper_ && notes_.clean())
      note(node, "a cone without its other end", "'to 40', 'taper 1:10' or 'half angle 5 deg'");
    cone.finish();
  }
  std::optional<double> read_taper(const Node& node) {
    if (node.text.starts_with("1:"))
      if (const auto n = read_number(node.text.substr(2)); n && *n > 0) return 1 / *n;
    return read_si(node, unit::ratio, notes_);
  }
  void read_arc(const Node& node) {
    element_.kind = ElementKind::arc;
    MapReader arc(node, notes_, "an arc");
    if (const Node* radius = arc.need("radius")) element_.radius = length(*radius);
    if (const Node* to = arc.need("to")) element_.left_size = read_size(*to, bare_, notes_);
    element_.hollow = arc.yes_no("hollow").value_or(false);
    arc.finish();
  }
  void run() {
    const Node* l = map_.find("length");
    const Node* end = map_.find("ends at");
    element_.through = map_.yes_no("through").value_or(false);
    if (l != nullptr) {
      const Size size = read_size(*l, bare_, notes_);
      element_.to = size.nominal;  // a run until placed
      element_.length_toleranced = size.toleranced;
      element_.length_upper = size.upper;
      element_.length_lower = size.lower;
    } else if (end != nullptr) {
      element_.from = Length(-1.0);  // an ordinate, until placed
      element_.to = length(*end);
    } else if (!element_.through && notes_.clean()) {
      notes_.add(map_.node().at, 1, "an element without length", "length, 'ends at' or through");
    }
    if (morse_) {
      // The gauge diameter is the large end, here at the left.
      const Morse& m = morse_tapers[static_cast<std::size_t>(*morse_)];
      element_.left_size.nominal = m.gauge * unit::mm;
      element_.size.nominal = element_.left_size.nominal - element_.to / m.taper;
      element_.morse = true;
    }
    if (taper_) {
      element_.taper = Number(*taper_);
      element_.left_size.nominal = element_.size.nominal + *taper_ * element_.to;
    }
  }
  void finish_of() {
    if (const auto ra = map_.quantity("Ra", bare_.roughness)) element_.ra = ra;
    if (const auto rz = map_.quantity("Rz", bare_.roughness)) {
      // Ra taken as Rz / 5: between Rz/4 and Rz/7, from memory; the quote says so.
      element_.ra = *rz / 5.0;
      element_.ra_from_rz = true;
    }
    if (const Node* n = map_.find("N")) {
      const auto k = read_number(n->text.starts_with("N") ? n->text.substr(1) : n->text);
      if (k && *k >= 1 && *k <= 12 && *k == std::floor(*k))
        element_.ra = n_classes[static_cast<std::size_t>(*k) - 1] * unit::um;
      else
        note(*n, "'" + n->text + "' is no roughness class", "N1 to N12");
    }
    if (element_.ra && element_.ra->si <= 0)
      notes_.add(map_.node().at, 1, "a roughness of 0", "an Ra above 0");
  }
  // The trailing "right", "left" or "both" of a text, taken off it.
  static std::vector<Side> take_sides(std::string& text) {
    for (const auto& [word, sides] : {std::pair{"both", std::vector{Side::right, Side::left}},
                                      std::pair{"right", std::vector{Side::right}},
                                      std::pair{"left", std::vector{Side::left}}}) {
      if (text == word)
        text = "";
      else if (text.ends_with(std::string(" ") + word))
        text.resize(text.size() - std::string(word).size() - 1);
      else
        continue;
      return sides;
    }
    return {Side::unsaid};
  }
  std::vector<Side> sides_of(MapReader& map) {
    const auto word = map.one_of("at", {"right", "left", "both"});
    if (word == "right") return {Side::right};
    if (word == "left") return {Side::left};
    if (word == "both") return {Side::right, Side::left};
    return {Side::unsaid};
  }
  void edges() {
    if (const Node* node = map_.find("chamfer"))
      for (const Node* item : as_list(*node)) chamfer(*item);
    if (const Node* node = map_.find("round"))
      for (const Node* item : as_list(*node)) radius_at(*item, true);
    if (const Node* node = map_.find("fillet"))
      for (const Node* item : as_list(*node)) radius_at(*item, false);
    if (const Node* node = map_.find("relief"))
      for (const Node* item : as_list(*node)) relief(*item);
  }
  void chamfer(const Node& item) {
    EdgeBreak edge;
    edge.at = item.at;
    edge.angle = 45.0 * unit::deg;
    std::vector<Side> sides;
    if (item.kind == Node::Kind::map) {
      MapReader map(item, notes_, "a chamfer");
      edge.width = map.needed("width", bare_.length);
      edge.angle = map.quantity_or("angle", unit::deg, edge.angle);
      sides = sides_of(map);
      map.finish();
    } else {
      std::string text = item.text;
      sides = take_sides(text);
      const std::size_t x = text.find('x');
      TextFault fault;
      const auto width = read_quantity(text.substr(0, x), bare_.length, fault);
      const auto angle = x == std::string::npos
                             ? std::nullopt
                             : read_quantity(text.substr(x + 1), unit::deg, fault);
      if (!width || !angle) {
        note(item, "'" + item.text + "' is no chamfer", "width x angle, as 1x45 or 2x30 left");
        return;
      }
      edge.width = Length(width->si);
      edge.angle = Number(angle->si);
    }
    if (edge.width.si <= 0 || edge.angle.si <= 0 || edge.angle.si >= pi / 2)
      note(item, "a chamfer that is none", "a width above 0 and an angle between 0 and 90");
    for (const Side side : sides) {
      edge.side = side;
      element_.breaks.push_back(edge);
    }
  }
  void radius_at(const Node& item, bool edge) {
    Length radius{};
    std::vector<Side> sides;
    if (item.kind == Node::Kind::map) {
      MapReader map(item, notes_, edge ? "a round" : "a fillet");
      radius = map.needed("radius", bare_.length);
      sides = sides_of(map);
      map.finish();
    } else {
      Node value = item;
      sides = take_sides(value.text);
      if (value.text.starts_with("R")) value.text.erase(0, 1);
      radius = length(value);
    }
    if (radius.si <= 0) note(item, "a radius of 0", "a radius above 0, as R2");
    for (const Side side : sides) {
      if (edge)
        element_.breaks.push_back({true, radius, Number(0.0), side, item.at});
      else
        element_.corners.push_back({CornerKind::fillet, radius, Length(0.0), side, item.at});
    }
  }
  void relief(const Node& item) {
    Corner corner;
    corner.at = item.at;
    std::string text = item.text;
    std::vector<Side> sides{Side::unsaid};
    if (item.kind == Node::Kind::map) {
      MapReader map(item, notes_, "a relief");
      text = map.text_or("form", "");
      sides = sides_of(map);
      map.finish();
    } else {
      sides = take_sides(text);
    }
    corner.kind = text.starts_with("F") ? CornerKind::relief_f : CornerKind::relief_e;
    const std::string size = text.size() > 2 ? text.substr(2) : "";
    const bool known =
        text == "E" || text == "F" || text.starts_with("E ") || text.starts_with("F ");
    if (!known) note(item, "'" + item.text + "' is no relief", "E or F, with r x t1 as F 0.8x0.3");
    if (!size.empty()) {
      const std::size_t x = size.find('x');
      const auto r = read_number(size.substr(0, x));
      const auto t = x == std::string::npos ? std::nullopt : read_number(size.substr(x + 1));
      if (!r || !t || *r <= 0 || *t <= 0)
        note(item, "'" + size + "' is no size of a relief", "r x t1, as 0.8x0.3");
      else {
        corner.radius = *r * bare_.length;
        corner.depth = *t * bare_.length;
      }
    }
    for (const Side side : sides) {
      corner.side = side;
      element_.corners.push_back(corner);
    }
  }
  void grooves() {
    for (const char* key : {"groove", "grooves"})
      if (const Node* node = map_.find(key))
        for (const Node* item : as_list(*node)) groove(*item);
    for (const char* key : {"circlip", "O-ring"})
      if (const Node* node = map_.find(key))
        for (const Node* item : as_list(*node)) ring(*item, std::string(key) == "circlip");
  }
  void groove(const Node& item) {
    Groove g;
    g.at = item.at;
    if (item.kind == Node::Kind::map) {
      MapReader map(item, notes_, "a groove");
      g.width = map.needed("width", bare_.length);
      g.bottom = map.quantity("bottom", bare_.length);
      g.depth = map.quantity("depth", bare_.length);
      if (const Node* at = map.need("at")) groove_position(*at, g);
      map.finish();
    } else {
      groove_text(item, g);
    }
    if (!g.bottom && !g.depth)
      note(item, "a groove without bottom or depth",
           "'3 wide to 22 at 12' or '3 wide 1.5 deep at 12'");
    else if (g.width.si <= 0 || (g.depth && g.depth->si <= 0))
      note(item, "a groove of no width or depth", "both above 0");
    element_.grooves.push_back(g);
  }
  void groove_position(const Node& at, Groove& g) {
    if (at.text == "shoulder") {
      g.at_shoulder = true;
      return;
    }
    const std::size_t dots = at.text.find("..");
    if (dots == std::string::npos) {
      g.from = length(at);
      return;
    }
    const auto low = read_number(at.text.substr(0, dots)),
               high = read_number(at.text.substr(dots + 2));
    if (!low || !high || *high <= *low) {
      note(at, "'" + at.text + "' is no range", "as 12..15");
      return;
    }
    g.from = *low * bare_.length;
    g.width = (*high - *low) * bare_.length;
  }
  // "3 wide to 22 at 12", "3 wide 1.5 deep at shoulder", "to 22 at 12..15"
  void groove_text(const Node& item, Groove& g) {
    const auto words = words_of(item.text, 0);
    for (std::size_t i = 0; i < words.size(); ++i) {
      const std::string& word = words[i].text;
      const bool more = i + 1 < words.size();
      auto value = [&](std::size_t k) {
        return length(piece_node(item, words[k].offset, words[k].text));
      };
      if (more && words[i + 1].text == "wide")
        g.width = value(i), ++i;
      else if (more && words[i + 1].text == "deep")
        g.depth = value(i), ++i;
      else if (more && word == "to")
        g.bottom = value(++i);
      else if (more && word == "at")
        groove_position(piece_node(item, words[i + 1].offset, words[i + 1].text), g), ++i;
      else {
        notes_.add_inside(item, words[i].offset, characters(word),
                          "'" + word + "' is not expected here",
                          "'3 wide to 22 at 12' or '3 wide 1.5 deep at shoulder'");
        return;
      }
    }
    if (!g.from && !g.at_shoulder)
      note(item, "a groove without a place", "'at 12' or 'at shoulder'");
  }
  void ring(const Node& item, bool circlip) {
    Groove g;
    g.at = item.at;
    g.kind = circlip ? GrooveKind::circlip : GrooveKind::o_ring;
    if (item.kind == Node::Kind::map) {
      MapReader map(item, notes_, circlip ? "a circlip" : "an O-ring");
      if (!circlip) g.section = map.needed("section", bare_.length);
      if (const Node* at = map.need("at")) groove_position(*at, g);
      map.finish();
    } else {
      const auto words = words_of(item.text, 0);
      const std::size_t at = circlip ? 0 : 1;
      if (words.size() != at + 2 || words[at].text != "at") {
        note(item, "'" + item.text + "' has no place",
             circlip ? "circlip at 30" : "O-ring 3.0 at 30");
        return;
      }
      if (!circlip) g.section = length(piece_node(item, words[0].offset, words[0].text));
      groove_position(piece_node(item, words[at + 1].offset, words[at + 1].text), g);
    }
    element_.grooves.push_back(g);
  }
  void ties() {
    for (const char* kind : {"runout", "coaxial", "square"}) {
      const Node* node = map_.find(kind);
      if (node == nullptr) continue;
      for (const Node* item : as_list(*node)) {
        const std::size_t to = item->text.find(" to ");
        if (to == std::string::npos) {
          if (std::string(kind) != "square") note(*item, "a tie without a datum", "0.02 to A");
          continue;
        }
        const Node value = piece_node(*item, 0, item->text.substr(0, to));
        element_.ties.push_back({kind, length(value), item->text.substr(to + 4), item->at});
      }
    }
    element_.seat = map_.text_or("seat", "");
  }
  void rest() {
    if (const Node* node = map_.find("knurl")) knurl(*node);
    if (const Node* node = map_.find("undercut")) undercut(*node);
    if (const Node* gauge = map_.find("gauge")) gauge_share(*gauge);
    element_.ground = map_.yes_no("ground").value_or(false);
    element_.no_spiral = map_.yes_no("no spiral").value_or(false);
    element_.flat = map_.yes_no("flat").value_or(false);
    element_.leave = map_.quantity_or("leave", bare_.length, Length(0.0));
    element_.allow = map_.quantity("allow", unit::min);
    if (element_.allow && element_.allow->si < 0)
      notes_.add(map_.node().at, 1, "a negative time", "allow 6 min");
  }
  void knurl(const Node& node) {
    std::string kind = node.text, pitch;
    if (node.kind == Node::Kind::map) {
      MapReader map(node, notes_, "a knurl");
      kind = map.text_or("kind", "");
      pitch = map.text_or("pitch", "");
      map.finish();
    } else if (const std::size_t blank = kind.find(' '); blank != std::string::npos) {
      pitch = kind.substr(blank + 1);
      kind = kind.substr(0, blank);
    }
    static const std::vector<std::string> kinds{"RAA", "RBL", "RBR", "RGE", "RGV", "RKE", "RKV"};
    if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) {
      notes_.add(node, "'" + kind + "' is no knurl", "RAA, RBL, RBR, RGE, RGV, RKE or RKV (DIN 82)",
                 nearest(kind, kinds));
      return;
    }
    const auto p = read_number(pitch);
    if (!p || *p < 0.3 || *p > 3) {
      note(node, "'" + pitch + "' is no pitch of a knurl",
           "0.5, 0.6, 0.8, 1.0, 1.2 or 1.6 mm (DIN 82), as RGE 1.0");
      return;
    }
    element_.knurl = Knurl{kind, *p * unit::mm, node.at};
  }
  // "DIN 76-A", "DIN 76-B", "3 wide to 20.3".
  void undercut(const Node& node) {
    Undercut u;
    u.at = node.at;
    if (node.kind == Node::Kind::map) {
      MapReader map(node, notes_, "an undercut");
      u.width = map.needed("width", bare_.length);
      u.bottom = map.needed("bottom", bare_.length);
      map.finish();
      if (u.width.si <= 0 || u.bottom.si <= 0)
        note(node, "an undercut of no width or bottom", "both above 0");
      element_.undercut = u;
      return;
    }
    if (node.text == "DIN 76" || node.text == "DIN 76-A" || node.text == "DIN 76-C") {
      element_.undercut = u;
      return;
    }
    if (node.text == "DIN 76-B" || node.text == "DIN 76-D") {
      u.short_form = true;
      element_.undercut = u;
      return;
    }
    const auto words = words_of(node.text, 0);
    if (words.size() != 4 || words[1].text != "wide" || words[2].text != "to") {
      note(node, "'" + node.text + "' is no undercut", "DIN 76-A, DIN 76-B or '3 wide to 20.3'");
      return;
    }
    u.width = length(piece_node(node, words[0].offset, words[0].text));
    u.bottom = length(piece_node(node, words[3].offset, words[3].text));
    if (u.width.si <= 0 || u.bottom.si <= 0)
      note(node, "an undercut of no width or bottom", "both above 0");
    element_.undercut = u;
  }
  void gauge_share(const Node& node) {
    const std::size_t slash = node.text.find('/');
    if (slash != std::string::npos) {
      const auto a = read_number(node.text.substr(0, slash)),
                 b = read_number(node.text.substr(slash + 1));
      if (a && b && *b > 0 && *a >= 0 && *a <= *b) {
        element_.gauge_share = *a / *b;
        return;
      }
    } else if (const auto si = read_si(node, unit::ratio, notes_); si && *si >= 0 && *si <= 1) {
      element_.gauge_share = *si;
      return;
    }
    note(node, "'" + node.text + "' is no share", "100 % or 1/10");
  }

  MapReader map_;
  const BareUnits& bare_;
  ProblemList& notes_;
  Element element_;
  std::optional<double> taper_;
  std::optional<int> morse_;
};

}  // namespace

Element read_element(const Node& map, const BareUnits& bare, ProblemList& notes) {
  if (map.kind == Node::Kind::map && map.members.empty()) return {};  // its fault is noted already
  return ElementReader(map, bare, notes).read();
}

}  // namespace turnwright
