// SPDX-License-Identifier: MIT
#pragma once
// How a bore is opened: by which drill, and whether it or a reamer makes the size.
#include <span>

#include "turnwright/route/job.hpp"

namespace turnwright {

/// How far under a bored size its hole is drilled.
Length under_size(const Practice& practice, const Surface& bored);

/// Which hole is drilled first, and whether it or a reamer makes the size. `surfaces` are those of
/// one bore, from its mouth.
void open_hole(std::span<const Surface> surfaces, const std::vector<Element>& elements,
               const Shop& shop, Bore& bore);

}  // namespace turnwright
