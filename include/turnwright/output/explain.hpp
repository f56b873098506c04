// SPDX-License-Identifier: MIT
#pragma once
// Any number of a quote, down to its formula, its numbers, the row of the rates and the source.
#include <optional>
#include <string>

#include "turnwright/compare/compare.hpp"

namespace turnwright {

enum class ExplainKind { overview, step, pass, price, minutes };

struct ExplainRequest {
  ExplainKind kind = ExplainKind::overview;
  int step = 0, pass = 0;  // step number, pass counted from 1
  int quantity = 0;
  bool inch = false;
};

/// The explanation; none when the route has no such step or pass, with what there is in `expected`.
std::optional<std::string> explain_text(const Quote& quote, const Shop& shop,
                                        const ExplainRequest& request, std::string& expected);

}  // namespace turnwright
