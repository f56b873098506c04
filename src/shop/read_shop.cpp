// SPDX-License-Identifier: MIT
// The files of rates/ and of a shop folder: sections of named records, overlaid record by record.
#include <algorithm>
#include <deque>
#include <functional>
#include <map>
#include <memory>

#include "turnwright/document/reader.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright {
namespace {

struct File {
  Document document;
  std::unique_ptr<Notes> notes;
};

struct RecordNode {
  const Node* node;
  Notes* notes;
  bool own;
};

// section -> records in the order of first appearance
using Section = std::vector<std::pair<std::string, RecordNode>>;
using Sections = std::map<std::string, Section>;

const std::vector<std::string>& section_names() {
  static const std::vector<std::string> names{
      "materials",      "cutting groups", "operations",
      "factors",        "grades",         "tools",
      "machines",       "handling",       "chips",
      "gauging",        "make-ready",     "stock conditions",
      "stock handling", "chip credit",    "policy",
      "bands",          "fits",           "general tolerances",
      "reliefs",        "centre holes",   "circlips",
      "thread run-outs", "thread passes", "knurls",
      "holdings",       "outside work",   "deep holes",
      "reaming stock"};
  return names;
}

std::string record_name(const Node& node) {
  for (const Member& member : node.members)
    if (member.key == "name") return member.value.text;
  return "";
}

void gather_section(const Member& member, File& file, bool own, Sections& sections) {
  if (member.value.kind != Node::Kind::list) {
    file.notes->add(member.value, "found " + described(member.value), "a list of records");
    return;
  }
  Section& section = sections[member.key];
  std::vector<std::string> here;
  for (const Node& item : member.value.items) {
    const std::string name = record_name(item);
    if (name.empty()) {
      file.notes->add(item, "a record without a name", "a map with 'name: …'");
      continue;
    }
    if (std::find(here.begin(), here.end(), name) != here.end())
      file.notes->add(item, "the record '" + name + "' stands twice", "each name once");
    here.push_back(name);
    const auto old = std::find_if(section.begin(), section.end(),
                                  [&](const auto& entry) { return entry.first == name; });
    const RecordNode record{&item, file.notes.get(), own};
    if (old == section.end())
      section.emplace_back(name, record);
    else
      old->second = record;
  }
}

void gather(File& file, bool own, Sections& sections) {
  const Node& root = file.document.root;
  if (root.kind == Node::Kind::nothing) return;
  if (root.kind != Node::Kind::map) {
    file.notes->add(root, "found " + described(root), "sections as 'name:' with a list of records");
    return;
  }
  for (const Member& member : root.members) {
    if (member.key == "description" || member.key == "sources") continue;
    if (member.key == "units") {
      if (member.value.text != "metric")
        file.notes->add(member.value, "found " + described(member.value),
                        "metric; an inch value takes its unit, as in 1.25 in");
      continue;
    }
    const auto& names = section_names();
    if (std::find(names.begin(), names.end(), member.key) == names.end()) {
      file.notes->add(member.at, static_cast<int>(member.key.size()),
                      "unknown section '" + member.key + "'", "a section of rates",
                      nearest(member.key, names));
      continue;
    }
    gather_section(member, file, own, sections);
  }
}

Source source_of(MapReader& map) {
  Source source;
  if (map.need("source") != nullptr) source.text = map.text_or("source", "");
  static const std::vector<std::string> words{"found", "own records", "common practice",
                                              "from memory", "typical"};
  map.need("basis");
  const auto word = map.one_of("basis", words);
  if (word == "found") source.basis = Basis::found;
  if (word == "own records") source.basis = Basis::own_records;
  if (word == "common practice") source.basis = Basis::common_practice;
  if (word == "from memory") source.basis = Basis::from_memory;
  if (const auto band = map.quantity("band", unit::ratio)) {
    source.band = band->si;
    if (band->si < 0 || band->si >= 1)
      map.notes().add(map.node().at, 1, "a band of " + readable(band->si),
                      "a share from 0 to below 1");
  }
  return source;
}

template <Dim D>
std::vector<Quantity<D>> quantities(MapReader& map, std::string_view key, const UnitOf<D>& unit) {
  std::vector<Quantity<D>> list;
  const Node* node = map.find(key);
  if (node == nullptr) return list;
  for (const Node* item : as_list(*node))
    if (const auto si = read_si(*item, unit, map.notes())) list.emplace_back(*si);
  return list;
}

// Lists that are read beside each other must be of one length.
template <class A, class B>
void same_length(MapReader& map, const A& a, const B& b, std::string_view what) {
  if (a.size() != b.size())
    map.notes().add(map.node().at, 1, std::string(what) + " are not of one length",
                    "as many values in each list");
}

HardnessRange hardness_of(MapReader& map) {
  HardnessRange range;
  const Node* node = map.need("hardness");
  if (node == nullptr) return range;
  std::string text = node->text;
  if (text.ends_with(" HB")) text.resize(text.size() - 3);
  const auto low = leading_number(text, false);
  std::string_view rest = low ? std::string_view(text).substr(low->used) : std::string_view{};
  if (low && rest.empty()) return {low->value, low->value};
  if (low && rest.starts_with("-")) {
    const auto high = read_number(rest.substr(1));
    if (high && *high >= low->value) return {low->value, *high};
  }
  map.notes().add(*node, "found " + described(*node), "a range as 270-330 HB");
  return range;
}

Material read_material(MapReader& map) {
  Material m;
  m.name = map.text_or("name", "");
  if (const Node* also = map.find("also"))
    for (const Node* item : as_list(*also))
      if (const auto text = read_text(*item, map.notes(), "a name")) m.also.push_back(*text);
  m.condition = map.text_or("condition", "");
  map.need("group");
  m.group = map.text_or("group", "");
  m.hardness = hardness_of(map);
  m.density = map.needed("density", unit::kg_per_m3);
  m.elastic_modulus = map.needed("elastic modulus", unit::GPa);
  m.kc11 = map.needed("kc1.1", unit::N_per_mm2);
  m.mc = map.quantity_or("mc", unit::ratio, Number(0.2)).si;
  m.short_chips = map.one_of("chips", {"long", "short"}) == "short";
  m.chips_burn = map.yes_no("chips burn").value_or(false);
  m.price = map.quantity("price", unit::money_per_kg);
  m.price_confirmed = map.one_of("price status", {"placeholder", "confirmed"}) == "confirmed";
  m.price_date = map.text_or("price date", "");
  m.source = source_of(map);
  if (m.density.si <= 0 || m.kc11.si <= 0 || m.elastic_modulus.si <= 0)
    map.notes().add(map.node().at, 1, "density, modulus and kc1.1 must be above 0");
  return m;
}

CuttingRow read_cutting_row(const Node& node, Notes& notes) {
  CuttingRow row;
  MapReader map(node, notes, "a row of the cutting table");
  row.hardness = hardness_of(map);
  row.grade = map.text_or("grade", "");
  row.depth = quantities(map, "depth", unit::mm);
  row.feed = quantities(map, "feed", unit::mm_per_rev);
  row.speed = quantities(map, "speed", unit::m_per_min);
  map.find("note");
  if (row.depth.empty()) notes.add(node.at, 1, "a row without depths", "depth: [1, 4]");
  same_length(map, row.depth, row.feed, "depth and feed");
  same_length(map, row.depth, row.speed, "depth and speed");
  map.finish();
  return row;
}

CuttingGroup read_cutting_group(MapReader& map) {
  CuttingGroup group;
  group.name = map.text_or("name", "");
  group.iso513 = map.text_or("iso 513", "");
  if (const Node* rows = map.need("rows"))
    for (const Node* item : as_list(*rows))
      group.rows.push_back(read_cutting_row(*item, map.notes()));
  std::stable_sort(group.rows.begin(), group.rows.end(),
                   [](const auto& a, const auto& b) { return a.hardness.low < b.hardness.low; });
  group.source = source_of(map);
  return group;
}

OperationFactor read_operation(MapReader& map) {
  OperationFactor op;
  op.name = map.text_or("name", "");
  op.speed = map.needed("speed factor", unit::ratio).si;
  op.feed_share_of_width = map.quantity_or("feed share of width", unit::ratio, Number(0.0)).si;
  op.source = source_of(map);
  return op;
}

Grade read_grade(MapReader& map) {
  Grade g;
  g.name = map.text_or("name", "");
  g.exponent = map.needed("exponent", unit::ratio).si;
  g.reference_life = map.needed("reference life", unit::min);
  g.feed_exponent = map.quantity_or("feed exponent", unit::ratio, Number(0.0)).si;
  g.source = source_of(map);
  if (g.exponent <= 0 || g.exponent >= 1 || g.reference_life.si <= 0)
    map.notes().add(map.node().at, 1, "an exponent or life out of range",
                    "an exponent between 0 and 1, a life above 0");
  return g;
}

void read_span(MapReader& map, std::string_view key, Length& from, Length& to) {
  const Node* node = map.find(key);
  if (node == nullptr) return;
  MapReader span(*node, map.notes(), key);
  from = span.needed("from", unit::mm);
  to = span.needed("to", unit::mm);
  span.finish();
}

ToolKind tool_kind(MapReader& map) {
  static const std::vector<std::pair<std::string, ToolKind>> kinds{
      {"rough", ToolKind::rough},
      {"finish", ToolKind::finish},
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
  for (const auto& [word, kind] : kinds) words.push_back(word);
  const auto said = map.one_of("kind", words);
  for (const auto& [word, kind] : kinds)
    if (said == word) return kind;
  return ToolKind::rough;
}

bool made_in_sizes(ToolKind kind) {
  return kind == ToolKind::drill || kind == ToolKind::ream || kind == ToolKind::tap ||
         kind == ToolKind::die || kind == ToolKind::countersink;
}

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
  t.deepest = map.quantity_or("deepest", unit::ratio, Number(0.0)).si;
  t.least_bore = map.quantity_or("least bore", unit::mm, Length(0.0));
  t.shank = map.quantity_or("shank", unit::mm, Length(0.0));
  t.shank_modulus = map.quantity_or("shank modulus", unit::GPa, 207.0 * unit::GPa);
  t.profile_angle = map.quantity_or("profile angle", unit::deg, Number(0.0));
  const auto lathe = map.one_of("for", {"both", "manual", "CNC"});
  t.for_lathe = lathe == "manual" ? ToolFor::manual
                : lathe == "CNC"  ? ToolFor::cnc
                                  : ToolFor::both;
  t.edges = map.whole("edges", 1, 100).value_or(1);
  t.price = map.quantity_or("price", unit::money, Amount(0.0));
  t.edge_change = map.quantity_or("edge change", unit::min, Time(0.0));
  t.source = source_of(map);
  const bool plunges = t.kind == ToolKind::groove || t.kind == ToolKind::part_off ||
                       t.kind == ToolKind::inside_groove || t.kind == ToolKind::face_groove;
  if (made_in_sizes(t.kind) && (t.sizes.empty() || t.sizes.front().si <= 0))
    map.notes().add(map.node().at, 1, "a set of tools without sizes", "sizes: [6, 8, 10]");
  if (t.kind == ToolKind::bore && (t.shank.si <= 0 || t.least_bore.si < t.shank.si))
    map.notes().add(map.node().at, 1, "a boring bar that does not pass its least bore",
                    "shank: 16 and least bore: 20");
  if (plunges && t.width.si <= 0)
    map.notes().add(map.node().at, 1, "a plunging tool without width", "width: 3");
  if (t.largest_feed.si <= 0)
    map.notes().add(map.node().at, 1, "a tool without feeds", "feed: {from: 0.1, to: 0.3}");
  return t;
}

Chuck read_chuck(const Node& node, Notes& notes) {
  Chuck c;
  MapReader map(node, notes, "a chuck");
  c.diameter = map.needed("diameter", unit::mm);
  c.rated_speed = map.needed("rated speed", unit::rev_per_min);
  c.jaw_clearance = map.quantity_or("jaw clearance", unit::mm, 3.0 * unit::mm);
  c.grip_force =
      1000.0 *
      map.quantity_or("grip force", UnitOf<Dim{1, 1, -2}>{"kN", 1000, 1}, 40000.0 * unit::N) /
      1000.0;
  map.finish();
  return c;
}

HourlyRate read_rate(const Node& node, Notes& notes) {
  HourlyRate r;
  // "75 EUR/h" and "75 EUR/h all-in" are the short form of {all-in: 75 EUR/h}.
  if (node.kind == Node::Kind::text) {
    Node number = node;
    if (number.text.ends_with(" all-in")) number.text.resize(number.text.size() - 7);
    if (const auto si = read_si(number, unit::money_per_h, notes)) r.all_in = Rate(*si);
    return r;
  }
  MapReader map(node, notes, "a rate");
  r.all_in = map.quantity("all-in", unit::money_per_h);
  if (!r.all_in) {
    r.machine = map.needed("machine", unit::money_per_h);
    r.person = map.needed("person", unit::money_per_h);
    r.overhead = map.quantity_or("overhead", unit::ratio, Number(0.0)).si;
  }
  map.finish();
  return r;
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
  if (m.fastest.si <= 0 || m.slowest.si > m.fastest.si)
    map.notes().add(map.node().at, 1, "spindle speeds out of order", "slowest below fastest");
}

Machine read_machine(MapReader& map) {
  Machine m;
  m.name = map.text_or("name", "");
  map.need("kind");
  m.kind =
      map.one_of("kind", {"manual", "CNC"}) == "manual" ? MachineKind::manual : MachineKind::cnc;
  read_speeds(map, m);
  m.power = map.needed("power", unit::kW);
  m.efficiency = map.quantity_or("efficiency", unit::ratio, Number(0.8)).si;
  m.largest_torque = map.needed("largest torque", unit::Nm);
  m.largest_diameter = map.needed("largest diameter", unit::mm);
  m.swing_over_cross_slide =
      map.quantity_or("swing over cross slide", unit::mm, m.largest_diameter);
  m.largest_length = map.needed("largest length", unit::mm);
  m.spindle_bore = map.quantity_or("spindle bore", unit::mm, Length(0.0));
  m.heaviest_work = map.quantity_or("heaviest work", unit::kg, 1000.0 * unit::kg);
  m.rapid = map.quantity_or("rapid", unit::m_per_min, 10.0 * unit::m_per_min);
  m.acceleration_time = map.quantity_or("acceleration time", unit::s, Time(0.0));
  if (const Node* chuck = map.need("chuck")) m.chuck = read_chuck(*chuck, map.notes());
  m.tailstock = map.yes_no("tailstock").value_or(true);
  m.bar_fed = map.yes_no("bar fed").value_or(false);
  m.stations = map.whole("stations", 1, 1000).value_or(0);
  // Compound slides travel about 100 mm (typical).
  m.compound_travel = map.quantity_or("compound travel", unit::mm, 100.0 * unit::mm);
  m.steady = map.yes_no("steady").value_or(m.manual());
  m.four_jaw = map.yes_no("four-jaw chuck").value_or(m.manual());
  m.parts_catcher = map.yes_no("parts catcher").value_or(m.bar_fed);
  m.worn = map.one_of("condition", {"good", "worn"}) == "worn";
  m.flood = map.one_of("coolant", {"flood", "dry"}) != "dry";
  m.finest_grade = map.whole("finest grade", 4, 14).value_or(7);
  if (const Node* rate = map.need("rate")) m.rate = read_rate(*rate, map.notes());
  m.operator_share = map.quantity_or("operator share", unit::ratio, Number(1.0)).si;
  if (const Node* tools = map.find("standing tools"))
    for (const Node* item : as_list(*tools))
      if (const auto text = read_text(*item, map.notes(), "a tool's name"))
        m.standing_tools.push_back(*text);
  m.source = source_of(map);
  if (m.power.si <= 0 || m.efficiency <= 0 || m.rapid.si <= 0)
    map.notes().add(map.node().at, 1, "power, efficiency and rapid must be above 0");
  return m;
}

HandlingElement read_element(MapReader& map, const UnitOf<Dim{0, 0, 1}>& unit) {
  HandlingElement e;
  e.name = map.text_or("name", "");
  e.manual = map.needed("manual", unit);
  e.cnc = map.needed("CNC", unit);
  e.source = source_of(map);
  return e;
}

LoadTimes read_load(MapReader& map) {
  LoadTimes load;
  map.text("name");
  load.up_to = quantities(map, "mass", unit::kg);
  load.manual = quantities(map, "manual", unit::s);
  load.cnc = quantities(map, "CNC", unit::s);
  same_length(map, load.up_to, load.manual, "mass and manual");
  same_length(map, load.up_to, load.cnc, "mass and CNC");
  load.source = source_of(map);
  return load;
}

void read_size_table(MapReader& map, std::string_view key, std::string_view value_key,
                     std::vector<Length>& sizes, std::vector<Length>& values) {
  const Node* node = map.find(key);
  if (node == nullptr) return;
  MapReader table(*node, map.notes(), key);
  sizes = quantities(table, "sizes", unit::mm);
  values = quantities(table, value_key, unit::mm);
  same_length(table, sizes, values, "sizes and values");
  table.finish();
}

StockCondition read_condition(MapReader& map) {
  StockCondition c;
  c.name = map.text_or("name", "");
  c.sizes = quantities(map, "sizes", unit::mm);
  std::sort(c.sizes.begin(), c.sizes.end());
  c.inch_sizes = quantities(map, "inch sizes", unit::inch);
  std::sort(c.inch_sizes.begin(), c.inch_sizes.end());
  read_size_table(map, "upper", "over", c.upper_to, c.upper_over);
  read_size_table(map, "clean-up", "on diameter", c.clean_up_to, c.clean_up);
  c.facing = map.needed("facing", unit::mm);
  c.skin = map.yes_no("skin").value_or(false);
  c.price_factor = map.quantity_or("price factor", unit::ratio, Number(1.0)).si;
  c.source = source_of(map);
  return c;
}

BarRules read_bars(MapReader& map) {
  BarRules bars;
  map.text("name");
  bars.bar_length = map.needed("bar length", unit::mm);
  bars.saw_kerf = map.needed("saw kerf", unit::mm);
  bars.bar_end = map.needed("bar end", unit::mm);
  bars.cut_charge = map.quantity_or("cut charge", unit::money, Amount(0.0));
  bars.source = source_of(map);
  return bars;
}

FitRow read_fit(MapReader& map) {
  FitRow row;
  const std::string name = map.text_or("name", "");
  row.hole = name.starts_with("hole");
  const std::size_t blank = name.find(' ');
  row.letters = map.text_or("letters", blank == std::string::npos ? name : name.substr(blank + 1));
  const auto side = map.one_of("side", {"upper", "lower", "centred"});
  row.side = side == "lower"     ? FitRow::Side::lower
             : side == "centred" ? FitRow::Side::centred
                                 : FitRow::Side::upper;
  if (const auto grades = map.text("grades")) {
    const auto dash = grades->find('-');
    const auto low = read_number(grades->substr(0, dash));
    const auto high = dash == std::string::npos ? low : read_number(grades->substr(dash + 1));
    if (low && high) {
      row.finest = static_cast<int>(*low);
      row.coarsest = static_cast<int>(*high);
    }
  }
  row.up_to = quantities(map, "up to", unit::mm);
  row.deviation = quantities(map, "deviation", unit::um);
  same_length(map, row.up_to, row.deviation, "up to and deviation");
  row.source = source_of(map);
  return row;
}

GeneralTolerance read_general(MapReader& map) {
  GeneralTolerance row;
  row.name = map.text_or("name", "");
  row.up_to = quantities(map, "up to", unit::mm);
  row.plus_minus = quantities(map, "plus minus", unit::mm);
  same_length(map, row.up_to, row.plus_minus, "up to and plus minus");
  if (row.plus_minus.empty()) map.notes().add(map.node().at, 1, "a tolerance without values");
  row.source = source_of(map);
  return row;
}

ReliefSize read_relief(MapReader& map) {
  ReliefSize r;
  map.text("name");
  r.up_to = map.needed("up to", unit::mm);
  r.radius = map.needed("radius", unit::mm);
  r.depth = map.needed("depth", unit::mm);
  r.width = map.needed("width", unit::mm);
  r.face_depth = map.needed("face depth", unit::mm);
  r.face_height = map.needed("face height", unit::mm);
  r.source = source_of(map);
  return r;
}

CentreHole read_centre_hole(MapReader& map) {
  CentreHole c;
  map.text("name");
  c.shaft_up_to = map.needed("shaft up to", unit::mm);
  c.pilot = map.needed("pilot", unit::mm);
  c.countersink = map.needed("countersink", unit::mm);
  c.protected_countersink = map.needed("protected", unit::mm);
  c.source = source_of(map);
  return c;
}

void read_circlips(MapReader& map, Standards& standards) {
  const bool inside = map.text_or("name", "") == "inside";
  const auto diameter = quantities(map, inside ? "bore" : "shaft", unit::mm),
             width = quantities(map, "width", unit::mm),
             bottom = quantities(map, "bottom", unit::mm);
  same_length(map, diameter, width, "diameter and width");
  same_length(map, diameter, bottom, "diameter and bottom");
  auto& rows = inside ? standards.inside_circlips : standards.circlips;
  rows.clear();
  for (std::size_t i = 0; i < std::min({diameter.size(), width.size(), bottom.size()}); ++i)
    rows.push_back({diameter[i], width[i], bottom[i]});
  standards.circlip_source = source_of(map);
}

ThreadRunout read_runout(MapReader& map) {
  ThreadRunout r;
  map.text("name");
  r.pitch = map.needed("pitch", unit::mm);
  r.width = map.needed("width", unit::mm);
  r.short_width = map.needed("short width", unit::mm);
  r.inside_width = map.needed("inside width", unit::mm);
  r.below = map.needed("below", unit::mm);
  r.above = map.needed("above", unit::mm);
  r.blind = map.needed("blind", unit::mm);
  r.source = source_of(map);
  return r;
}

ThreadPasses read_thread_passes(MapReader& map) {
  ThreadPasses t;
  map.text("name");
  t.pitch = quantities(map, "pitch", unit::mm);
  for (const Number n : quantities(map, "passes", unit::ratio)) t.passes.push_back(n.si);
  same_length(map, t.pitch, t.passes, "pitch and passes");
  t.largest_infeed = map.needed("largest infeed", unit::mm);
  t.last_infeed = map.needed("last infeed", unit::mm);
  t.first_weight = map.needed("first weight", unit::ratio).si;
  t.inside_factor = map.needed("inside factor", unit::ratio).si;
  t.hss_factor = map.needed("hss factor", unit::ratio).si;
  t.spring_manual = map.whole("spring passes manual", 0, 10).value_or(0);
  t.spring_cnc = map.whole("spring passes CNC", 0, 10).value_or(0);
  t.source = source_of(map);
  if (t.pitch.empty() || t.last_infeed.si <= 0 || t.largest_infeed < t.last_infeed ||
      t.first_weight <= 0 || t.inside_factor <= 0 || t.hss_factor <= 0)
    map.notes().add(map.node().at, 1, "thread passes that cannot be worked with",
                    "pitches, and infeeds and factors above 0");
  return t;
}

std::vector<double> ratios(MapReader& map, std::string_view key) {
  std::vector<double> list;
  for (const Number n : quantities(map, key, unit::ratio)) list.push_back(n.si);
  return list;
}

DeepHoles read_deep_holes(MapReader& map) {
  DeepHoles d;
  map.text("name");
  d.ratio = ratios(map, "ratio");
  d.speed = ratios(map, "speed");
  d.feed = ratios(map, "feed");
  same_length(map, d.ratio, d.speed, "ratio and speed");
  same_length(map, d.ratio, d.feed, "ratio and feed");
  d.source = source_of(map);
  return d;
}

ReamingStock read_reaming(MapReader& map) {
  ReamingStock r;
  map.text("name");
  r.up_to = quantities(map, "up to", unit::mm);
  r.least = quantities(map, "least", unit::mm);
  r.most = quantities(map, "most", unit::mm);
  same_length(map, r.up_to, r.least, "up to and least");
  same_length(map, r.up_to, r.most, "up to and most");
  r.source = source_of(map);
  return r;
}

OutsideWork read_outside_work(MapReader& map) {
  OutsideWork w;
  w.name = map.text_or("name", "");
  w.each = map.needed("each", unit::money);
  w.lot = map.quantity_or("lot", unit::money, Amount(0.0));
  w.days = map.quantity_or("days", unit::ratio, Number(0.0)).si;
  w.source = source_of(map);
  return w;
}

void read_factors(MapReader& map, Shop& shop) {
  const std::string name = map.text_or("name", "");
  for (const Member& member : map.node().members) {
    if (member.key == "name" || member.key == "source" || member.key == "basis" ||
        member.key == "band")
      continue;
    if (const Node* value = map.find(member.key))
      if (const auto si = read_si(*value, unit::ratio, map.notes()))
        shop.factors[name + " " + member.key] = *si;
  }
  source_of(map);
}

void read_policy(MapReader& map, Policy& p) {
  const std::string name = map.text_or("name", "");
  const Node* value = map.need("value");
  if (value == nullptr) return;
  auto ratio = [&] { return map.quantity_or("value", unit::ratio, Number(0.0)).si; };
  auto money = [&] { return rounded(map.quantity_or("value", unit::money, Amount(0.0))); };
  static const std::vector<std::string> known{"currency",
                                              "margin",
                                              "markup",
                                              "overhead on material",
                                              "overhead on outside work",
                                              "minimum order",
                                              "price step",
                                              "scrap share",
                                              "setting pieces",
                                              "allowance",
                                              "whole edges up to",
                                              "turn round up to",
                                              "either within",
                                              "roughness factor",
                                              "ladder band",
                                              "deflection share",
                                              "chuck compliance"};
  if (name == "currency")
    p.currency = map.text_or("value", "EUR");
  else if (name == "margin" || name == "markup")
    p.margin = ratio(), p.markup = name == "markup";
  else if (name == "overhead on material")
    p.overhead_on_material = ratio();
  else if (name == "overhead on outside work")
    p.overhead_on_outside = ratio();
  else if (name == "minimum order")
    p.minimum_order = money();
  else if (name == "price step")
    p.price_step = money();
  else if (name == "scrap share")
    p.scrap_share = ratio();
  else if (name == "setting pieces")
    p.setting_pieces = map.whole("value", 0, 1000).value_or(0);
  else if (name == "allowance") {
    p.allowance = ratio();
    p.allowance_on_shift = map.one_of("on", {"work", "shift"}) == "shift";
  } else if (name == "whole edges up to")
    p.whole_edges_up_to = map.whole("value", 0, 1000000).value_or(0);
  else if (name == "turn round up to")
    p.turn_round_up_to = map.whole("value", 0, 1000).value_or(0);
  else if (name == "either within")
    p.either_within = ratio();
  else if (name == "roughness factor")
    p.roughness_factor = ratio();
  else if (name == "ladder band")
    p.ladder_band = ratio();
  else if (name == "deflection share")
    p.deflection_share = ratio();
  else if (name == "chuck compliance")
    p.chuck_compliance = ratio() * 1e-6;
  else
    map.notes().add(map.node().at, 1, "unknown policy '" + name + "'", "a policy that is used",
                    nearest(name, known));
  const bool share = name == "margin" || name == "scrap share" || name == "allowance";
  if (share && (ratio() < 0 || ratio() >= 0.95))
    map.notes().add(*value, "found " + described(*value), "a share from 0 to below 0.95");
  if (name == "price step" && p.price_step.hundredths() <= 0) {
    map.notes().add(*value, "found " + described(*value), "a step of at least 0.01");
    p.price_step = Money::from_hundredths(1);
  }
  p.sources[name] = source_of(map);
}

void read_band(MapReader& map, Policy& p) {
  const std::string name = map.text_or("name", "");
  const double share = map.needed("share", unit::ratio).si;
  for (const Basis basis : {Basis::given, Basis::own_records, Basis::found, Basis::common_practice,
                            Basis::from_memory, Basis::typical})
    if (name == name_of(basis)) p.bands[basis] = share;
  source_of(map);
}

// The section's records, each handed to `read` as a map whose unknown keys are reported.
void each_record(const Sections& sections, std::string_view name,
                 const std::function<void(MapReader&, bool own)>& read) {
  const auto section = sections.find(std::string(name));
  if (section == sections.end()) return;
  for (const auto& [record, node] : section->second) {
    MapReader map(*node.node, *node.notes, "a record of " + std::string(name));
    if (!map.is_map()) continue;
    read(map, node.own);
    map.finish();
  }
}

void read_machines(const Sections& sections, Shop& shop) {
  std::vector<Machine> shipped;
  each_record(sections, "machines", [&](MapReader& map, bool own) {
    (own ? shop.machines : shipped).push_back(read_machine(map));
    shop.own_machines = shop.own_machines || own;
  });
  // A shop with machines of its own does not quote on those it does not have.
  if (!shop.own_machines) shop.machines = std::move(shipped);
}

Shop build(const Sections& s) {
  Shop shop;
  auto add = [&s](std::string_view name, auto& into, auto read) {
    each_record(s, name, [&](MapReader& map, bool) { into.push_back(read(map)); });
  };
  add("materials", shop.materials, read_material);
  add("cutting groups", shop.cutting_groups, read_cutting_group);
  add("operations", shop.operations, read_operation);
  each_record(s, "factors", [&](MapReader& map, bool) { read_factors(map, shop); });
  add("grades", shop.grades, read_grade);
  add("tools", shop.tools, read_tool);
  read_machines(s, shop);
  each_record(s, "handling", [&](MapReader& map, bool) {
    if (record_name(map.node()) == "load")
      shop.load = read_load(map);
    else
      shop.handling.push_back(read_element(map, unit::s));
  });
  add("chips", shop.chips, [](MapReader& map) {
    return ChipShare{map.text_or("name", ""), map.needed("manual", unit::ratio).si,
                     map.needed("CNC", unit::ratio).si, source_of(map)};
  });
  add("gauging", shop.gauging, [](MapReader& map) {
    map.text("name");
    return GaugingShare{map.whole("from grade", 0, 18).value_or(0),
                        map.needed("share", unit::ratio).si, source_of(map)};
  });
  add("make-ready", shop.make_ready, [](MapReader& map) { return read_element(map, unit::min); });
  add("stock conditions", shop.conditions, read_condition);
  each_record(s, "stock handling", [&](MapReader& map, bool) { shop.bars = read_bars(map); });
  add("chip credit", shop.chip_credits, [](MapReader& map) {
    return ChipCredit{map.text_or("name", ""), map.needed("share", unit::ratio).si, source_of(map)};
  });
  add("fits", shop.standards.fits, read_fit);
  add("general tolerances", shop.standards.general, read_general);
  add("reliefs", shop.standards.reliefs, read_relief);
  add("centre holes", shop.standards.centre_holes, read_centre_hole);
  each_record(s, "circlips", [&](MapReader& map, bool) { read_circlips(map, shop.standards); });
  add("thread run-outs", shop.standards.runouts, read_runout);
  std::sort(shop.standards.runouts.begin(), shop.standards.runouts.end(),
            [](const auto& a, const auto& b) { return a.pitch < b.pitch; });
  each_record(s, "thread passes", [&](MapReader& map, bool) {
    shop.standards.thread_passes = read_thread_passes(map);
  });
  add("knurls", shop.standards.knurls, [](MapReader& map) {
    return KnurlSize{map.text_or("name", ""), map.needed("share", unit::ratio).si, source_of(map)};
  });
  add("holdings", shop.holdings, [](MapReader& map) {
    return HoldingKind{map.text_or("name", ""), map.needed("accuracy", unit::mm), source_of(map)};
  });
  add("outside work", shop.outside_work, read_outside_work);
  each_record(s, "deep holes",
              [&](MapReader& map, bool) { shop.deep_holes = read_deep_holes(map); });
  each_record(s, "reaming stock",
              [&](MapReader& map, bool) { shop.reaming = read_reaming(map); });
  each_record(s, "policy", [&](MapReader& map, bool) { read_policy(map, shop.policy); });
  each_record(s, "bands", [&](MapReader& map, bool) { read_band(map, shop.policy); });
  return shop;
}

// Names that one record uses of another.
void check_references(const Sections& s, const Shop& shop) {
  std::vector<std::string> groups, grades, tools;
  for (const auto& g : shop.cutting_groups) groups.push_back(g.name);
  for (const auto& g : shop.grades) grades.push_back(g.name);
  for (const auto& t : shop.tools) tools.push_back(t.name);
  auto check = [&s](std::string_view section, std::string_view key,
                    const std::vector<std::string>& names, const char* what) {
    const auto found = s.find(std::string(section));
    if (found == s.end()) return;
    for (const auto& [name, record] : found->second)
      for (const Member& member : record.node->members) {
        if (member.key != key) continue;
        for (const Node* item : as_list(member.value))
          if (std::find(names.begin(), names.end(), item->text) == names.end())
            record.notes->add(*item, std::string("unknown ") + what + " " + described(*item),
                              std::string("a ") + what + " of the rates",
                              nearest(item->text, names));
      }
  };
  check("materials", "group", groups, "cutting group");
  check("tools", "grade", grades, "grade");
  check("machines", "standing tools", tools, "tool");
}

}  // namespace

Checked<Shop> read_shop(const std::vector<NamedText>& files, std::size_t own_from) {
  std::deque<File> read;
  Problems problems;
  Sections sections;
  for (std::size_t i = 0; i < files.size(); ++i) {
    auto document = read_document(files[i].name, files[i].text);
    if (!document) {
      problems.insert(problems.end(), document.problems().begin(), document.problems().end());
      continue;
    }
    File& file = read.emplace_back();
    file.document = std::move(*document);
    file.notes = std::make_unique<Notes>(file.document);
    gather(file, i >= own_from, sections);
  }
  Shop shop = build(sections);
  for (const File& file : read)
    for (const Member& member : file.document.root.members)
      if (member.key == "sources")
        for (const Member& title : member.value.members)
          shop.source_titles[title.key] = title.value.text;
  check_references(sections, shop);
  for (const File& file : read)
    problems.insert(problems.end(), file.notes->problems().begin(), file.notes->problems().end());
  if (!problems.empty()) return problems;
  return shop;
}

}  // namespace turnwright
