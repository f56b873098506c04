// SPDX-License-Identifier: MIT
#pragma once
// The blank and the diameter at which the cut changes over, in global coordinates.
#include "turnwright/route/job.hpp"

namespace turnwright {

/// The outside as it comes.
Outline blank_outside(const Job& job);
/// The void that it comes with.
Outline blank_hollow(const Job& job);
Mass blank_mass(const Job& job);
/// The longest flat of the largest radius.
Interval widest(const Job& job);
/// Whether the surface at z stays as the bar is bought.
bool drawn_at(const Job& job, Length z);
/// Nothing smaller than r left of z: that is for the other operation.
Outline raised_left(const Outline& shape, Length z, Length r);

}  // namespace turnwright
