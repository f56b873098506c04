// SPDX-License-Identifier: MIT
#pragma once
#include "options.hpp"
#include "turnwright/cli/run.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

bool is_list(const std::string& path);

/// Prices a list of parts, a chunk at a time: the order stays, memory does not grow with it. What
/// cannot be priced goes into a second file, to be corrected and read again.
Exit list_command(const Options& options, const Streams& streams, const Shop& shop);

}  // namespace turnwright::cli
