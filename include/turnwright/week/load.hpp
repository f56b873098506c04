// SPDX-License-Identifier: MIT
#pragma once
// Orders with their routes as a problem for the plan, the hours that they ask for, and the plan.
#include <string>
#include <vector>

#include "turnwright/estimate/quote.hpp"
#include "turnwright/week/plan.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {

/// An order with its quote on each machine of the week that can make it in as many holdings as the
/// first.
struct OrderRoutes {
  std::size_t order = 0;      // of the week
  std::vector<Quote> on;      // by machine, the first is the preferred
  std::vector<int> machines;  // of the week
  double band = 0;            // its times may be off by this share
};

/// An operation's name: order and holding.
struct OperationName {
  std::size_t order = 0;
  int setup = 0;
};

struct WeekProblem {
  PlanProblem problem;
  std::vector<OperationName> names;  // by operation
  std::vector<double> band;          // by operation: its time may be off by this share
  std::vector<std::size_t> orders;   // by job
};
WeekProblem week_problem(const Week& week, const std::vector<OrderRoutes>& routes);

/// Hours asked for and hours there, of a machine or of all people, without any order of work: each
/// operation lies as late as its due date lets it, on the least loaded machine that can do it.
struct Load {
  std::string name;
  bool people = false;
  std::vector<double> needed, there;  // by day, in hours
  double quoted = 0;                  // of the needed, by quotes times their probability
  double sum_needed() const;
  double sum_there() const;
};
std::vector<Load> infinite_load(const Week& week, const WeekProblem& problem);

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
  std::vector<std::string>
      faults;  // of the independent checker: none, or the plan is not to be used
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

/// When a quote that is not won yet would be done, nothing promised moved: in half, 80 and 95 of
/// 100 fixed draws of all times from their bands.
struct Promise {
  std::size_t order = 0;
  Minute planned = never, p50 = never, p80 = never, p95 = never;
  std::string bottleneck;          // the machine that it waits longest for
  std::vector<std::string> chain;  // of the plan, down to the first cause
  PlanList list;
};
inline constexpr std::uint64_t promise_draws = 200;
/// The problem with its times drawn once from their bands.
PlanProblem drawn(const WeekProblem& problem, std::uint64_t draw);
/// The quote is the last job of the problem.
Promise promise_of(const Week& week, const WeekProblem& problem, int moves, int threads);

}  // namespace turnwright
