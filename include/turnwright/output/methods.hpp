// SPDX-License-Identifier: MIT
#pragma once
// The methods of making a part as an owner asks for them: which leads, why in money, what would
// change the winner, and a map by stock and quantity.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/compare/inputs.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

struct MethodsReport {
  std::string title, currency;
  int quantity = 1;  // that reasons, changes of the winner and sensitivities are for
  Comparison comparison;
  Combining combining;
  std::vector<WinnerChange> winner_changes;
  std::vector<Sensitivity> sensitivities;
  std::optional<MethodMap> map;
};

std::string methods_text(const MethodsReport& report, const Words& words);
std::string methods_json(const MethodsReport& report);
std::string methods_page(const MethodsReport& report, const Words& words);
/// Sheets of methods, map and inputs; throws CannotWrite.
void write_methods_workbook(const MethodsReport& report, const Words& words,
                            const std::string& path);

}  // namespace turnwright
