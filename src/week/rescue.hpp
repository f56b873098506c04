// SPDX-License-Identifier: MIT
#pragma once
// What would save late lots, each tried through the decoder.
#include <optional>

#include "turnwright/week/plan_week.hpp"

namespace turnwright {

constexpr double mild_heat = 0.02;  // of planning again: near to what is planned already

/// What is frozen at the front of a list has no machine but its own, there.
void hold_frozen(PlanProblem& problem, DispatchOrder& list);

/// What came of each trial for a late lot.
Messages rescue_trials(const Week& week, const WeekProblem& problem, const WeekPlan& now,
                       std::size_t lot);

/// What linear programs propose for all late lots together. A fluid fills every hour, and a plan
/// does not: what is proposed for all hours is tried first, then for fewer, until it helps.
std::optional<ReliefTried> try_relief(const Week& week, const PlanProblem& problem,
                                      const WeekPlan& now, int moves, int threads);

}  // namespace turnwright
