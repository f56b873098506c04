// SPDX-License-Identifier: MIT
#pragma once
// An operation on turned surfaces.
#include "clamping/jaws.hpp"

namespace turnwright {

struct Rechucking {
  Turned turned;
  int number = 0;
  bool roughs = true, finishes = true, last = true;
};

/// The layout with it: on the nearest flat to the cut that is long enough, or on a mandrel.
Planned<Layout> rechucked(const PlanContext& context, const Rechucking& how, Layout layout);

}  // namespace turnwright
