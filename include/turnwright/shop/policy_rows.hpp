// SPDX-License-Identifier: MIT
#pragma once
// Rows of the policy that are asked for by name: what they rest on.

namespace turnwright {

inline constexpr const char* scrap_share_row = "scrap share";
inline constexpr const char* margin_row = "margin";
inline constexpr const char* markup_row = "markup";
inline constexpr const char* rebate_row = "rebate";

}  // namespace turnwright
