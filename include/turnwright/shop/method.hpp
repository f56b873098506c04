// SPDX-License-Identifier: MIT
#pragma once
// A method of making a part, as a record: what it changes of part, shop and plan. What it leaves
// empty stays as it is.
#include <string>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

/// Where speeds and feeds come from: the cutting table, or the optimum under every limit.
/// Least cost counts a minute of the machine at its rate, or at what it is worth (see Shop).
enum class ConditionsRule { handbook, least_cost, least_time };

struct Method {
  Method();  // written once, in method.cpp, not in every file that copies one
  Method(const Method&);
  Method(Method&&) noexcept;
  Method& operator=(const Method&);
  Method& operator=(Method&&) noexcept;
  ~Method();

  std::string name, why;
  bool practised = false;  // the shop quotes by it unasked
  std::string plan;        // a rule of the planner: "two finish cuts", "between centres" …
  std::string tools;       // the grade that all turning tools get
  std::string machine;     // "manual", "CNC", or a machine of the shop
  std::string stock;       // "bar" through the spindle, or sawn "blank"
  std::string condition;   // of the bar: "drawn", "hot rolled" …
  std::vector<std::string> groups;  // ISO 513 groups that it is for; none: all
  int clampings = 0;                // 1, or 2 at least
  bool fixed_speed = false;
  std::string turn_round;   // two operations on a manual lathe: "turned round" piece by piece, or
                            // "operation by operation"
  bool ends_first = false;  // both ends are roughed before either is finished
  ConditionsRule conditions = ConditionsRule::handbook;
  Amount edge_price = Amount(0.0);  // of an edge of those tools, as a regrind costs; 0: as they are
  Time edge_change{};               // of those tools, ground and set again; 0: as they are
  Source source;
};

}  // namespace turnwright
