// SPDX-License-Identifier: MIT
#pragma once
#include "options.hpp"
#include "turnwright/cli/run.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

/// Hours, plan and late orders of a week file.
Exit load_command(const Options& options, const Streams& streams, const Shop& shop);
/// Booked times against the estimate: factors, as a proposal.
Exit actuals_command(const Options& options, const Streams& streams, const Shop& shop);
/// A date for a part that is not won yet: week file, part file, pieces.
Exit promise_command(const Options& options, const Streams& streams, const Shop& shop);

}  // namespace turnwright::cli
