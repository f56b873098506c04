// SPDX-License-Identifier: MIT
#pragma once
// The ways of making a part as an owner asks for them: which leads, why in money, what would flip
// it, and a map by stock and quantity.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/compare/inputs.hpp"

namespace turnwright {

struct WaysReport {
  std::string title, currency;
  int quantity = 1;  // that reasons, flips and sensitivities are for
  Comparison comparison;
  Combining combining;
  std::vector<Flip> flips;
  std::vector<Sensitivity> sensitivities;
  std::optional<WayMap> map;
};

std::string ways_text(const WaysReport& report);
std::string ways_json(const WaysReport& report);
std::string ways_page(const WaysReport& report);
/// Sheets Ways, Map, Inputs; throws CannotWrite.
void write_ways_workbook(const WaysReport& report, const std::string& path);

}  // namespace turnwright
