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
  const bool hard = low && low->value >= 0;
  if (hard && rest.empty() && low->value > 0) return {low->value, low->value};
  if (hard && rest.starts_with("-")) {
    const auto high = read_number(rest.substr(1));
    if (high && *high >= low->value) return {low->value, *high};
  }
  map.notes().add(*node, found(*node), "expected.hardness");
  return range;
}

// What bar may cost, euros a kilogram: from cast iron's scrap to silver, wide of any shop's, so
// that a price for another unit, or none, is seen; typical.
constexpr double least_price = 0.1, most_price = 1000;

// A price written anew is one of today's: it is confirmed only where the record says so.
void read_price(MapReader& map, Material& m) {
  const double euro = units_per_euro(map.notes().currencies());
  if (const auto price =
          in_range(map, "price", unit::money_per_kg, least_price * euro, most_price * euro)) {
    m.price = price;
    m.price_confirmed = false;
    m.price_date.clear();
  }
  if (const auto status = map.one_of("price status", {"placeholder", "confirmed"}))
    m.price_confirmed = *status == "confirmed";
  const Node* node = map.find("price date");
  if (node == nullptr) return;
  m.price_date = node->text;
  if (!read_date(m.price_date))
    map.notes().add(*node, {"shop.no-day", {{"text", node->text}}}, "expected.day");
}

// The kinds of step that a row is for.
std::vector<StepFactorId> steps_of(MapReader& map) {
  std::vector<std::string> names;
  for (int i = 0; i < step_factor_rows; ++i)
    names.emplace_back(name_of(static_cast<StepFactorId>(i)));
  std::vector<StepFactorId> steps;
  const Node* node = map.find("for");
  if (node == nullptr) return steps;
  for (const Node* item : as_list(*node)) {
    const auto name = std::find(names.begin(), names.end(), item->text);
    if (name != names.end())
      steps.push_back(static_cast<StepFactorId>(name - names.begin()));
    else
      map.notes().add(*item, found(*item), "expected.kind-of-step", nearest(item->text, names));
  }
  return steps;
}

void check_sizes(MapReader& map, const CuttingRow& row) {
  if (row.depth.empty())
    map.notes().add(map.node().at, 1, "shop.no-depths", verbatim("depth: [1, 4]"));
  if (row.steps.empty() || !row.feed.empty()) same_length(map, row.depth, row.feed, "depth, feed");
  same_length(map, row.depth, row.speed, "depth, speed");
  const bool grows = std::adjacent_find(row.depth.begin(), row.depth.end(), [](Length a, Length b) {
                       return a >= b;
                     }) == row.depth.end();
  const auto is_zero = [](const auto& list) {
    return std::any_of(list.begin(), list.end(), [](const auto& x) { return x.si <= 0; });
  };
  if (!grows || is_zero(row.depth) || is_zero(row.feed) || is_zero(row.speed))
    map.notes().add(map.node().at, 1, "shop.depths-grow", "expected.growing-depths");
}

// What a row of a group and a row of its own have alike.
CuttingRow cutting_row_of(MapReader& map) {
  CuttingRow row;
  row.hardness = hardness_of(map);
  row.grade = map.text_or("grade", "");
  row.steps = steps_of(map);
  row.reference_life = map.quantity_or("reference life", unit::min, Time(0.0));
  row.depth = quantities(map, "depth", unit::mm);
  row.feed = quantities(map, "feed", unit::mm_per_rev);
  row.speed = quantities(map, "speed", unit::m_per_min);
  row.outside_why = map.text_or("outside found range", "");
  map.text("note");
  check_sizes(map, row);
  return row;
}

// A row without a source of its own has that of its group.
CuttingRow read_row_of_group(const Node& node, ProblemList& notes) {
  MapReader map(node, notes, "shop.a-cutting-row");
  CuttingRow row = cutting_row_of(map);
  if (map.find("source") != nullptr || map.find("basis") != nullptr) row.source = source_of(map);
  map.finish();
  return row;
}

void sort_rows(CuttingGroup& group) {
  std::stable_sort(group.rows.begin(), group.rows.end(),
                   [](const auto& a, const auto& b) { return a.hardness.low < b.hardness.low; });
}

// Written in the same group for the same grade and work.
bool stands_in_for(const CuttingRow& own, const CuttingRow& row) {
  const auto meets = [&](StepFactorId step) { return row.is_for(step); };
  return own.grade == row.grade &&
         (own.steps.empty() ? row.steps.empty()
                            : std::any_of(own.steps.begin(), own.steps.end(), meets));
}

}  // namespace

Material read_material(MapReader& map, const Material* base) {
  Material m;
  if (base != nullptr) m = *base;
  m.name = map.text_or("name", "");
  if (const Node* also = map.find("also"))
    for (const Node* item : as_list(*also))
      if (const auto text = read_text(*item, map.notes(), "expected.name")) m.also.push_back(*text);
  m.condition = map.text_or("condition", m.condition);
  if (base == nullptr)
    for (const char* key : {"group", "hardness", "density", "elastic modulus", "kc1.1"})
      map.need(key);
  m.group = map.text_or("group", m.group);
  if (map.find("hardness") != nullptr) m.hardness = hardness_of(map);
  m.density = map.quantity_or("density", unit::kg_per_m3, m.density);
  m.elastic_modulus = map.quantity_or("elastic modulus", unit::GPa, m.elastic_modulus);
  m.kc11 = map.quantity_or("kc1.1", unit::N_per_mm2, m.kc11);
  m.mc = map.quantity_or("mc", unit::ratio, Number(base != nullptr ? m.mc : 0.2)).si;
  if (const auto chips = map.one_of("chips", {"long", "short"})) m.short_chips = *chips == "short";
  m.chips_burn = map.yes_no("chips burn").value_or(m.chips_burn);
  read_price(map, m);
  if (base == nullptr || map.find("source") != nullptr || map.find("basis") != nullptr)
    m.source = source_of(map);
  else if (map.find("price") != nullptr)
    m.source = {"the shop's own price; the rest as " + base->name, Basis::own_records, {}};
  map.text("like");
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
      group.rows.push_back(read_row_of_group(*item, map.notes()));
  sort_rows(group);
  group.source = source_of(map);
  for (CuttingRow& row : group.rows)
    if (row.source.text.empty()) row.source = group.source;
  return group;
}

NamedRow read_named_row(MapReader& map) {
  NamedRow named;
  map.text("name");
  map.need("group");
  named.group = map.text_or("group", "");
  map.need("grade");
  named.row = cutting_row_of(map);
  named.row.source = source_of(map);
  return named;
}

void add_rows(const std::vector<NamedRow>& named, std::vector<CuttingGroup>& groups) {
  for (CuttingGroup& group : groups) {
    std::erase_if(group.rows, [&](const CuttingRow& row) {
      return std::any_of(named.begin(), named.end(), [&](const NamedRow& own) {
        return own.group == group.name && stands_in_for(own.row, row);
      });
    });
    for (const NamedRow& own : named)
      if (own.group == group.name) group.rows.push_back(own.row);
    sort_rows(group);
  }
}

StepFactor read_step_factor(MapReader& map) {
  StepFactor op;
  op.name = map.text_or("name", "");
  op.speed = map.needed("speed factor", unit::ratio).si;
  op.feed_share_of_width = map.quantity_or("feed share of width", unit::ratio, Number(0.0)).si;
  if (const Node* node = map.find("by grade")) {
    if (node->kind != Node::Kind::map)
      map.notes().add(*node, found(*node), "expected.shares-by-grade");
    for (const Member& member : node->members)
      if (const auto si = read_si(member.value, unit::ratio, map.notes()))
        op.by_grade[member.key] = *si;
  }
  op.source = source_of(map);
  return op;
}

Grade read_grade(MapReader& map, const Grade* base) {
  Grade g;
  if (base != nullptr) g = *base;
  g.name = map.text_or("name", "");
  g.like = map.text_or("like", "");
  if (base == nullptr) map.need("exponent"), map.need("reference life");
  g.exponent = map.quantity_or("exponent", unit::ratio, Number(g.exponent)).si;
  g.reference_life = map.quantity_or("reference life", unit::min, g.reference_life);
  g.feed_exponent = map.quantity_or("feed exponent", unit::ratio, Number(g.feed_exponent)).si;
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
