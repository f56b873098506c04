// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/route/route.hpp"

namespace turnwright {

/// Adds up what the steps remove against stock, part and features; names the regions that no step
/// reaches and makes the route not feasible then. Also the cautions that need the whole route.
/// `job` is the drawing's job: its features are the shoulder undercuts.
void audit_route(Route& route, const Job& job);

}  // namespace turnwright
