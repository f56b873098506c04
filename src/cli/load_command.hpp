// SPDX-License-Identifier: MIT
#pragma once
#include <optional>
#include <string>

#include "options.hpp"
#include "turnwright/cli/run.hpp"
#include "turnwright/part/request.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

/// Hours, plan and late orders of a week file.
Exit load_command(const Options& options, const Streams& streams, const Shop& shop);
/// Booked times against the estimate: factors, as a proposal.
Exit actuals_command(const Options& options, const Streams& streams, const Shop& shop);
/// Delivery weeks for the parts of a request that name none, from the week file of --week: of the
/// date that is kept in 80 of 100, at the largest quantity.
Exit put_weeks(const Options& options, const Streams& streams, const Shop& shop, Request& request);
/// The date, in words, that the week file of --week lets a quote of this part promise, at its
/// largest quantity; nothing when the week cannot be read.
std::optional<std::string> delivery_of(const Options& options, const Streams& streams,
                                       const Shop& shop, const std::string& part, const Job& job);
/// A date for a part that is not won yet: week file, part file, pieces.
Exit promise_command(const Options& options, const Streams& streams, const Shop& shop);

}  // namespace turnwright::cli
