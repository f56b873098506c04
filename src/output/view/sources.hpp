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

/// A row that a price rests on, where it comes from.
struct NamedSource {
  Message name;
  Source source;
};
/// The policy's rows, with margin, discount and rebate as the customer's record or the request has
/// them.
std::vector<NamedSource> policy_sources(const Part& part, const Shop& shop);
/// Machines beside the lathes that do some of the part's other work.
std::vector<const OtherMachine*> other_machines_used(const Part& part, const Shop& shop);

/// In the reader's words.
struct RateUse {
  std::string name, value;
  Source source;
};
std::vector<RateUse> rates_used(const PartQuote& part, const Shop& shop, const Words& words);

}  // namespace turnwright
