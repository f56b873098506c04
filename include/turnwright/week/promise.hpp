// SPDX-License-Identifier: MIT
#pragma once
// A date for a quote.
#include <cstdint>
#include <string>
#include <vector>

#include "turnwright/week/week_problem.hpp"

namespace turnwright {

/// When a quote that is not won yet would be done, nothing promised moved: in half, 80 and 95 of
/// 100 fixed draws of all times from their bands.
/// A date that overtime buys: on the quote's machines, every day until then.
struct Sooner {
  Minute until = 0, p80 = never;
  Minute minutes = 0;  // of overtime in all
  Amount cost = Amount(0.0);
};
struct Promise {
  std::size_t order = 0;
  Minute planned = never, p50 = never, p80 = never, p95 = never;
  std::string bottleneck;             // the machine that it waits longest for
  Messages chain;                     // of the plan, down to the first cause
  std::vector<std::string> machines;  // that it runs on
  std::vector<Sooner> sooner;         // the cheapest that gains a day, then the soonest
  DispatchOrder list;
};
inline constexpr std::uint64_t promise_draws = 200;
/// The problem with its times drawn once from their bands.
PlanProblem drawn(const WeekProblem& problem, std::uint64_t draw);
/// Where the quote is the last job of the problem, and a list of all the others.
Promise promise_of(const Week& week, const WeekProblem& problem, const DispatchOrder& others);
/// The problem without its last job.
PlanProblem without_last(const PlanProblem& problem);

}  // namespace turnwright
