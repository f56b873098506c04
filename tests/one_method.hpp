// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/compare/compare.hpp"
#include "turnwright/compare/tuned.hpp"

namespace turnwright::test {

/// A quote as that of a part with no other method.
inline PartQuote one_method(const Quote& quote) {
  MethodResult method;
  method.name = method.recipe = "alone";
  method.practised = true;
  method.quote = quote;
  PartQuote part{{}, quote};
  part.methods.methods.push_back(std::move(method));
  part.methods.quantity = main_quantity(quote.route.job.part);
  for (const Price& price : quote.prices)
    part.methods.chosen.push_back({price.quantity, 0, std::nullopt});
  return part;
}

/// The part tuned on a machine ("": any) by the planner's rule alone.
inline Tuned tune_on(const Part& part, const Shop& shop, const std::string& machine,
                     TuneRule rule) {
  return tune(part, shop, plan_method(part, shop, {}, machine), rule, main_quantity(part));
}

}  // namespace turnwright::test
