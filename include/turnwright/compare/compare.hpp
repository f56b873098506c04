// SPDX-License-Identifier: MIT
#pragma once
// The methods of making a part, planned and costed by the same flow, and which leads at which
// quantity.
#include <string>
#include <vector>

#include "turnwright/compare/plan_method.hpp"
#include "turnwright/compare/questions.hpp"
#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// From one quantity to another one method leads.
struct LeadingRange {
  int from = 1, to = 1;
  std::size_t method = 0;           // index into the methods
  std::vector<std::size_t> either;  // it and the others within the shop's band, when there are any
};

/// Money of one method less the first, by cause, for one lot.
struct Difference {
  std::size_t method = 1;  // that is held against the first
  int quantity = 1;
  Amount setup{}, tool_change{}, cutting{}, other_time{}, inserts{}, material{};
  Amount total{};
};

struct Comparison {
  std::vector<MethodResult> methods;
  std::vector<LeadingRange> lead;
  std::vector<Difference> differences;  // second less first, at each quantity of the part
  std::vector<Difference> reasons;      // every other one less the first, at the main quantity
  int break_even = 0;  // first quantity at which the leader of quantity 1 no longer leads; 0: never
  int scanned_to = 1000;
  std::vector<Question> questions;  // of the first method, where they are asked for
};

/// The methods that a quote shows: rough then finish, two finish cuts, and what else would hold a
/// tie between seats.
Comparison compare_methods(const Job& job, const Shop& shop, const std::string& machine);

/// What a search over pairs of records did.
struct Combining {
  int possible = 0, planned = 0, left_out = 0;  // left out by a bound
};
/// All records of the shop, or those named; those that change nothing are left out. With `combine`
/// also two of them together, where each is feasible: a pair is not planned when what its stock,
/// outside work and one-offs alone cost is no less than the best lot so far, at one piece and the
/// smallest, main and largest quantity.
Comparison compare_all(const Job& job, const Shop& shop, const std::string& machine,
                       const std::vector<std::string>& names, bool combine, Combining& combining);

}  // namespace turnwright
