// SPDX-License-Identifier: MIT
#pragma once
// What no plan can be below, however it is made.
#include "turnwright/week/plan.hpp"

namespace turnwright {

/// No plan is less late, and what makes it so.
struct LatenessBound {
  double least = 0;
  /// What decides: the hours of people, of those who set up, or of a machine; else each lot by
  /// itself.
  enum class Cause { each_lot, people, setters, machine };
  Cause cause = Cause::each_lot;
  int machine = -1;  // where it is one
};

/// A lower bound of the lateness by prices of hours (M. L. Fisher, The Lagrangian Relaxation Method
/// for Solving Integer Programming Problems, Management Science 27, 1981; for orders in a shop: D.
/// J. Hoitomt, P. B. Luh, K. R. Pattipati, IEEE Trans. Robotics and Automation 9, 1993). Each
/// stretch of about a shift has a price of a minute of every machine, of people and of those who
/// set up. Every lot takes the minutes that cost it least together with its lateness, its
/// operations one after the other; what all pay less what the hours are worth is below every plan,
/// whatever the prices. Prices rise where more is taken than there is, in a number of rounds that
/// depends on the problem alone, so that the bound is the same everywhere. Never below
/// `least_lateness`. `found`: the lateness of a plan; steers how far prices move, and ends it where
/// nothing is left.
LatenessBound lateness_bound(const PlanProblem& problem, double found);

/// A bound this near to the plan says something: at most a quarter is left, of what is late at all.
inline bool tells(const LatenessBound& bound, double lateness) {
  return lateness > 0 && bound.least >= 0.75 * lateness;
}

}  // namespace turnwright
