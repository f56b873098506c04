// SPDX-License-Identifier: MIT
// Materials, the cutting table and its factors.
#include <algorithm>

#include "record.hpp"
#include "turnwright/quantity/date.hpp"

namespace turnwright {
namespace {

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
  map.notes().add(*node, found(*node), "expected.hardness");
  return range;
}

CuttingRow read_cutting_row(const Node& node, ProblemList& notes) {
  CuttingRow row;
  MapReader map(node, notes, "shop.a-cutting-row");
  row.hardness = hardness_of(map);
  row.grade = map.text_or("grade", "");
  row.depth = quantities(map, "depth", unit::mm);
  row.feed = quantities(map, "feed", unit::mm_per_rev);
  row.speed = quantities(map, "speed", unit::m_per_min);
  map.text("note");
  if (row.depth.empty()) notes.add(node.at, 1, "shop.no-depths", verbatim("depth: [1, 4]"));
  same_length(map, row.depth, row.feed, "depth, feed");
  same_length(map, row.depth, row.speed, "depth, speed");
  map.finish();
  return row;
}

}  // namespace

Material read_material(MapReader& map) {
  Material m;
  m.name = map.text_or("name", "");
  if (const Node* also = map.find("also"))
    for (const Node* item : as_list(*also))
      if (const auto text = read_text(*item, map.notes(), "expected.name")) m.also.push_back(*text);
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
  if (const Node* node = map.find("price date")) {
    m.price_date = node->text;
    if (!read_date(m.price_date))
      map.notes().add(*node, {"shop.no-day", {{"text", node->text}}}, "expected.day");
  }
  m.source = source_of(map);
  if (m.density.si <= 0 || m.kc11.si <= 0 || m.elastic_modulus.si <= 0)
    map.notes().add(map.node().at, 1, "shop.material-above-0");
  return m;
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

StepFactor read_step_factor(MapReader& map) {
  StepFactor op;
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
    map.notes().add(map.node().at, 1, "shop.grade-out-of-range", "expected.exponent-and-life");
  return g;
}

DeepHoles read_deep_holes(MapReader& map) {
  DeepHoles d;
  map.text("name");
  d.ratio = ratios(map, "ratio");
  d.speed = ratios(map, "speed");
  d.feed = ratios(map, "feed");
  same_length(map, d.ratio, d.speed, "ratio, speed");
  same_length(map, d.ratio, d.feed, "ratio, feed");
  d.source = source_of(map);
  return d;
}

ReamingStock read_reaming(MapReader& map) {
  ReamingStock r;
  map.text("name");
  r.up_to = quantities(map, "up to", unit::mm);
  r.least = quantities(map, "least", unit::mm);
  r.most = quantities(map, "most", unit::mm);
  same_length(map, r.up_to, r.least, "up to, least");
  same_length(map, r.up_to, r.most, "up to, most");
  r.source = source_of(map);
  return r;
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

}  // namespace turnwright
