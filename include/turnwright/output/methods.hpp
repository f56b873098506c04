// SPDX-License-Identifier: MIT
#pragma once
// The ways of making a part as an owner asks for them: which leads, why in money, what would flip
// it, and a map by stock and quantity.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/compare/inputs.hpp"

namespace turnwright {

struct MethodsReport {
  std::string title, currency;
  int quantity = 1;  // that reasons, flips and sensitivities are for
  Comparison comparison;
  Combining combining;
  std::vector<WinnerChange> winner_changes;
  std::vector<Sensitivity> sensitivities;
  std::optional<MethodMap> map;
};

std::string methods_text(const MethodsReport& report);
std::string methods_json(const MethodsReport& report);
std::string methods_page(const MethodsReport& report);
/// Sheets Ways, Map, Inputs; throws CannotWrite.
void write_methods_workbook(const MethodsReport& report, const std::string& path);

}  // namespace turnwright
