// SPDX-License-Identifier: MIT
#pragma once
// What the hours alone let or forbid, by linear programs: work as a fluid that fills the open hours
// of machines and people day by day. Built with Clp where it is there; without it there is no
// answer, and the plan does without.
#include <optional>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/week/plan.hpp"

namespace turnwright {

/// True when this build has linear programs.
bool has_linear_programs();

/// A lower bound of the lateness: every minute of work lies on some day that has room for it, and
/// a lot is at least as late as the mean over its minutes of how late each makes it (the mean busy
/// time relaxation; M. X. Goemans et al., SIAM J. Discrete Math. 15, 2002). Never below
/// `least_lateness`. Nothing when the week is too large for it, or the score is no lateness.
std::optional<double> capacity_bound(const PlanProblem& problem);

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
