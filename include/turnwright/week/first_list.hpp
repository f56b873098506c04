// SPDX-License-Identifier: MIT
#pragma once
// Dispatch orders to begin the search from.
#include <vector>

#include "turnwright/week/plan.hpp"

namespace turnwright {

/// How a first list is built.
struct FirstList {
  Minute window = 0;         // of what could begin so soon after the first, the lowest rank is next
  std::vector<double> rank;  // by operation; empty: when its lot is due
  std::vector<int> front;    // lots that stand at the front, as often as they have work there
  std::vector<int> choices;  // by operation: its machine; empty: where it could begin first
};
/// A list that leaves no machine idle for longer than the window while something could begin on it.
DispatchOrder earliest_first(const PlanProblem& problem, const FirstList& how = {});
/// Lists by several rules (windows from none to a shift; by due date and by slack), the best first;
/// at most so many at once are made, which changes none. What runs stands at their front.
std::vector<DispatchOrder> first_lists(const PlanProblem& problem, int threads = 1);
/// The same with these entries frozen at the front; each has one machine.
std::vector<DispatchOrder> lists_behind(const PlanProblem& problem, const std::vector<int>& front,
                                        int threads);

/// The plain rule: the lot that is due first, with all of its operations in turn, each on the
/// machine where it costs least, or on another that is free before that one has room for it.
DispatchOrder plain_dispatch(const PlanProblem& problem);

/// The plain list: lots by due date, first choices.
DispatchOrder by_due_date(const PlanProblem& problem);

}  // namespace turnwright
