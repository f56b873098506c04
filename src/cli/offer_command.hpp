// SPDX-License-Identifier: MIT
#pragma once
#include "options.hpp"
#include "turnwright/cli/run.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

/// The customer's copy of a request: all of its parts, or nothing is written.
Exit offer_command(const Options& options, const Streams& streams, const Shop& shop);

}  // namespace turnwright::cli
