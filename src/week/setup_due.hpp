// SPDX-License-Identifier: MIT
#pragma once
// What was due of a setup that is booked: less than its estimate, where the work before it left
// jaws, bar or tools mounted, or has proved the job.
#include <vector>

#include "turnwright/week/actuals.hpp"

namespace turnwright {

/// The estimates with the setup that was due. What came first on a machine was set up whole, as far
/// as is known; a setup of which hardly anything was due is none.
std::vector<Estimated> estimates_due(const Week& week, const std::vector<OrderRoutes>& routes,
                                     const std::vector<Booking>& bookings);

}  // namespace turnwright
