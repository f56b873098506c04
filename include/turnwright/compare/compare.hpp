// SPDX-License-Identifier: MIT
#pragma once
// The ways of making a part, planned and costed by the same flow, and which leads at which
// quantity.
#include <string>
#include <vector>

#include "turnwright/compare/questions.hpp"
#include "turnwright/estimate/quote.hpp"

namespace turnwright {

struct WayResult {
  WayKind way = WayKind::rough_then_finish;
  Route route;  // also when it is not feasible
  Quote quote;  // only when it is
  bool feasible() const { return route.feasible; }
};

/// From one quantity to the next one way leads.
struct Lead {
  int from = 1, to = 1;
  std::size_t way = 0;              // index into ways
  std::vector<std::size_t> either;  // it and the others within the shop's band, when there are any
};

/// Money of one way less the other, by cause, for one lot.
struct Difference {
  int quantity = 1;
  Amount make_ready{}, tool_change{}, cutting{}, other_time{}, edges{}, material{};
  Amount total{};
};

struct Comparison {
  std::vector<WayResult> ways;
  std::vector<Lead> lead;
  std::vector<Difference> differences;  // second less first, at each quantity of the part
  int break_even = 0;  // first quantity at which the leader of quantity 1 no longer leads; 0: never
  int scanned_to = 1000;
  std::vector<Question> questions;  // of the first way, where they are asked for
};

Comparison compare_ways(const Job& job, const Shop& shop, const std::string& machine);

}  // namespace turnwright
