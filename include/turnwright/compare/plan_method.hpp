// SPDX-License-Identifier: MIT
#pragma once
// A method of making a part, planned: the record's changes go into part, shop and plan, and the
// same flow does the rest.
#include <compare>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// Part and shop as a method wants them.
struct MethodInputs {
  Part part;
  Shop shop;
  PlanRequest request;
};
/// Several records together; later ones win where they change the same. Infeasible where a record
/// does not go with the part or the shop.
Planned<MethodInputs> inputs_of(const Part& part, const Shop& shop,
                                const std::vector<Method>& methods, const std::string& machine);

/// What keeps a possible plan from leading unasked, the heaviest first: a plan that is held back
/// less leads, so that what all plans have in common does not excuse the rest.
struct HeldBack {
  int practice = 0;  // of stock, bar and edges, how many are as the shop would not run them
  int bending = 0;   // so many times its share of the tolerance a surface bends by; 0: within it
  int ties = 0;      // so many times the tolerance a tie between seats is off by; 0: within it
  int grades = 0;    // by so many some surface asks for a finer one than the lathe holds
  Message why;       // the heaviest

  bool empty() const { return why.empty(); }
  bool is_of_drawing() const { return !empty() && practice == 0; }
};
bool operator==(const HeldBack& a, const HeldBack& b);
std::strong_ordering operator<=>(const HeldBack& a, const HeldBack& b);

struct MethodResult {
  std::string name;             // with the machine where several take part: no two alike
  std::string recipe;           // of the records alone
  std::vector<Method> records;  // that it was planned with; none: the planner's rule alone
  std::string machine;          // that it was planned for; "": any of the shop
  bool practised = false;       // the shop quotes by it unasked
  HeldBack held_back;           // why it does not lead unasked all the same
  int by_hand_up_to = 0;        // so many bars' pieces a turner draws to the stop; 0: any lot
  // Where conditions are tuned, what was found to be best: the rule, the roughing tools' depth as a
  // share of their largest, of so many divisions of depth and so many plans.
  ConditionsRule conditions = ConditionsRule::handbook;
  double roughing_depth = 1;
  Rate hour_worth = Rate(0.0);  // that an hour was counted at there; 0: at its rate
  int divisions = 0, plans = 0;
  MethodKind method = MethodKind::rough_then_finish;
  Planned<Quote> quote = Infeasible{};
  bool feasible() const { return static_cast<bool>(quote); }
  const Route& route() const { return quote->route; }  // only where feasible
  /// Of a lot of so many pieces.
  HeldBack held_back_at(int quantity) const;
};
/// Plans a part by one method after another; what they share is prepared once.
class MethodPlanner {
 public:
  /// `quantity`: of the lot that tuned conditions are best for; 0: the part's middle one.
  MethodPlanner(const Part& part, const Shop& shop, int quantity = 0);
  /// By several records together. `machine`: "" is any of the shop; a machine that a record asks
  /// for goes before it. Tuned conditions are those of the division of depth that is best.
  MethodResult plan(const std::vector<Method>& methods, const std::string& machine);
  /// A method as it was found: by its records, on its machine, with the division that was best.
  MethodResult plan_again(const MethodResult& method);
  /// By records, where conditions are tuned with the division that another method was found with.
  MethodResult plan_as(const std::vector<Method>& methods, const std::string& machine,
                       const MethodResult* tuned);

 private:
  const Checked<Job>& prepared(const Part& part);

  const Part& part_;
  const Shop& shop_;
  int quantity_;
  std::vector<std::pair<PartStock, Checked<Job>>> jobs_;  // by the stock that methods change
};
/// The part planned and costed by several records together, on a machine ("": any of the shop).
MethodResult plan_method(const Part& part, const Shop& shop, const std::vector<Method>& methods,
                         const std::string& machine, int quantity = 0);

/// The record of a name, or null.
const Method* method_named(const Shop& shop, std::string_view name);
/// The first record that plans by this rule, or null.
const Method* method_of(const Shop& shop, MethodKind kind);
/// The records of a name as results bear it, "parted from the bar + two finish cuts"; none where
/// one is not known.
std::vector<Method> methods_named(const Shop& shop, std::string_view name);

}  // namespace turnwright
