// SPDX-License-Identifier: MIT
#pragma once
#include <string>
#include <vector>

namespace turnwright {

/// What sheets may be called: at most 31 characters without []:*?/\ and apostrophes, none empty, no
/// two alike.
std::vector<std::string> sheet_names(const std::vector<std::string>& wanted);

/// A sheet's name as formulas write it: in apostrophes where it is more than letters.
std::string reference_of(const std::string& sheet);

}  // namespace turnwright
