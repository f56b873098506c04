// SPDX-License-Identifier: MIT
#pragma once
// The method that leaves tied seats for the grinder.
#include "turnwright/route/job.hpp"
#include "turnwright/route/planned.hpp"

namespace turnwright {

/// The job with an allowance left on the tied seats and the grinding bought.
Planned<Job> left_for_grinding(const Job& job, const Shop& shop);

}  // namespace turnwright
