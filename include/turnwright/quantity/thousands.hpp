// SPDX-License-Identifier: MIT
#pragma once
// A mark before three digits, which one country reads as thousands and the next as decimals.
#include <string_view>

namespace turnwright {

/// "1.000", "12.500.000" of the mark '.'; "0.125" and "1.0" part no thousands.
bool parts_thousands(std::string_view text, char mark);

}  // namespace turnwright
