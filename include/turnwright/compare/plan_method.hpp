// SPDX-License-Identifier: MIT
#pragma once
// A method of making a part, planned: the record's changes go into part, shop and plan, and the
// same flow does the rest.
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

struct MethodResult {
  std::string name;
  std::vector<Method> records;  // that it was planned with; none: the planner's rule alone
  MethodKind method = MethodKind::rough_then_finish;
  Planned<Quote> quote = Infeasible{};
  bool feasible() const { return static_cast<bool>(quote); }
  const Route& route() const { return quote->route; }  // only where feasible
};
/// The part planned and costed by several records together, on a machine ("": any of the shop).
MethodResult plan_method(const Part& part, const Shop& shop, const std::vector<Method>& methods,
                         const std::string& machine);

/// The record of a name, or null.
const Method* method_named(const Shop& shop, std::string_view name);
/// The first record that plans by this rule, or null.
const Method* method_of(const Shop& shop, MethodKind kind);
/// What a part is quoted by, rough then finish: its record, or none where the shop has none.
std::vector<Method> default_method(const Shop& shop);

}  // namespace turnwright
