// SPDX-License-Identifier: MIT
// A shop from the sections of its files.
#include <algorithm>
#include <functional>

#include "read_rate_files.hpp"

namespace turnwright {
namespace {

void read_machines(const Sections& sections, Shop& shop) {
  std::vector<Machine> shipped;
  each_record(sections, "machines", [&](MapReader& map, bool own) {
    (own ? shop.machines : shipped).push_back(read_machine(map));
    shop.own_machines = shop.own_machines || own;
  });
  // A shop with machines of its own does not quote on those it does not have.
  if (!shop.own_machines) shop.machines = std::move(shipped);
}

// Before all others: what amounts may be written in.
Currencies read_currencies(const Sections& s) {
  Currencies currencies;
  each_record(s, "exchange",
              [&](MapReader& map, bool) { currencies.rates.push_back(read_exchange(map)); });
  const auto policy = s.find("policy");
  if (policy == s.end()) return currencies;
  for (const auto& [name, record] : policy->second)
    if (name == "currency")
      for (const Member& member : record.node->members)
        // A code that there is not is refused where the policy is read, not at every amount.
        if (member.key == "value" && is_currency(member.value.text))
          currencies.own = member.value.text;
  return currencies;
}

Shop build(const Sections& s) {
  Shop shop;
  auto add = [&s](std::string_view name, auto& into, auto read) {
    each_record(s, name, [&](MapReader& map, bool) { into.push_back(read(map)); });
  };
  read_materials(s, shop);
  read_cutting(s, shop);
  add("kinds of step", shop.step_factors, read_step_factor);
  each_record(s, "factors", [&](MapReader& map, bool) { read_factors(map, shop); });
  read_grades(s, shop);
  add("tools", shop.tools, read_tool);
  read_machines(s, shop);
  each_record(s, "handling", [&](MapReader& map, bool) {
    if (map.text_or("name", "") == "load")
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
  add("setup", shop.setup, [](MapReader& map) { return read_element(map, unit::min); });
  add("stock conditions", shop.conditions, read_condition);
  each_record(s, "stock handling", [&](MapReader& map, bool) { shop.bars = read_bars(map); });
  add("chip credit", shop.chip_credits, [](MapReader& map) {
    map.need("share");
    return ChipCredit{map.text_or("name", ""), share_up_to(map, "share", 1), source_of(map)};
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
  add("clampings", shop.clampings, [](MapReader& map) {
    return ClampingKind{map.text_or("name", ""), map.needed("accuracy", unit::mm), source_of(map)};
  });
  add("outside work", shop.outside_work, read_outside_work);
  add("other machines", shop.other_machines, read_other_machine);
  add("customers", shop.customers, read_customer);
  add("corrections", shop.corrections, read_correction);
  read_methods(s, shop);
  add("book people", shop.books.people, read_booked_people);
  add("book machines", shop.books.machines, read_booked_machine);
  add("book overheads", shop.books.overheads, read_booked_overhead);
  each_record(s, "book values", [&](MapReader& map, bool) { read_book_value(map, shop.books); });
  each_record(s, "deep holes",
              [&](MapReader& map, bool) { shop.deep_holes = read_deep_holes(map); });
  each_record(s, "reaming stock", [&](MapReader& map, bool) { shop.reaming = read_reaming(map); });
  each_record(s, "practice", [&](MapReader& map, bool) { read_practice(map, shop.practice); });
  each_record(s, "policy", [&](MapReader& map, bool) { read_policy(map, shop.policy); });
  each_record(s, "bands", [&](MapReader& map, bool) { read_band(map, shop.policy); });
  return shop;
}

// The shop says once how a price comes from its cost.
void check_margin(const Sections& s) {
  const auto policy = s.find("policy");
  if (policy == s.end()) return;
  auto own = [&](std::string_view name) -> const RecordNode* {
    for (const auto& [record, node] : policy->second)
      if (record == name && node.own) return &node;
    return nullptr;
  };
  const RecordNode *margin = own("margin"), *markup = own("markup");
  if (margin != nullptr && markup != nullptr)
    markup->notes->add(*markup->node, "shop.margin-and-markup", "expected.margin-or-markup");
}

void add_missing_row(std::string_view section, std::string_view name, Problems& problems) {
  Problem problem;
  problem.file = std::string(section);
  problem.what = {"shop.missing-row", {{"section", section}, {"name", name}}};
  problems.push_back(std::move(problem));
}

// The engine looks these rows up by name: a shop without one would be priced at less.
template <class Id, class Records>
void check_rows(const Records& records, int rows, std::string_view section, Problems& problems) {
  for (int i = 0; i < rows; ++i) {
    const std::string_view name = name_of(static_cast<Id>(i));
    const bool there = std::any_of(records.begin(), records.end(),
                                   [&](const auto& record) { return record.name == name; });
    if (!there) add_missing_row(section, name, problems);
  }
}
void check_needed_rows(const Shop& shop, Problems& problems) {
  check_rows<HandlingId>(shop.handling, handling_rows, "handling", problems);
  check_rows<SetupId>(shop.setup, setup_rows, "setup", problems);
  check_rows<StepFactorId>(shop.step_factors, step_factor_rows, "kinds of step", problems);
  check_rows<AccuracyId>(shop.clampings, accuracy_rows, "clampings", problems);
  check_rows<ChipId>(shop.chips, chip_rows, "chips", problems);
  std::vector<NamedText> factors;
  for (const auto& [name, factor] : shop.factors) factors.push_back({name, ""});
  check_rows<FactorId>(factors, factor_rows, "factors", problems);
  for (const std::string& name : practice_names())
    if (!shop.practice.sources.contains(name)) add_missing_row("practice", name, problems);
}

}  // namespace

Checked<Shop> read_shop(const std::vector<NamedText>& files, std::size_t own_from) {
  RateFiles rates(files, own_from);
  const Sections& sections = rates.sections();
  const Currencies currencies = read_currencies(sections);
  rates.use(currencies);
  Shop shop = build(sections);
  shop.currencies = currencies;
  shop.source_titles = rates.source_titles();
  check_references(sections, shop);
  check_margin(sections);
  Problems problems = rates.problems();
  if (problems.empty()) check_needed_rows(shop, problems);
  if (!problems.empty()) return problems;
  return shop;
}

}  // namespace turnwright
