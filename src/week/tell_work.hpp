// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/week/week_problem.hpp"

namespace turnwright {

/// What an order makes and how, on each machine that it may go to.
void tell_work(const OrderRoutes& order, WeekProblem& problem);

}  // namespace turnwright
