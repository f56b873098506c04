// SPDX-License-Identifier: MIT
#pragma once
// What more hours would let, by linear programs: work as a fluid that fills the open hours
// of machines and people day by day. Built with Clp where it is there; without it there is no
// answer, and the plan does without.
#include <optional>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/week/plan.hpp"

namespace turnwright {

/// True when this build has linear programs.
bool has_linear_programs();

/// What more hours and another firm cost.
struct ReliefPrices {
  Minute most = 0;            // overtime a machine and day
  Rate overtime = Rate(0.0);  // of a machine with somebody at it, above what the hours cost anyway
  Rate subcontracted = Rate(0.0);  // of another firm, an hour of our own; 0: nobody takes work
  int days = 0;                    // that it takes them
};
struct Overtime {
  int machine = 0, day = 0;
  Minute minutes = 0;
};
struct Relief {
  std::vector<Overtime> overtime;
  std::vector<std::size_t> subcontracted;  // lots, whole
  Amount cost = Amount(0.0);
};
/// The cheapest overtime and subcontracted lots with which the hours, of which only `share` can be
/// filled, let every lot be as little late as they can. Nothing without linear programs.
std::optional<Relief> cheapest_relief(const PlanProblem& problem, const ReliefPrices& prices,
                                      double share);

/// The problem with a machine open longer on one of its days, and a setter there.
void add_overtime(PlanProblem& problem, const Overtime& overtime);

/// The problem with a lot in so many batches of their own, each with its setup; the new ones stand
/// at the end.
void split_lot(PlanProblem& problem, std::size_t lot, int batches);

}  // namespace turnwright
