// SPDX-License-Identifier: MIT
#pragma once
// What the part is made from.
#include "complaints.hpp"
#include "turnwright/route/job.hpp"

namespace turnwright {

/// Fills `stock`, and the shape of a casting or forging.
void choose_stock(Job& job, const Shop& shop, const Complaints& complaints);

}  // namespace turnwright
