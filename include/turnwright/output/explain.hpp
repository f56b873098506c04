// SPDX-License-Identifier: MIT
#pragma once
// Any number of a quote, down to its formula, its numbers, the row of the rates and the source.
#include <functional>
#include <optional>
#include <string>

#include "turnwright/compare/compare.hpp"
#include "turnwright/compare/larger_nose.hpp"
#include "turnwright/figure/recorded.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

enum class ExplainKind { overview, step, pass, price, minutes };

/// "step 10.2", "pass 10.2.1", "price 50".
struct ExplainRequest {
  ExplainKind kind = ExplainKind::overview;
  int operation = 0, step = 0;  // as the route numbers them
  int pass = 0;                 // of the step, from 1
  int quantity = 0;
};

/// How a formula shows its quantities: in the reader's units and the shop's currency, with all the
/// digits that its result rests on.
QuantityText quantity_text(const Words& words);

/// Finds what a larger nose would bring, which plans the part once more.
using NoseFinder = std::function<std::optional<LargerNose>()>;

/// The explanation, of a finishing step with what a larger nose would bring; where the route has no
/// such step or pass, what it has instead.
Planned<std::string> explain_text(const Quote& quote, const Shop& shop,
                                  const ExplainRequest& request, const Words& words,
                                  NoseFinder nose = {});

}  // namespace turnwright
