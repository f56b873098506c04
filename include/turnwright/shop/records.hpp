// SPDX-License-Identifier: MIT
#pragma once
// Records of the rates as text, to be read, or copied into a file of the shop's own.
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// The records of a section as the files have them, each under the name of its file; with a `name`
/// that one only. A later file's record stands for an earlier one's, as in `read_shop`.
Checked<std::string> records_text(const std::vector<NamedText>& files, const std::string& section,
                                  const std::string& name);

}  // namespace turnwright
