// SPDX-License-Identifier: MIT
// Tools and lathes.
#include <algorithm>

#include "record.hpp"

namespace turnwright {
namespace {

void read_span(MapReader& map, std::string_view key, Length& from, Length& to) {
  const Node* node = map.find(key);
  if (node == nullptr) return;
  MapReader span(*node, map.notes(), verbatim(std::string(key)));
  from = span.needed("from", unit::mm);
  to = span.needed("to", unit::mm);
  span.finish();
  if (from.si < 0 || (span.find("to") != nullptr && to < from))
    map.notes().add(*node, "shop.span-out-of-order", "expected.span");
}

template <class... Q>
bool all_above_0(Q... quantities) {
  return (... && (quantities.si > 0));
}
template <class... Q>
bool any_below_0(Q... quantities) {
  return (... || (quantities.si < 0));
}

ToolKind tool_kind(MapReader& map) {
  static const std::vector<std::pair<std::string, ToolKind>> kinds{
      {"rough", ToolKind::rough},
      {"finish", ToolKind::finish},
      {"left-hand", ToolKind::left_hand},
      {"groove", ToolKind::groove},
      {"part off", ToolKind::part_off},
      {"centre", ToolKind::centre},
      {"drill", ToolKind::drill},
      {"countersink", ToolKind::countersink},
      {"ream", ToolKind::ream},
      {"bore", ToolKind::bore},
      {"inside groove", ToolKind::inside_groove},
      {"face groove", ToolKind::face_groove},
      {"thread", ToolKind::thread},
      {"inside thread", ToolKind::inside_thread},
      {"tap", ToolKind::tap},
      {"die", ToolKind::die},
      {"knurl", ToolKind::knurl}};
  std::vector<std::string> words;
  words.reserve(kinds.size());
  for (const auto& [word, kind] : kinds) words.push_back(word);
  const auto word_read = map.one_of("kind", words);
  for (const auto& [word, kind] : kinds)
    if (word_read == word) return kind;
  return ToolKind::rough;
}

bool made_in_sizes(ToolKind kind) {
  return kind == ToolKind::drill || kind == ToolKind::ream || kind == ToolKind::tap ||
         kind == ToolKind::die || kind == ToolKind::countersink;
}

// Length of the jaws over the diameter of the chuck, where its record says nothing; typical.
constexpr double jaws_of_chuck = 0.2;
constexpr UnitOf<Dim{1, 1, -2}> unit_kN{"kN", 1000, 1};
// What chucks grip with and slides travel at: wide of any lathe's, so that a value in another unit
// is seen; typical.
constexpr double least_grip = 0.5, most_grip = 1000;        // kN
constexpr double slowest_rapid = 0.5, fastest_rapid = 200;  // m/min

Chuck read_chuck(const Node& node, ProblemList& notes) {
  Chuck c;
  MapReader map(node, notes, "shop.a-chuck");
  c.diameter = map.needed("diameter", unit::mm);
  c.rated_speed = map.needed("rated speed", unit::rev_per_min);
  c.jaw_clearance = map.quantity_or("jaw clearance", unit::mm, 3.0 * unit::mm);
  c.grip_force =
      in_range(map, "grip force", unit_kN, least_grip, most_grip).value_or(40000.0 * unit::N);
  c.jaw_length = map.quantity_or("jaw length", unit::mm, jaws_of_chuck * c.diameter);
  map.finish();
  return c;
}

// What an hour may cost, in euros, and the overhead on it: wide of any shop's; typical.
constexpr double least_rate = 1, most_rate = 2000, most_overhead = 10;

HourlyRate read_rate(const Node& node, ProblemList& notes) {
  HourlyRate r;
  const double euro = units_per_euro(notes.currencies());
  // "75 EUR/h" and "75 EUR/h all-in" are the short form of {all-in: 75 EUR/h}.
  if (node.kind == Node::Kind::text) {
    Node number = node;
    if (number.text.ends_with(" all-in")) number.text.resize(number.text.size() - 7);
    if (const auto si =
            read_in_range(number, unit::money_per_h, least_rate * euro, most_rate * euro, notes))
      r.all_in = Rate(*si);
    return r;
  }
  MapReader map(node, notes, "shop.a-rate");
  if (map.find("all-in") != nullptr) {
    r.all_in = in_range(map, "all-in", unit::money_per_h, least_rate * euro, most_rate * euro);
  } else {
    map.need("machine");
    map.need("person");
    r.machine = money_in_range(map, "machine", unit::money_per_h, most_rate).value_or(Rate(0.0));
    r.person = money_in_range(map, "person", unit::money_per_h, most_rate).value_or(Rate(0.0));
    r.overhead = share_up_to(map, "overhead", most_overhead);
  }
  map.finish();
  return r;
}

LeverRange read_range(const Node& node, ProblemList& notes) {
  LeverRange range;
  MapReader map(node, notes, "shop.a-lever-range");
  range.name = map.text_or("name", "");
  range.colour = map.one_of("colour", lever_colours()).value_or("");
  range.up_to = map.needed("up to", unit::rev_per_min);
  map.finish();
  return range;
}

void read_ranges(MapReader& map, Machine& m) {
  const Node* ranges = map.find("lever ranges");
  if (ranges == nullptr) return;
  for (const Node* item : as_list(*ranges))
    m.lever_ranges.push_back(read_range(*item, map.notes()));
  std::sort(m.lever_ranges.begin(), m.lever_ranges.end(),
            [](const LeverRange& a, const LeverRange& b) { return a.up_to < b.up_to; });
}

void read_speeds(MapReader& map, Machine& m) {
  m.ladder = quantities(map, "ladder", unit::rev_per_min);
  std::sort(m.ladder.begin(), m.ladder.end());
  if (!m.ladder.empty()) {
    map.find("slowest");
    map.find("fastest");
    m.slowest = m.ladder.front();
    m.fastest = m.ladder.back();
  } else {
    m.slowest = map.needed("slowest", unit::rev_per_min);
    m.fastest = map.needed("fastest", unit::rev_per_min);
  }
  m.feeds = quantities(map, "feeds", unit::mm_per_rev);
  std::sort(m.feeds.begin(), m.feeds.end());
  const bool ladder = m.ladder.empty() || m.ladder.front().si > 0;
  if (!ladder || m.fastest.si <= 0 || m.slowest.si > m.fastest.si)
    map.notes().add(map.node().at, 1, "shop.speeds-out-of-order", "expected.slowest-below-fastest");
  if (!m.feeds.empty() && m.feeds.front().si <= 0)
    map.notes().add(*map.find("feeds"), "shop.feeds-above-0");
}

}  // namespace

const std::vector<std::string>& lever_colours() {
  static const std::vector<std::string> colours{"green", "blue", "yellow", "red", "black", "white"};
  return colours;
}

constexpr double most_tool = 10000;  // euros

Tool read_tool(MapReader& map) {
  Tool t;
  t.name = map.text_or("name", "");
  t.insert = map.text_or("insert", "");
  map.need("kind");
  t.kind = tool_kind(map);
  t.grade = map.text_or("grade", "coated carbide");
  t.lead_angle = map.quantity_or("lead angle", unit::deg, Number(pi / 2));
  t.nose_radius = map.quantity_or("nose radius", unit::mm, 0.4 * unit::mm);
  read_span(map, "depth", t.least_depth, t.largest_depth);
  read_span(map, "feed", t.least_feed, t.largest_feed);
  t.copying_angle = map.quantity_or("copying angle", unit::deg, Number(0.0));
  t.width = map.quantity_or("width", unit::mm, Length(0.0));
  t.reach = map.quantity_or("reach", unit::mm, Length(0.0));
  t.sizes = quantities(map, "sizes", unit::mm);
  std::sort(t.sizes.begin(), t.sizes.end());
  t.inch_set = map.yes_no("inch set").value_or(false);
  t.deepest = map.quantity_or("deepest", unit::ratio, Number(0.0)).si;
  t.least_bore = map.quantity_or("least bore", unit::mm, Length(0.0));
  t.shank = map.quantity_or("shank", unit::mm, Length(0.0));
  t.shank_modulus = map.quantity_or("shank modulus", unit::GPa, 207.0 * unit::GPa);
  t.profile_angle = map.quantity_or("profile angle", unit::deg, Number(0.0));
  const auto lathe = map.one_of("for", {"both", "manual", "CNC"});
  t.for_lathe = lathe == "manual" ? ToolFor::manual : lathe == "CNC" ? ToolFor::cnc : ToolFor::both;
  t.edges = map.whole("edges", 1, 100).value_or(1);
  t.price = money_in_range(map, "price", unit::money, most_tool).value_or(Amount(0.0));
  t.edge_change = map.quantity_or("edge change", unit::min, Time(0.0));
  t.source = source_of(map);
  if (any_below_0(t.nose_radius, t.width, t.reach, t.least_bore, t.shank, t.edge_change,
                  Number(t.deepest)))
    map.notes().add(map.node().at, 1, "shop.tool-below-0", "expected.0-or-more");
  const bool plunges = t.kind == ToolKind::groove || t.kind == ToolKind::part_off ||
                       t.kind == ToolKind::inside_groove || t.kind == ToolKind::face_groove;
  if (made_in_sizes(t.kind) && (t.sizes.empty() || t.sizes.front().si <= 0))
    map.notes().add(map.node().at, 1, "shop.no-sizes", verbatim("sizes: [6, 8, 10]"));
  if (t.kind == ToolKind::bore && (t.shank.si <= 0 || t.least_bore.si < t.shank.si))
    map.notes().add(map.node().at, 1, "shop.bar-too-thick", verbatim("shank: 16, least bore: 20"));
  if (plunges && t.width.si <= 0)
    map.notes().add(map.node().at, 1, "shop.no-width", verbatim("width: 3"));
  if (t.largest_feed.si <= 0)
    map.notes().add(map.node().at, 1, "shop.no-feeds", verbatim("feed: {from: 0.1, to: 0.3}"));
  return t;
}

constexpr double most_people = 4;  // at one machine

namespace {

void check_machine(MapReader& map, const Machine& m) {
  if (m.efficiency <= 0 || !all_above_0(m.power, m.rapid, m.largest_torque))
    map.notes().add(map.node().at, 1, "shop.machine-above-0");
  const Chuck& chuck = m.chuck;
  if (!all_above_0(m.largest_diameter, m.largest_length, m.heaviest_work) ||
      (map.find("chuck") != nullptr && !all_above_0(chuck.diameter, chuck.rated_speed)))
    map.notes().add(map.node().at, 1, "shop.machine-sizes-above-0");
  if (any_below_0(m.swing_over_cross_slide, m.spindle_bore, m.compound_travel, m.acceleration_time,
                  chuck.jaw_clearance, chuck.grip_force, chuck.jaw_length))
    map.notes().add(map.node().at, 1, "shop.machine-below-0", "expected.0-or-more");
  if (const Node* node = map.find("chuck");
      node != nullptr && m.largest_diameter.si > 0 && chuck.diameter > m.largest_diameter)
    map.notes().add(
        *node,
        {"shop.chuck-too-large", {{"chuck", chuck.diameter}, {"largest", m.largest_diameter}}},
        "expected.chuck-that-swings");
}

}  // namespace

Machine read_machine(MapReader& map) {
  Machine m;
  m.name = map.text_or("name", "");
  map.need("kind");
  m.kind =
      map.one_of("kind", {"manual", "CNC"}) == "manual" ? MachineKind::manual : MachineKind::cnc;
  read_speeds(map, m);
  read_ranges(map, m);
  m.power = map.needed("power", unit::kW);
  m.efficiency = share_up_to(map, "efficiency", 1, 0.8);
  m.largest_torque = map.needed("largest torque", unit::Nm);
  m.largest_diameter = map.needed("largest diameter", unit::mm);
  m.swing_over_cross_slide =
      map.quantity_or("swing over cross slide", unit::mm, m.largest_diameter);
  m.largest_length = map.needed("largest length", unit::mm);
  m.spindle_bore = map.quantity_or("spindle bore", unit::mm, Length(0.0));
  m.heaviest_work = map.quantity_or("heaviest work", unit::kg, 1000.0 * unit::kg);
  m.rapid = in_range(map, "rapid", unit::m_per_min, slowest_rapid, fastest_rapid)
                .value_or(10.0 * unit::m_per_min);
  m.acceleration_time = map.quantity_or("acceleration time", unit::s, Time(0.0));
  if (const Node* chuck = map.need("chuck")) m.chuck = read_chuck(*chuck, map.notes());
  m.tailstock = map.yes_no("tailstock").value_or(true);
  m.bar_fed = map.yes_no("bar fed").value_or(false);
  m.stations = map.whole("stations", 1, 1000).value_or(0);
  // Compound slides travel about 100 mm (typical).
  m.compound_travel = map.quantity_or("compound travel", unit::mm, 100.0 * unit::mm);
  m.steady = map.yes_no("steady").value_or(m.manual());
  m.follow_rest = map.yes_no("follow rest").value_or(m.manual());
  m.face_plate = map.yes_no("face plate").value_or(false);
  m.four_jaw = map.yes_no("four-jaw chuck").value_or(m.manual());
  m.parts_catcher = map.yes_no("parts catcher").value_or(m.bar_fed);
  m.worn = map.one_of("condition", {"good", "worn"}) == "worn";
  m.flood = map.one_of("coolant", {"flood", "dry"}) != "dry";
  m.finest_grade = map.whole("finest grade", 4, 14).value_or(7);
  if (const Node* rate = map.need("rate")) m.rate = read_rate(*rate, map.notes());
  m.operator_share = share_up_to(map, "operator share", most_people, 1);
  if (const Node* tools = map.find("mounted tools"))
    for (const Node* item : as_list(*tools))
      if (const auto text = read_text(*item, map.notes(), "expected.tool-name"))
        m.mounted_tools.push_back(*text);
  m.source = source_of(map);
  check_machine(map, m);
  return m;
}

}  // namespace turnwright
