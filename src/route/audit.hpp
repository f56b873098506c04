// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/route/route.hpp"

namespace turnwright {

/// The route with its audit: what the steps remove against stock, part and features, and the
/// cautions that need the whole route. Infeasible, with the regions named, where no step reaches
/// what must come off. `job` is the drawing's job: its features are the shoulder undercuts.
Planned<Route> audited(Route route, const Job& job, const Practice& practice);

}  // namespace turnwright
