// SPDX-License-Identifier: MIT
// Handling, stock, policy: times and money beside cutting.
#include <algorithm>

#include "record.hpp"
#include "turnwright/quantity/date.hpp"
#include "turnwright/shop/policy_rows.hpp"

namespace turnwright {
namespace {

constexpr double longest_away = 3650;  // days at another firm

constexpr double most_per_hour = 2000;  // euros
constexpr double most_charge = 100000;  // euros, for a piece, a cut, a lot or an order

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
  c.price_factor = in_range(map, "price factor", unit::ratio, 0.1, 20).value_or(Number(1.0)).si;
  c.source = source_of(map);
  return c;
}

BarRules read_bars(MapReader& map) {
  BarRules bars;
  map.text("name");
  bars.bar_length = map.needed("bar length", unit::mm);
  bars.saw_kerf = map.needed("saw kerf", unit::mm);
  bars.bar_end = map.needed("bar end", unit::mm);
  bars.cut_charge =
      money_in_range(map, "cut charge", unit::money, most_charge).value_or(Amount(0.0));
  bars.cut_charge_per_dm2 =
      money_in_range(map, "cut charge per dm2", unit::money, most_charge).value_or(Amount(0.0));
  bars.source = source_of(map);
  return bars;
}

OutsideWork read_outside_work(MapReader& map) {
  OutsideWork w;
  w.name = map.text_or("name", "");
  map.need("each");
  w.each = money_in_range(map, "each", unit::money, most_charge).value_or(Amount(0.0));
  w.lot = money_in_range(map, "lot", unit::money, most_charge).value_or(Amount(0.0));
  w.days = in_range(map, "days", unit::ratio, 0, longest_away).value_or(Number(0.0)).si;
  w.source = source_of(map);
  return w;
}

OtherMachine read_other_machine(MapReader& map) {
  OtherMachine m;
  m.name = map.text_or("name", "");
  map.need("rate");
  m.rate = money_in_range(map, "rate", unit::money_per_h, most_per_hour).value_or(Rate(0.0));
  m.source = source_of(map);
  return m;
}

CustomerTerms read_customer(MapReader& map) {
  constexpr double most = 0.9;
  CustomerTerms c;
  c.name = map.text_or("name", "");
  auto share = [&](const char* key, double low, double high) -> std::optional<double> {
    const auto found = in_range(map, key, unit::ratio, low, high);
    return found ? std::optional(found->si) : std::nullopt;
  };
  c.margin = share("margin", -most, most);
  c.discount = share("discount", 0, most);
  c.rebate = share("rebate", 0, 0.5);
  c.payment = map.text_or("payment", "");
  c.source = source_of(map);
  return c;
}

ExchangeRate read_exchange(MapReader& map) {
  ExchangeRate e;
  e.currency = map.text_or("name", "");
  if (!is_currency(e.currency))
    map.notes().add(map.node().at, 1, {"shop.no-currency", {{"code", e.currency}}},
                    "expected.currency");
  e.rate = map.needed("rate", unit::ratio).si;
  if (e.rate <= 0)
    map.notes().add(map.node().at, 1, {"shop.exchange-rate", {{"rate", Figure{e.rate}}}},
                    "expected.above-0");
  if (const Node* node = map.need("date")) {
    const auto date = read_date(node->text);
    if (!date) map.notes().add(*node, found(*node), "expected.day");
    e.date = date.value_or(Date{});
  }
  e.source = source_of(map).text;
  return e;
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
  constexpr double widest = 3;
  c.spread = in_range(map, "spread", unit::ratio, 1, widest).value_or(Number(1.0)).si;
  c.with_running = in_range(map, "correlation", unit::ratio, -1, 1).value_or(Number(0.0)).si;
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

namespace {

// Shares of the policy, from 0 to what makes sense at most: wide of any shop's; typical.
double share(MapReader& map, double most) { return share_up_to(map, "value", most); }
int whole(MapReader& map, int high) { return map.whole("value", 0, high).value_or(0); }
Amount amount(MapReader& map) {
  return money_in_range(map, "value", unit::money, most_charge).value_or(Amount(0.0));
}
Time minutes(MapReader& map) {
  constexpr double most = 100000;
  return in_range(map, "value", unit::min, 0, most).value_or(Time(0.0));
}

/// A record of the policy by name, and where it goes.
struct PolicyRow {
  std::string_view name;
  void (*read)(MapReader& map, const Node& value, Policy& policy);
};
constexpr int any_quantity = 1000000;
constexpr PolicyRow policy_rows[] = {
    {"currency",
     [](MapReader& map, const Node& value, Policy& p) {
       p.currency = map.text_or("value", "EUR");
       if (!is_currency(p.currency)) map.notes().add(value, found(value), "expected.currency");
     }},
    {"language",
     [](MapReader& map, const Node&, Policy& p) {
       p.language = map.one_of("value", {"en", "de"}).value_or("en");
     }},
    {"margin", [](MapReader& map, const Node&, Policy& p) { p.margin = share(map, 0.9); }},
    {"markup",
     [](MapReader& map, const Node&, Policy& p) {
       p.margin = share(map, 5);
       p.markup = true;
     }},
    {"overhead on material",
     [](MapReader& map, const Node&, Policy& p) { p.overhead_on_material = share(map, 2); }},
    {"overhead on outside work",
     [](MapReader& map, const Node&, Policy& p) { p.overhead_on_outside = share(map, 2); }},
    {"minimum order",
     [](MapReader& map, const Node&, Policy& p) { p.minimum_order = rounded(amount(map)); }},
    {"price step",
     [](MapReader& map, const Node& value, Policy& p) { read_price_steps(map, value, p); }},
    {"price unit",
     [](MapReader& map, const Node& value, Policy& p) {
       p.price_unit = map.whole("value", 1, 1000).value_or(1);
       if (p.price_unit != 1 && p.price_unit != 100 && p.price_unit != 1000)
         map.notes().add(value, found(value), "expected.price-unit");
     }},
    {"price age", [](MapReader& map, const Node&, Policy& p) { p.price_age = whole(map, 10000); }},
    {"service level",
     [](MapReader& map, const Node&, Policy& p) { p.service_level = share(map, 0.9999); }},
    {"bars",
     [](MapReader& map, const Node&, Policy& p) {
       p.whole_bars = map.one_of("value", {"used length", "whole"}) == "whole";
     }},
    {scrap_share_row,
     [](MapReader& map, const Node&, Policy& p) { p.scrap_share = share(map, 0.5); }},
    {"scrap from",
     [](MapReader& map, const Node&, Policy& p) { p.scrap_from = whole(map, any_quantity); }},
    {"setting pieces",
     [](MapReader& map, const Node&, Policy& p) { p.setting_pieces = whole(map, 1000); }},
    {"setting piece up to",
     [](MapReader& map, const Node&, Policy& p) { p.setting_piece_up_to = minutes(map); }},
    {"setting blank up to",
     [](MapReader& map, const Node&, Policy& p) { p.setting_blank_up_to = amount(map); }},
    {"allowance",
     [](MapReader& map, const Node&, Policy& p) {
       p.allowance = share(map, 0.6);
       p.allowance_on_shift = map.one_of("on", {"work", "shift"}) == "shift";
     }},
    {"whole edges up to", [](MapReader& map, const Node&,
                             Policy& p) { p.whole_edges_up_to = whole(map, any_quantity); }},
    {"turn round up to",
     [](MapReader& map, const Node&, Policy& p) { p.turn_round_up_to = whole(map, 1000); }},
    {"common error of times",
     [](MapReader& map, const Node&, Policy& p) { p.common_error_of_times = share(map, 0.5); }},
    {"common error of prices",
     [](MapReader& map, const Node&, Policy& p) { p.common_error_of_prices = share(map, 0.5); }},
    {"planning error",
     [](MapReader& map, const Node&, Policy& p) { p.planning_error = share(map, 0.5); }},
    {"upward",
     [](MapReader& map, const Node&,
        Policy&
            p) { p.upward = in_range(map, "value", unit::ratio, 1, 4).value_or(Number(1.0)).si; }},
    {"rebate", [](MapReader& map, const Node&, Policy& p) { p.rebate = share(map, 0.9); }},
    {"tax", [](MapReader& map, const Node&, Policy& p) { p.tax = share(map, 0.5); }},
    {"either within",
     [](MapReader& map, const Node&, Policy& p) { p.either_within = share(map, 0.5); }},
    {"change of plan",
     [](MapReader& map, const Node&, Policy& p) { p.change_of_plan = amount(map); }},
    {"day late", [](MapReader& map, const Node&, Policy& p) { p.day_late = amount(map); }},
    {"shortest edge life",
     [](MapReader& map, const Node&, Policy& p) { p.shortest_edge_life = minutes(map); }},
    {"roughness factor",
     [](MapReader& map, const Node&, Policy& p) { p.roughness_factor = share(map, 5); }},
    {"ladder band", [](MapReader& map, const Node&, Policy& p) { p.ladder_band = share(map, 1); }},
    {"deflection share",
     [](MapReader& map, const Node&, Policy& p) { p.deflection_share = share(map, 10); }},
    {"chuck compliance",
     [](MapReader& map, const Node&, Policy& p) { p.chuck_compliance = share(map, 10) * 1e-6; }}};

}  // namespace

void read_policy(MapReader& map, Policy& p) {
  const std::string name = map.text_or("name", "");
  const Node* value = map.need("value");
  const Source source = source_of(map);
  if (value == nullptr) return;
  const auto* row = std::find_if(std::begin(policy_rows), std::end(policy_rows),
                                 [&](const PolicyRow& r) { return r.name == name; });
  if (row == std::end(policy_rows)) {
    map.find("value");
    std::vector<std::string> known;
    for (const PolicyRow& r : policy_rows) known.emplace_back(r.name);
    add_unknown_row(map.notes(), *map.find("name"), "policy", known);
  } else {
    row->read(map, *value, p);
  }
  p.sources[name] = source;
}

void read_band(MapReader& map, Policy& p) {
  const std::string name = map.text_or("name", "");
  map.need("share");
  const double share = share_up_to(map, "share", 0.99);
  for (const Basis basis : {Basis::given, Basis::own_records, Basis::found, Basis::common_practice,
                            Basis::from_memory, Basis::typical})
    if (name == file_word(basis)) p.bands[basis] = share;
  source_of(map);
}

}  // namespace turnwright
