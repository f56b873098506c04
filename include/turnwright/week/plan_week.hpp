// SPDX-License-Identifier: MIT
#pragma once
// The week planned, for the first time or again, with the reasons of what is late.
#include <string>
#include <vector>

#include "turnwright/week/week_problem.hpp"

namespace turnwright {

struct LateReason {
  std::size_t order = 0;
  double days = 0;
  std::vector<std::string> chain;     // down to the first cause
  std::vector<std::string> saved_by;  // each tried through the decoder
};

struct WeekPlan {
  Plan plan;
  PlanList list;
  std::vector<LateReason> late;
  double bound = 0;               // no plan is less late
  std::vector<std::string> gaps;  // where a machine waits for long, and for what
  /// Of the independent checker: none, or the plan is not to be used.
  std::vector<std::string> faults;
};
/// Plans with a fixed number of moves.
WeekPlan plan_week(const Week& week, const WeekProblem& problem, int moves, int threads);

/// A line of a plan that hangs already.
struct HungRun {
  std::string machine, order;
  int setup = 0;
  Minute from = 0;
};
/// Plans again, keeping what begins before `frozen` as it hangs; every change costs.
WeekPlan plan_again(const Week& week, WeekProblem& problem, const std::vector<HungRun>& hung,
                    Minute frozen, int moves, int threads);
/// What is other than in the plan that hung, in words.
std::vector<std::string> differences(const Week& week, const WeekProblem& problem,
                                     const WeekPlan& plan, const std::vector<HungRun>& hung);

}  // namespace turnwright
