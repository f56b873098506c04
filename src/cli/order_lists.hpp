// SPDX-License-Identifier: MIT
#pragma once
// The lists of orders that a week file names, and the part files that orders mean by a number.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "session.hpp"
#include "turnwright/week/order_table.hpp"
#include "turnwright/week/route_orders.hpp"

namespace turnwright::cli {

/// A list with what became of its rows.
struct ReadOrders {
  std::string path;
  OrderTable table;
  struct Row {
    TableRow cells;
    std::string number;  // of its order; "" where it has none
    Problems problems;
  };
  std::vector<Row> rows;
};

/// Adds the orders of the lists to the week. What cannot be read of a list as such is said, and
/// nothing is returned; rows that are refused are said and stay out of the week.
std::optional<std::vector<ReadOrders>> read_order_lists(const Session& session, Week& week);

/// The rows that are not in the plan, with what is wrong, as a list that is read again; "" where
/// all are.
std::string again_list(const Session& session, const ReadOrders& list, const Week& week,
                       const PlannedWeek& planned);

/// Gives an order that names the number of a part the path of its file, where the folder of the
/// week has one; problems where it has several.
Problems find_parts(Week& week);

}  // namespace turnwright::cli
