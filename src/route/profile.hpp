// SPDX-License-Identifier: MIT
#pragma once
// The outlines of a job from its surfaces, edges, corners and grooves.
#include <string>

#include "turnwright/route/job.hpp"

namespace turnwright {

/// Fills `finished`, `turned` and `features`. The element that does not fit and why, or null.
const Element* draw_profiles(Job& job, const Standards& standards, std::string& fault);

/// The turned outline with `radial` more on every surface that is finished apart, and `axial` on
/// its faces: what roughing must not enter.
Outline with_allowance(const Job& job, Length radial, Length axial);

}  // namespace turnwright
