// SPDX-License-Identifier: MIT
#pragma once
#include "options.hpp"
#include "turnwright/cli/run.hpp"
#include "turnwright/part/request.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

/// Hours, plan and late orders of a week file.
Exit load_command(const Options& options, const Streams& streams, const Shop& shop);
/// Booked times against the estimate: factors, as a proposal.
Exit actuals_command(const Options& options, const Streams& streams, const Shop& shop);
/// Delivery weeks for the parts of a request that name none, from the week file of --week: of the
/// date that is kept in 80 of 100, at the largest quantity.
Exit put_weeks(const Options& options, const Streams& streams, const Shop& shop, Request& request);
/// A date for a part that is not won yet: week file, part file, pieces.
Exit promise_command(const Options& options, const Streams& streams, const Shop& shop);

}  // namespace turnwright::cli
