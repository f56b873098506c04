// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/week/plan_week.hpp"

namespace turnwright {

/// The plan of a dispatch order, checked, with the reasons of what is late and what would save it.
WeekPlan with_reasons(const Week& week, const WeekProblem& problem, DispatchOrder order, int moves,
                      int threads);

}  // namespace turnwright
