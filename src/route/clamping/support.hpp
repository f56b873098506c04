// SPDX-License-Identifier: MIT
#pragma once
// Whether the free end needs a centre or a rest.
#include "clamping/layout.hpp"

namespace turnwright {

/// The task with its support decided: stick-out, centre, centre hole, rests, and why. Cautions are
/// added. Infeasible where a centre is needed that cannot be.
Planned<OperationTask> supported(const PlanContext& context, OperationTask task,
                                 Messages& cautions);

}  // namespace turnwright
