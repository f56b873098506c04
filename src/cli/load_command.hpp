// SPDX-License-Identifier: MIT
#pragma once
#include "options.hpp"
#include "turnwright/cli/run.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

/// Hours, plan and late orders of a week file.
Exit load_command(const Options& options, const Streams& streams, const Shop& shop);

}  // namespace turnwright::cli
