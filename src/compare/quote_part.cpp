// SPDX-License-Identifier: MIT
// A part quoted: of each quantity the price by its method, in one list.
#include <algorithm>

#include "method_words.hpp"
#include "remedies.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/estimate/pricing.hpp"

namespace turnwright {
namespace {

void add_new(Messages& list, const Message& message) {
  if (std::find(list.begin(), list.end(), message) == list.end()) list.push_back(message);
}

// What the other methods of the list give to know beside those of the main quantity.
void add_notes(Quote& quote, const Comparison& c) {
  for (const std::size_t i : used_methods(c)) {
    if (i == c.main) continue;
    const Quote& other = *c.methods[i].quote;
    for (const Message& what : other.unconfirmed) add_new(quote.unconfirmed, what);
    for (const Message& caution : other.cautions)
      if (std::find(quote.cautions.begin(), quote.cautions.end(), caution) == quote.cautions.end())
        quote.cautions.push_back(
            {"compare.caution-of", {{"method", c.methods[i].name}, {"caution", caution}}});
  }
}

Quote in_one_list(const Comparison& c, const Shop& shop) {
  Quote quote = *c.quoted().quote;
  quote.prices.clear();
  for (const ChosenMethod& chosen : c.chosen) {
    const Quote& by = *c.methods[chosen.method].quote;
    quote.prices.push_back(price_at(by, shop, chosen.quantity));
    quote.prices.back().method_index = chosen.method;
    // What is charged once stands in the list as the main method has it.
    quote.prices.back().once = c.quoted().quote->prices.front().once;
  }
  never_rising(quote.prices, quote.route.job.part);
  add_notes(quote, c);
  for (Message& odd : odd_hand_prices(quote)) quote.cautions.push_back(std::move(odd));
  // What is bent and what the lathe holds stand among the route's cautions.
  if (const HeldBack held = c.quoted().held_back_at(c.quantity); held.practice > 0)
    quote.cautions.push_back({"compare.led-all-the-same", {{"why", held.why}}});
  return quote;
}

bool changes_feed(const MethodResult& method, const PartStock& stock) {
  return std::any_of(method.records.begin(), method.records.end(), [&](const Method& record) {
    return !record.stock.empty() && is_bar(record.stock) != stock.from_bar;
  });
}

// Why no method is possible: what the planner says of the part on any machine; of asked-for
// records, the reason of the first on the stock as the part's file has it.
Infeasible nothing_possible(const Comparison& c, const Job& job, const Shop& shop,
                            const FixedMethod& fixed) {
  if (fixed.records.empty())
    if (const auto route = plan_route(job, shop, {fixed.machine}); !route)
      return route.infeasible();
  for (const MethodResult& method : c.methods)
    if (!changes_feed(method, job.part.stock)) return method.quote.infeasible();
  return c.methods.front().quote.infeasible();
}

Planned<PartQuote> quoted(Comparison methods, const Job& job, const Shop& shop,
                          const FixedMethod& fixed) {
  if (methods.chosen.empty())
    return with_tried_remedies(nothing_possible(methods, job, shop, fixed), job, shop, fixed);
  PartQuote part;
  part.methods = std::move(methods);
  part.quote = in_one_list(part.methods, shop);
  return part;
}

}  // namespace

std::vector<std::size_t> used_methods(const Comparison& c) {
  std::vector<std::size_t> used;
  if (c.chosen.empty()) return used;
  used.push_back(c.main);
  for (const ChosenMethod& chosen : c.chosen)
    if (std::find(used.begin(), used.end(), chosen.method) == used.end())
      used.push_back(chosen.method);
  return used;
}

Planned<PartQuote> quote_part(const Job& job, const Shop& shop, const FixedMethod& fixed,
                              int quantity) {
  return quoted(compare_methods(job, shop, fixed, quantity), job, shop, fixed);
}

Planned<PartQuote> price_part(const Job& job, const Shop& shop, const FixedMethod& fixed,
                              int quantity) {
  return quoted(choose_methods(job, shop, fixed, quantity), job, shop, fixed);
}

PartQuote with_band(PartQuote part, const Shop& shop) {
  for (const std::size_t i : used_methods(part.methods)) {
    Quote by = *part.methods.methods[i].quote;
    by.prices.clear();
    for (const Price& price : part.quote.prices)
      if (price.method_index == i) by.prices.push_back(price);
    by = with_band(std::move(by), shop);
    auto drawn = by.prices.begin();
    for (Price& price : part.quote.prices)
      if (price.method_index == i) price = *drawn++;
  }
  return part;
}

}  // namespace turnwright
