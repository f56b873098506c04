// SPDX-License-Identifier: MIT
#pragma once
// Tools: what each may cut.
#include <string>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

enum class ToolKind { rough, finish, groove, part_off, centre };

struct Tool {
  std::string name;
  std::string insert;  // designation to ISO 1832, may be empty
  ToolKind kind = ToolKind::rough;
  std::string grade;
  Number lead_angle{};  // kappa, rad
  Length nose_radius{};
  Length least_depth{}, largest_depth{};
  Length least_feed{}, largest_feed{};
  Number copying_angle{};  // steepest descent it can follow behind a shoulder, rad
  Length width{};          // plunging tools
  Length reach{};          // deepest plunge
  int edges = 1;
  Amount price{};      // of the whole insert or tool
  Time edge_change{};  // 0: the shop's handling element
  Source source;
};

}  // namespace turnwright
