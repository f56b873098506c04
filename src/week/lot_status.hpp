// SPDX-License-Identifier: MIT
#pragma once
// Where a lot stands: which operations are left, and how many pieces there are for each.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/week/week_problem.hpp"

namespace turnwright {

/// An operation that is left.
struct OperationLeft {
  std::size_t place = 0;    // in the route
  int done = 0;             // pieces of it, by the week file
  std::optional<int> runs;  // pieces that it runs, where they are booked; else all that are planned
  PiecesLeft told;
  bool now = false;  // it is what runs, where the order does
};
/// The last operation that is over, by its place in the route, and when it ended.
struct LastEnded {
  std::size_t place = 0;
  Minute at = 0;
};
struct LotStatus {
  std::vector<OperationLeft> left;  // in their order
  std::optional<LastEnded> ended;   // where it is booked, and nothing after it
  int good = 0;                     // pieces that there are in the end
  Messages doubts;                  // of what is booked
};
/// `planned`: pieces that the lot begins with, with what is allowed for scrap.
LotStatus lot_status(const WeekOrder& order, const Route& route, double planned);

}  // namespace turnwright
