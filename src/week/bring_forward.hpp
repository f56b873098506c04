// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/week/plan.hpp"

namespace turnwright {

/// The list with work brought forward into hours in which its machine would wait for other work,
/// where that makes nothing later that counts and costs nothing: the search sees no difference
/// there, whoever reads the plan does. And of the same job, one right behind the other, the one that
/// is due first comes first.
DispatchOrder brought_forward(const PlanProblem& problem, DispatchOrder order);

}  // namespace turnwright
