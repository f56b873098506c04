// SPDX-License-Identifier: MIT
#pragma once
// The trees of the rates that are built in, packed while building.
#include <string_view>
#include <vector>

namespace turnwright {

/// One for each of shipped_rates(), in their order; for `unpacked`.
const std::vector<std::string_view>& shipped_trees();

}  // namespace turnwright
