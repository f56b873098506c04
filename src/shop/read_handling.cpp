// SPDX-License-Identifier: MIT
// Handling, stock, policy: times and money beside cutting.
#include <algorithm>

#include "record.hpp"

namespace turnwright {
namespace {

void read_size_table(MapReader& map, std::string_view key, std::string_view value_key,
                     std::vector<Length>& sizes, std::vector<Length>& values) {
  const Node* node = map.find(key);
  if (node == nullptr) return;
  MapReader table(*node, map.notes(), verbatim(std::string(key)));
  sizes = quantities(table, "sizes", unit::mm);
  values = quantities(table, value_key, unit::mm);
  same_length(table, sizes, values, "sizes, values");
  table.finish();
}

}  // namespace

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
  same_length(map, load.up_to, load.manual, "mass, manual");
  same_length(map, load.up_to, load.cnc, "mass and CNC");
  load.source = source_of(map);
  return load;
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

OutsideWork read_outside_work(MapReader& map) {
  OutsideWork w;
  w.name = map.text_or("name", "");
  w.each = map.needed("each", unit::money);
  w.lot = map.quantity_or("lot", unit::money, Amount(0.0));
  w.days = map.quantity_or("days", unit::ratio, Number(0.0)).si;
  w.source = source_of(map);
  return w;
}

Correction read_correction(MapReader& map) {
  Correction c;
  c.name = map.text_or("name", "");
  if (map.need("machine") != nullptr) c.machine = map.text_or("machine", "");
  if (map.need("of") != nullptr) c.setup = map.one_of("of", {"running", "setup"}) == "setup";
  c.factor = map.needed("factor", unit::ratio).si;
  if (c.factor < 0.5 || c.factor > 3)
    map.notes().add(map.node().at, 1, {"shop.factor", {{"factor", Figure{c.factor}}}},
                    "expected.factor");
  c.source = source_of(map);
  return c;
}

namespace {

// One step, or steps with the prices that they hold below: {below: [10, 100], value: [0.01, 0.05,
// 0.50]}. A bound is a multiple of both steps beside it, so that no price falls across it.
void read_price_steps(MapReader& map, const Node& value, Policy& p) {
  std::vector<Money> steps, bounds;
  for (const Amount step : quantities(map, "value", unit::money)) steps.push_back(rounded(step));
  for (const Amount bound : quantities(map, "below", unit::money)) bounds.push_back(rounded(bound));
  auto wrong = [&](const Message& expected) {
    map.notes().add(value, found(value), expected);
    p.price_steps = {{}};
  };
  if (steps.size() != bounds.size() + 1) return wrong("expected.price-steps");
  p.price_steps.clear();
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i].hundredths() <= 0) return wrong("expected.step");
    if (i < bounds.size()) {
      const auto bound = bounds[i].hundredths();
      if (bound <= 0 || (i > 0 && bounds[i] <= bounds[i - 1]) ||
          bound % steps[i].hundredths() != 0 || steps[i + 1].hundredths() <= 0 ||
          bound % steps[i + 1].hundredths() != 0)
        return wrong("expected.rising-bounds");
    }
    p.price_steps.push_back({i < bounds.size() ? bounds[i] : Money(), steps[i]});
  }
}

}  // namespace

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
                                              "price unit",
                                              "price age",
                                              "service level",
                                              "bars",
                                              "scrap share",
                                              "scrap from",
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
    read_price_steps(map, *value, p);
  else if (name == "price unit") {
    p.price_unit = map.whole("value", 1, 1000).value_or(1);
    if (p.price_unit != 1 && p.price_unit != 100 && p.price_unit != 1000)
      map.notes().add(*value, found(*value), "expected.price-unit");
  } else if (name == "price age")
    p.price_age = map.whole("value", 0, 10000).value_or(30);
  else if (name == "service level")
    p.service_level = ratio();
  else if (name == "bars")
    p.whole_bars = map.one_of("value", {"used length", "whole"}) == "whole";
  else if (name == "scrap share")
    p.scrap_share = ratio();
  else if (name == "scrap from")
    p.scrap_from = map.whole("value", 0, 1000000).value_or(0);
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
    map.notes().add(map.node().at, 1, {"shop.unknown-policy", {{"name", name}}}, "expected.policy",
                    nearest(name, known));
  const bool share = name == "margin" || name == "scrap share" || name == "allowance";
  if (share && (ratio() < 0 || ratio() >= 0.95))
    map.notes().add(*value, found(*value), "expected.share-below-095");
  if (name == "service level" && (p.service_level < 0 || p.service_level > 0.9999))
    map.notes().add(*value, found(*value), "expected.service-level");
  p.sources[name] = source_of(map);
}

void read_band(MapReader& map, Policy& p) {
  const std::string name = map.text_or("name", "");
  const double share = map.needed("share", unit::ratio).si;
  for (const Basis basis : {Basis::given, Basis::own_records, Basis::found, Basis::common_practice,
                            Basis::from_memory, Basis::typical})
    if (name == file_word(basis)) p.bands[basis] = share;
  source_of(map);
}

}  // namespace turnwright
