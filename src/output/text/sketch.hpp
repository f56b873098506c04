// SPDX-License-Identifier: MIT
#pragma once
// Pictures of characters.
#include <string>

#include "turnwright/route/route.hpp"

namespace turnwright {

/// The work as it is clamped, cut from the right: jaws as #, a centre as <.
std::string clamping_sketch(const Job& job, const Operation& operation, int width);

}  // namespace turnwright
