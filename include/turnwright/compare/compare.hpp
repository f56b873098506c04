// SPDX-License-Identifier: MIT
#pragma once
// The methods of making a part, planned and costed by the same flow, which leads at which quantity,
// and which of them the part is quoted by.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/compare/plan_method.hpp"
#include "turnwright/compare/questions.hpp"
#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// From one quantity to another one method leads.
struct LeadingRange {
  int from = 1, to = 1;
  std::size_t method = 0;           // index into the methods
  std::vector<std::size_t> either;  // it and the others within the shop's band, when there are any
};

/// Money of one method less the quoted one, by cause, for one lot.
struct Difference {
  std::size_t method = 1;  // that is held against the quoted one
  int quantity = 1;
  Amount setup{}, tool_change{}, cutting{}, other_time{}, inserts{}, material{}, outside{};
  Amount total{};
};

/// The method that a quantity is quoted by.
struct ChosenMethod {
  int quantity = 1;
  std::size_t method = 0;
  std::optional<std::size_t> next;  // the cheapest of the others that may lead
};

/// Where the next best costs less than the quoted method of the main quantity: from a larger
/// quantity on, else up to a smaller one; both 0: nowhere.
struct RunnerUp {
  std::size_t method = 0;
  int from = 0, to = 0;
  Money each;       // at the main quantity
  double more = 0;  // of the cost of the quoted method's lot
};

struct Comparison {
  std::vector<MethodResult> methods;
  std::vector<LeadingRange> lead;
  std::vector<ChosenMethod> chosen;  // at each quantity of the part; empty: nothing is possible
  int quantity = 1;                  // the main one
  std::size_t main = 0;              // quoted at the main quantity
  Money each, calculated;            // its price there, and before it was fixed by hand
  std::optional<RunnerUp> runner_up;
  std::vector<Difference> differences;  // runner-up less quoted, at each quantity of the part
  std::vector<Difference> reasons;      // every other one less the quoted, at the main quantity
  int break_even = 0;  // first quantity at which the leader of quantity 1 no longer leads; 0: never
  int scanned_to = 1000;
  double either_within = 0;         // methods that cost no more than this are as good
  std::vector<Question> questions;  // of the quoted method, where they are asked for

  const MethodResult& quoted() const { return methods[main]; }
};

/// What leaves no choice: a machine, records of methods.
struct FixedMethod {
  std::string machine;  // "": every machine of the shop
  std::vector<Method> records;
};

/// The method of a quantity: the cheapest, by cost of the lot, of the practised that may lead
/// unasked. Nothing where none is possible.
std::optional<ChosenMethod> choose(const Comparison& comparison, int quantity);

/// Every method that the shop practises, on every machine, from bar and sawn where the part leaves
/// it open. `quantity`: that tuned conditions are best for; 0 is the part's main one.
std::vector<MethodResult> practised_methods(const Job& job, const Shop& shop,
                                            const FixedMethod& fixed, int quantity = 0);
/// The cheapest of them at a quantity that may lead unasked; where `operations` is not 0, of those
/// with so many.
const MethodResult* cheapest_practised(const std::vector<MethodResult>& methods, int quantity,
                                       std::size_t operations = 0);
/// The practised methods and what the part is quoted by, no more. `quantity`: the main one; 0 is
/// the part's.
Comparison choose_methods(const Job& job, const Shop& shop, const FixedMethod& fixed,
                          int quantity = 0);
/// With who leads, why, and what else would hold a tie between seats.
Comparison compare_methods(const Job& job, const Shop& shop, const FixedMethod& fixed,
                           int quantity = 0);

/// What a search over pairs of records did.
struct Combining {
  int possible = 0, planned = 0, left_out = 0;  // left out by a bound
};
/// The practised methods and, each put into the quoted one, all other records of the shop, or the
/// named ones alone beside what is quoted; those that change nothing are left out. With `combine`
/// also two records together, where each is feasible, and three where two of them lead somewhere:
/// they are not planned when what their stock, outside work and one-offs alone cost is no less than
/// the best lot so far, at quantities a tenth apart up to twice the list.
Comparison compare_all(const Job& job, const Shop& shop, const FixedMethod& fixed,
                       const std::vector<std::string>& names, bool combine, Combining& combining,
                       int quantity = 0);

/// A part as it is quoted: the quote of the method of the main quantity, with the prices of the
/// list each by its own method.
struct PartQuote {
  Comparison methods;
  Quote quote;

  /// The quote of the method that a price is by.
  const Quote& of(const Price& price) const { return *methods.methods[price.method_index].quote; }
};
Planned<PartQuote> quote_part(const Job& job, const Shop& shop, const FixedMethod& fixed,
                              int quantity = 0);
/// The same with the choice alone, for many parts: nothing of who leads beside it.
Planned<PartQuote> price_part(const Job& job, const Shop& shop, const FixedMethod& fixed,
                              int quantity = 0);
/// With the draws of each price by its own method.
PartQuote with_band(PartQuote part, const Shop& shop);
/// The methods of a quote's prices, each once, that of the main quantity first.
std::vector<std::size_t> used_methods(const Comparison& comparison);

}  // namespace turnwright
