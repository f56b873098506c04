// SPDX-License-Identifier: MIT
#pragma once
// Whether a plan can be worked: told from the problem and the plan alone. It shares no code with
// the decoder, so that a mistake of one is seen by the other.
#include "turnwright/quantity/message.hpp"
#include "turnwright/week/plan.hpp"

namespace turnwright {

/// Every rule that the plan breaks; none: it holds. Operations and lots are named by their row in
/// the problem: a fault is one of this program, and never the planner's.
Messages faults_of(const PlanProblem& problem, const Plan& plan);

}  // namespace turnwright
