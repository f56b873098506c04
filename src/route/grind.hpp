// SPDX-License-Identifier: MIT
#pragma once
// The way that leaves tied seats for the grinder.
#include "turnwright/route/job.hpp"

namespace turnwright {

/// The job with 0.3 mm left on the tied seats and the grinding bought; or why there is none.
std::optional<Job> left_for_grinding(const Job& job, const Shop& shop, std::string& why_not);

}  // namespace turnwright
