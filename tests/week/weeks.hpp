// SPDX-License-Identifier: MIT
#pragma once
// Weeks read from a text of the test, and parts by name; invented.
#include <string>

#include "../support.hpp"
#include "turnwright/week/route_orders.hpp"

namespace turnwright::test {

inline Week week_in(const std::string& text) {
  const auto week = read_week("week.yaml", text);
  INFO(problems_text(week.problems()));
  REQUIRE(week);
  return *week;
}

/// "p30.yaml" is a shaft of 30 mm.
inline Checked<Part> part_by_name(const Week&, const WeekOrder& order) {
  const std::string d = order.part.substr(1, 2);
  return read_part(order.part, "part: {number: P" + d + "}\nmaterial: C45\nstock: {round: " + d +
                                   ", condition: drawn, fed from: blank}\nquantities: [10]\n"
                                   "drawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [\"" +
                                   std::to_string(std::stoi(d) - 3) + " x60\", \"" +
                                   std::to_string(std::stoi(d) - 1) + " x40\"]\n");
}

}  // namespace turnwright::test
