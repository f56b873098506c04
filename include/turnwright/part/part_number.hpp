// SPDX-License-Identifier: MIT
#pragma once
#include <string>
#include <string_view>

namespace turnwright {

/// The number of the part in a part file, without reading the rest of it; "" of any other text.
std::string part_number_in(std::string_view text);

}  // namespace turnwright
