// SPDX-License-Identifier: MIT
#pragma once
// What a quote rests on: its formulas with their publications, its rates with their basis.
#include <string>
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

struct FigureUse {
  std::string name, formula, where, source;  // `where`: in the workbook
};
std::vector<FigureUse> figures_used();

struct RateUse {
  std::string name, value, basis, source;
};
std::vector<RateUse> rates_used(const Quote& quote, const Shop& shop);

}  // namespace turnwright
