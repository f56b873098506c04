// SPDX-License-Identifier: MIT
#pragma once
#include <string>

namespace turnwright::pdf {

/// The document with its language said and its title shown by readers, which the library that draws
/// it has no call for: one object more behind it, as the format provides for changes.
std::string with_language(std::string pdf, const std::string& language);

}  // namespace turnwright::pdf
