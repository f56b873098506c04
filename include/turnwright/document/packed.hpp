// SPDX-License-Identifier: MIT
#pragma once
// A tree as bytes: files that are built in are read while building, and at run time only unpacked.
#include <string>
#include <string_view>

#include "turnwright/document/node.hpp"

namespace turnwright {

std::string packed(const Node& node);
/// The tree again; for what `packed` wrote, and for nothing else.
Node unpacked(std::string_view bytes);

}  // namespace turnwright
