// SPDX-License-Identifier: MIT
#pragma once
// A way of making a part, planned: the record's changes go into part, shop and plan, and the same
// flow does the rest.
#include <string>
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// Part and shop as a way wants them.
struct MethodInputs {
  Part part;
  Shop shop;
  PlanRequest request;
};
/// Several records together; later ones win where they change the same.
Planned<MethodInputs> inputs_of(const Part& part, const Shop& shop,
                                const std::vector<const Method*>& methods,
                                const std::string& machine);

struct MethodResult {
  std::string name;
  std::vector<const Method*> records;  // of the shop that it was planned with
  MethodKind method = MethodKind::rough_then_finish;
  Planned<Quote> quote = Infeasible{};
  bool feasible() const { return static_cast<bool>(quote); }
  const Route& route() const { return quote->route; }
};
/// Machine time of a lot, setup included: what the bottleneck gives for it.
Time machine_time(const MethodResult& method, int quantity);
MethodResult plan_method(const Part& part, const Shop& shop,
                         const std::vector<const Method*>& methods, const std::string& machine);

/// The record of a name, or null.
const Method* method_named(const Shop& shop, std::string_view name);
/// What a part is quoted by, rough then finish: its record, or none where the shop has none.
std::vector<const Method*> default_method(const Shop& shop);

}  // namespace turnwright
