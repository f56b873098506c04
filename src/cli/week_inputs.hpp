// SPDX-License-Identifier: MIT
#pragma once
// The week file and the posted plan that commands plan with.
#include <optional>
#include <string>
#include <vector>

#include "inputs.hpp"
#include "order_lists.hpp"
#include "turnwright/week/posted.hpp"
#include "turnwright/week/promise.hpp"
#include "turnwright/week/route_orders.hpp"

namespace turnwright::cli {

/// A week and the plan that is posted for it.
struct WeekInputs {
  Week week;
  std::optional<std::vector<PostedRun>> posted;
  std::vector<ReadOrders> lists;  // that the week names

  /// Rows of lists that are no orders.
  std::size_t rows_refused() const;
  Planning planning(const Session& session) const;
};
/// Of the file at `path`, with the plan of --posted; problems are said.
std::optional<WeekInputs> week_inputs(const Session& session, const std::string& path);

/// The path of a part as an order of the week would name it.
std::string beside_week(const Week& week, const std::string& part);
/// What a quote says of its delivery by the week of --week; none: problems were said.
std::optional<Message> delivery_message(const Session& session, const PartInput& input,
                                        const Part& part);

}  // namespace turnwright::cli
