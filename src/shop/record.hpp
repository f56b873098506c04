// SPDX-License-Identifier: MIT
#pragma once
// One record of a rate file as a value: what the readers of the sections share.
#include <vector>

#include "turnwright/document/reader.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// `source`, `basis` and `band` of a record.
Source source_of(MapReader& map);

/// The number of a node; a problem that names the range where it lies outside.
std::optional<double> read_in_range(const Node& node, const Unit& unit, double low, double high,
                                    ProblemList& notes);
template <Dim D>
std::optional<Quantity<D>> in_range(MapReader& map, std::string_view key, const UnitOf<D>& unit,
                                    double low, double high) {
  const Node* node = map.find(key);
  if (node == nullptr) return std::nullopt;
  const auto si = read_in_range(*node, unit, low, high, map.notes());
  if (!si) return std::nullopt;
  return Quantity<D>(*si);
}
/// How many units of the own currency a euro is about, for ranges only: within a factor of two.
double units_per_euro(const Currencies& currencies);
/// An amount from 0 to so many euros, or what that is about in the shop's own currency.
template <Dim D>
std::optional<Quantity<D>> money_in_range(MapReader& map, std::string_view key,
                                          const UnitOf<D>& unit, double most) {
  return in_range(map, key, unit, 0, most * units_per_euro(map.notes().currencies()));
}
/// A share from 0 to `most`.
double share_up_to(MapReader& map, std::string_view key, double most, double otherwise = 0);

/// A list of quantities; a bare number takes `unit`.
template <Dim D>
std::vector<Quantity<D>> quantities(MapReader& map, std::string_view key, const UnitOf<D>& unit) {
  std::vector<Quantity<D>> list;
  const Node* node = map.find(key);
  if (node == nullptr) return list;
  for (const Node* item : as_list(*node))
    if (const auto si = read_si(*item, unit, map.notes())) list.emplace_back(*si);
  return list;
}

/// Lists that are read beside each other must be of one length.
template <class A, class B>
void same_length(MapReader& map, const A& a, const B& b, std::string_view what) {
  if (a.size() != b.size())
    map.notes().add(map.node().at, 1, {"shop.lengths-differ", {{"lists", what}}},
                    "expected.as-many-values");
}

std::vector<double> ratios(MapReader& map, std::string_view key);

/// A record whose name, `node`, none of the section's `rows` has: the nearest, or all there are.
void add_unknown_row(ProblemList& notes, const Node& node, std::string_view section,
                     const std::vector<std::string>& rows);

// ---- read_cutting.cpp
/// What `base` says holds where the record is silent; without one it says everything itself.
Material read_material(MapReader& map, const Material* base);
CuttingGroup read_cutting_group(MapReader& map);
StepFactor read_step_factor(MapReader& map);
Grade read_grade(MapReader& map, const Grade* base);
/// A row that a record of its own adds to a group.
struct NamedRow {
  std::string group;
  CuttingRow row;
};
NamedRow read_named_row(MapReader& map);
/// Takes the place of the group's rows for the same grade and work.
void add_rows(const std::vector<NamedRow>& named, std::vector<CuttingGroup>& groups);
DeepHoles read_deep_holes(MapReader& map);
ReamingStock read_reaming(MapReader& map);
void read_factors(MapReader& map, Shop& shop);
// ---- read_machines.cpp
Tool read_tool(MapReader& map);
Machine read_machine(MapReader& map);
// ---- read_accounts.cpp
BookedPeople read_booked_people(MapReader& map);
BookedMachine read_booked_machine(MapReader& map);
BookedOverhead read_booked_overhead(MapReader& map);
void read_book_value(MapReader& map, Accounts& books);
// ---- read_standards.cpp
FitRow read_fit(MapReader& map);
GeneralTolerance read_general(MapReader& map);
ReliefSize read_relief(MapReader& map);
CentreHole read_centre_hole(MapReader& map);
void read_circlips(MapReader& map, Standards& standards);
ThreadRunout read_runout(MapReader& map);
ThreadPasses read_thread_passes(MapReader& map);
// ---- read_handling.cpp
HandlingElement read_element(MapReader& map, const UnitOf<Dim{0, 0, 1}>& unit);
LoadTimes read_load(MapReader& map);
StockCondition read_condition(MapReader& map);
BarRules read_bars(MapReader& map);
OutsideWork read_outside_work(MapReader& map);
OtherMachine read_other_machine(MapReader& map);
CustomerTerms read_customer(MapReader& map);
Correction read_correction(MapReader& map);
ExchangeRate read_exchange(MapReader& map);
void read_policy(MapReader& map, Policy& p);
void read_band(MapReader& map, Policy& p);
// ---- read_practice.cpp
void read_practice(MapReader& map, Practice& practice);
/// Every row that the program works with.
std::vector<std::string> practice_names();

}  // namespace turnwright
