// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/route/route.hpp"

namespace turnwright {

/// "chuck, soft jaws on 40 mm, stick-out 110 mm (2.8 × D)".
Message clamping_label(const Operation& operation);

}  // namespace turnwright
