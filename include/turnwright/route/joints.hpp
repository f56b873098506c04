// SPDX-License-Identifier: MIT
#pragma once
#include <cstddef>
#include <vector>

#include "turnwright/route/route.hpp"

namespace turnwright {

/// Outside surfaces with a tolerance of their own that are finished partly in one operation and
/// partly in another: a joint stays in them. Indices into the job's surfaces. What tools run past
/// the change-over, `overlap`, is no part of its own.
std::vector<std::size_t> joined_surfaces(const Route& route, Length overlap);

}  // namespace turnwright
