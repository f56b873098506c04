// SPDX-License-Identifier: MIT
#pragma once
// Handbook conditions against the best ones: the same part planned with both, step beside step.
#include <string>
#include <vector>

#include "turnwright/compare/inputs.hpp"
#include "turnwright/compare/larger_nose.hpp"

namespace turnwright {

struct TunedStep {
  std::string label;  // "10.3"
  StepKind kind = StepKind::rough;
  std::string tool;
  Conditions handbook, best;
  std::size_t passes_before = 0, passes = 0;
  Time cutting_before{}, cutting{};
  Time life{}, reference_life{};    // of an edge, and what the table stands for
  std::vector<LimitId> limited_by;  // limits that are met
  std::vector<double> worth;        // by each, as in CutOptimum
  double gap = -1;                  // below 0: not tuned (a drill, a groove, a thread)
};
/// What is made least, or most: the contribution per hour of the machine, at the handbook's price.
enum class TuneRule { cost, time, contribution };
/// "contribution": how the option and JSON spell it; the words stand under "rule." and this.
const char* name_of(TuneRule rule);

struct Tuned {
  TuneRule rule = TuneRule::cost;
  MethodResult handbook, best;
  std::vector<TunedStep> steps;
  Messages cautions;
  int quantity = 1;
  double proved_to = 0;            // the widest gap of all steps
  double roughing_depth = 1;       // of the tools' largest depth: other divisions were planned too
  int divisions = 0;               // so many
  bool keeps_handbook = false;     // no plan is better: `best` is the handbook's
  std::optional<LargerNose> nose;  // of the finishing tool, with the best conditions
  Rate hour_before{}, hour{};      // contribution per hour of the machine, at the handbook's price

  bool feasible() const { return handbook.feasible() && best.feasible(); }
};
/// A method with speeds and feeds by their optimum at each depth, for lots of a quantity; depths of
/// roughing by planning the part with its roughing tools at all of their largest depth and at
/// shares of it.
Tuned tune(const Part& part, const Shop& shop, const MethodResult& method, TuneRule rule,
           int quantity);

/// A row of the cutting table and what it does to many parts: the sum of their lots at the main
/// quantity when its speeds are a tenth faster, less what it is.
struct RowEffect {
  std::string row;  // "alloy steel, coated carbide"
  Amount change{};
  std::size_t parts = 0;  // that it touches
};
struct PartEffect {
  std::string part;
  Money before, after;  // each, at the main quantity
};
struct ShopEffects {
  Amount total{};                   // of all lots
  std::vector<RowEffect> rows;      // widest first
  std::vector<PartEffect> largest;  // of the first row, at most ten
};
/// Every row of the cutting table that the parts use, each changed by itself and all parts planned
/// again.
ShopEffects shop_effects(const std::vector<Part>& parts, const Shop& shop,
                         const std::string& machine);

}  // namespace turnwright
