// SPDX-License-Identifier: MIT
#pragma once
// Everything the planner and the estimate need to know of a shop, as plain values.
//   auto shop = read_shop(shipped_rates());
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/problem.hpp"
#include "turnwright/quantity/currency.hpp"
#include "turnwright/quantity/money.hpp"
#include "turnwright/shop/accounts.hpp"
#include "turnwright/shop/handling.hpp"
#include "turnwright/shop/machine.hpp"
#include "turnwright/shop/material.hpp"
#include "turnwright/shop/method.hpp"
#include "turnwright/shop/practice.hpp"
#include "turnwright/shop/row_ids.hpp"
#include "turnwright/shop/standards.hpp"
#include "turnwright/shop/stock.hpp"
#include "turnwright/shop/tool.hpp"

namespace turnwright {

/// Prices below `below` are multiples of `step`; the last has no bound.
struct PriceStep {
  Money below;  // 0: no bound
  Money step = Money::from_hundredths(1);
};

/// How cost becomes a price, and the limits of judgement.
struct Policy {
  std::string currency = "EUR";
  std::string language = "en";  // of what is printed, where none is asked for
  double margin = 0;
  bool markup = false;  // `margin` is a share of cost instead of price
  double overhead_on_material = 0, overhead_on_outside = 0;
  Money minimum_order;
  std::vector<PriceStep> price_steps{{}};
  int price_unit = 1;        // pieces that a price is for
  int price_age = 30;        // days after which a material's price marks the quote
  double service_level = 0;  // pieces run so that enough are good this surely; 0: by the shares
  bool whole_bars = false;   // a lot pays the bars that it opens
  double scrap_share = 0;
  int scrap_from = 0;  // quantity from which scrap is planned
  int setting_pieces = 0;
  Time setting_piece_up_to{};    // cycle time; a dearer piece is proved on a good one
  Amount setting_blank_up_to{};  // price of the blank
  double allowance = 0;
  bool allowance_on_shift = false;
  int whole_edges_up_to = 0;
  int turn_round_up_to = 0;  // manual lathes
  double either_within = 0.02;
  Amount change_of_plan{};    // of an operation of a posted plan, by a day or to another machine
  Amount day_late{};          // what an order of importance 1 loses by a day
  Time shortest_edge_life{};  // of a method that is quoted unasked
  double roughness_factor = 1;
  double ladder_band = 0.1;
  double deflection_share = 0.25;
  double chuck_compliance = 0;  // m/N
  double rebate = 0, tax = 0;   // lines of an order: taken off its goods, put on all of it
  std::map<Basis, double> bands;
  // What all rows of a kind are off by together, shares either way: a shop that is slow is slow at
  // everything, a metal that is dear is dear in every bar.
  double common_error_of_times = 0, common_error_of_prices = 0;
  double planning_error = 0;  // of running and setup of a part that is made for the first time
  double upward = 1;          // how much farther than below a row may lie above its likely value
  std::map<std::string, Source> sources;  // by the record's name

  /// The step of a price of this size.
  Money step_of(Amount price) const;
  /// What a row of the policy rests on.
  Basis basis_of(const std::string& row) const;
};

/// A kind of clamping: how true it holds second ends, from one piece to the next.
struct ClampingKind {
  std::string name;
  Length accuracy{};
  Source source;
};

/// Work that goes out: what it costs and how long it is away.
struct OutsideWork {
  std::string name;
  Amount each{}, lot{};
  double days = 0;
  Source source;
};

/// A machine beside the lathes (a mill, a bench drill): own work on it is paid by its own hour.
struct OtherMachine {
  std::string name;
  Rate rate{};
  Source source;
};

/// What a customer has agreed with the shop, where a request says nothing else.
struct CustomerTerms {
  std::string name;
  std::optional<double> margin, discount, rebate;
  std::string payment;
  Source source;
};

/// What booked times of the past make of the estimate on a machine: a factor on all that runs, or
/// on all setup.
struct Correction {
  std::string name, machine;
  bool setup = false;
  double factor = 1;
  double spread = 1;        // of a further order about it, one deviation, as a factor; 1: not known
  double with_running = 0;  // how far setup goes with running: their correlation
  Source source;
};

/// Speed and feed of holes that are deep for their diameter, as factors from a ratio on.
struct DeepHoles {
  std::vector<double> ratio, speed, feed;
  Source source;
};

/// Stock on diameter that a reamer takes.
struct ReamingStock {
  std::vector<Length> up_to, least, most;
  Source source;
};

struct Shop {
  Shop();  // written once, in shop.cpp, not in every file that copies one
  Shop(const Shop&);
  Shop(Shop&&) noexcept;
  Shop& operator=(const Shop&);
  Shop& operator=(Shop&&) noexcept;
  ~Shop();

  std::vector<Material> materials;
  std::vector<CuttingGroup> cutting_groups;
  std::vector<StepFactor> step_factors;
  std::map<std::string, double> factors;  // "skin hot rolled", "coolant dry", …
  std::vector<Grade> grades;
  std::vector<Tool> tools;
  std::vector<Machine> machines;
  LoadTimes load;
  std::vector<HandlingElement> handling;
  std::vector<ChipShare> chips;
  std::vector<GaugingShare> gauging;
  std::vector<HandlingElement> setup;
  std::vector<StockCondition> conditions;
  BarRules bars;
  std::vector<ChipCredit> chip_credits;
  Standards standards;
  std::vector<ClampingKind> clampings;
  std::vector<OutsideWork> outside_work;
  std::vector<OtherMachine> other_machines;
  std::vector<CustomerTerms> customers;
  std::vector<Correction> corrections;
  std::vector<Method> methods;
  ConditionsRule conditions_rule = ConditionsRule::handbook;
  /// What an hour of the machine is worth when conditions are tuned, where it is the bottleneck:
  /// what other work would contribute in it. 0: its rate.
  Rate hour_worth = Rate(0.0);
  DeepHoles deep_holes;
  ReamingStock reaming;
  Practice practice;
  Policy policy;
  Currencies currencies;  // its own, and what others are worth in it
  Accounts books;
  std::map<std::string, std::string> source_titles;  // short names that `source` texts use
  /// True when the shop has machines of its own; else the shipped classes are used.
  bool own_machines = false;

  const Material* material(std::string_view name) const;
  std::vector<std::string> material_names(std::string_view near) const;
  const CuttingGroup* cutting_group(std::string_view name) const;
  const Grade* grade(std::string_view name) const;
  const StepFactor& step_factor(StepFactorId id) const;
  const Tool* tool(std::string_view name) const;
  const Machine* machine(std::string_view name) const;
  const HandlingElement& element(HandlingId id) const;
  const HandlingElement& setup_element(SetupId id) const;
  /// Changing an edge of a tool and finding size again; `fine`: for a tolerance of IT8 or finer.
  Time edge_change(const Tool& tool, MachineKind kind, bool fine) const;
  const StockCondition* condition(std::string_view name) const;
  double factor(FactorId id) const;
  /// Of the first cut on bar or a casting of a stock condition; 1 where no row says otherwise.
  double skin_factor(std::string_view condition) const;
  double gauging_share(int grade) const;
  const ChipShare& chip_share(bool short_chips) const;
  /// How true a kind of clamping holds.
  Length accuracy(AccuracyId id) const;
  const OutsideWork* outside(OutsideWorkId id) const;
  const OtherMachine* other_machine(std::string_view name) const;
  const CustomerTerms* customer(std::string_view name) const;
  /// 1 where no record says otherwise.
  double correction(std::string_view machine, bool of_setup) const;
  /// The text of a source with its short names written out; how far it is to be trusted stands
  /// beside it.
  std::string source_text(const Source& source) const;
};

struct NamedText {
  std::string name;
  std::string text;
};

/// The rates that ship with the program, built in from rates/.
const std::vector<NamedText>& shipped_rates();
/// Reads the files in order; a record of a later file replaces the record of the same name. All
/// problems of all files, or the shop. `own_from`: index of the first file of the shop's own
/// folder.
Checked<Shop> read_shop(const std::vector<NamedText>& files, std::size_t own_from);

}  // namespace turnwright
