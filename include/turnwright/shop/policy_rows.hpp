// SPDX-License-Identifier: MIT
#pragma once
// Rows of the policy that are asked for by name: what they rest on.

namespace turnwright {

inline constexpr const char* scrap_share_row = "scrap share";

}  // namespace turnwright
