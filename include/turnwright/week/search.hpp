// SPDX-License-Identifier: MIT
#pragma once
// Search over dispatch orders by simulated annealing (S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi,
// Science 220, 1983) with a fixed number of moves: the plan is the same on every machine and at any
// core count.
#include "turnwright/week/plan.hpp"

namespace turnwright {

struct SearchEffort {
  // Independent, each with random draws of its own; the best one counts. Twice as many moves of one
  // find more than two of them do: tried on weeks of ours.
  int chains = 2;
  int moves = 40000;  // of each chain
  /// Of a usual change, at first; less keeps nearer to the list to start from. 0: by how many moves
  /// there are for each entry of the list; few moves cannot mend what a hot beginning spoils.
  double heat = 0;
  std::uint64_t first_draw = 1;  // another one draws otherwise
  int threads = 1;               // at most so many chains at once; changes no plan
  double target = -1;            // a score at which it may stop, below 0: none
};

/// The same, in rounds, each from the best list of the one before (iterated local search: H. R.
/// Lourenco, O. C. Martin, T. Stuetzle, Handbook of Metaheuristics, 2003, from memory).
DispatchOrder search_on(const PlanProblem& problem, const std::vector<DispatchOrder>& from,
                        SearchEffort effort);
/// Near to lists that are good already, which keeps what need not change, and then from there and
/// from others in rounds: the better of both. All lists have as many frozen entries.
DispatchOrder search_near(const PlanProblem& problem, const std::vector<DispatchOrder>& near,
                          std::vector<DispatchOrder> others, SearchEffort effort);
/// Moves by the size of the problem and nothing else, so that a plan is the same everywhere: some
/// seconds on two cores; `effort` times as many.
int moves_for(const PlanProblem& problem, double effort = 1);

DispatchOrder search(const PlanProblem& problem, const DispatchOrder& from,
                     const SearchEffort& effort);
/// The chains begin at these lists in turn, all with as many frozen entries.
DispatchOrder search(const PlanProblem& problem, const std::vector<DispatchOrder>& from,
                     const SearchEffort& effort);

}  // namespace turnwright
