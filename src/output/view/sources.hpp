// SPDX-License-Identifier: MIT
#pragma once
// What a quote rests on: its formulas with their publications, its rates with their basis.
#include <string>
#include <vector>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

struct FigureUse {
  std::string name, formula;
  Message where;  // in the workbook
  std::string source;
};
/// What a price of the part is worked out with.
std::vector<FigureUse> figures_used(const Part& part, const Policy& policy);

/// In the reader's words.
struct RateUse {
  std::string name, value;
  Source source;
};
std::vector<RateUse> rates_used(const PartQuote& part, const Shop& shop, const Words& words);

}  // namespace turnwright
