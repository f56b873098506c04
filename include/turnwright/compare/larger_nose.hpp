// SPDX-License-Identifier: MIT
#pragma once
// What the next larger nose of the finishing tool would bring: the same part planned with it.
#include <optional>
#include <string>

#include "turnwright/compare/plan_method.hpp"

namespace turnwright {

struct LargerNose {
  std::string tool;  // that finishes
  Length now{}, larger{};
  bool fits = false;   // into the corners of the drawing
  int quantity = 1;    // of the lot
  Money before, with;  // its cost; `with` only where it fits
};

/// Of a feasible method; nothing where no outside is finished or the series of ISO 1832 ends.
std::optional<LargerNose> larger_nose(const MethodResult& method, const Shop& shop, int quantity);

/// "a nose of 0.8 in place of 0.4 …", what it brings or why not.
Message said(const LargerNose& nose, const std::string& currency);

}  // namespace turnwright
