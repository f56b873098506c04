// SPDX-License-Identifier: MIT
#pragma once
// A way of making a part, planned: the record's changes go into part, shop and plan, and the same
// flow does the rest.
#include <string>
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// Part and shop as a way wants them.
struct WayInputs {
  Part part;
  Shop shop;
  PlanRequest request;
  std::string why_not;  // what the shop lacks for it
  std::string would_help;
};
/// Several records together; later ones win where they change the same.
WayInputs inputs_of(const Part& part, const Shop& shop, const std::vector<const Way*>& ways,
                    const std::string& machine);

struct WayResult {
  std::string name;
  std::vector<const Way*> records;  // of the shop that it was planned with
  WayKind way = WayKind::rough_then_finish;
  Route route;  // also when it is not feasible
  Quote quote;  // only when it is
  bool feasible() const { return route.feasible; }
};
/// Machine time of a lot, make-ready included: what the bottleneck gives for it.
Time machine_time(const WayResult& way, int quantity);
WayResult plan_way(const Part& part, const Shop& shop, const std::vector<const Way*>& ways,
                   const std::string& machine);

/// The record of a name, or null.
const Way* way_named(const Shop& shop, std::string_view name);
/// What a part is quoted by, rough then finish: its record, or none where the shop has none.
std::vector<const Way*> usual_way(const Shop& shop);

}  // namespace turnwright
