// SPDX-License-Identifier: MIT
#pragma once
#include <string>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// The methods that a quote shows beside its own.
std::string compare_text(const Comparison& methods, const Words& words);

}  // namespace turnwright
