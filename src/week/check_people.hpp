// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/quantity/message.hpp"
#include "turnwright/week/plan.hpp"

namespace turnwright {

/// Of people who are told apart: whoever is said to do something is there, can do it, does nothing
/// else meanwhile, and all of the work is somebody's.
Messages faults_of_people(const PlanProblem& problem, const Plan& plan);

}  // namespace turnwright
