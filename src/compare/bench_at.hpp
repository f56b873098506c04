// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/compare/bench_cut.hpp"

namespace turnwright {

/// The first step of the cut with what somebody has set, timed like the plan.
BenchAt bench_at(const BenchCut& cut, const BenchSettings& set);

}  // namespace turnwright
