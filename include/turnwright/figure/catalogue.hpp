// SPDX-License-Identifier: MIT
#pragma once
// Every figure by name: worked out from named values, backwards for one missing input, explained.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"
#include "turnwright/quantity/message.hpp"

namespace turnwright::figure {

/// The SI numbers of one input or result: one for a quantity, several for a list, the index for a
/// choice.
using Numbers = std::vector<double>;

struct Explanation {
  std::string symbols;  // "n = vc / (π · D)"
  std::string numbers;  // "n = 120 m/min / (π · 60 mm)"
  /// By input: the share of itself that the result changes by when the input changes by a share, d
  /// ln result / d ln input; NaN where it is a list, a choice or nothing.
  std::vector<double> slopes;
};

struct Entry {
  std::string_view name, formula, source;
  std::span<const Field> inputs, results;
  /// Works the figure out; `given` holds every input in order.
  std::vector<Numbers> (*work_out)(std::span<const Numbers> given);
  /// One explanation a result; empty for results that are lists. Its quantities as `written`.
  std::vector<Explanation> (*explain)(std::span<const Numbers> given, const QuantityText& written);
};

/// All figures, in the order of the topics.
std::span<const Entry> all();
const Entry* find(std::string_view name);
std::vector<std::string> names();

/// The answer of a figure worked backwards. Exactly one value, or why not.
struct Backwards {
  bool found = false;
  bool moved = true;  // false: the result does not depend on the input
  double si = 0;
  Message why_not;
};
/// Finds input `missing` so that result `result` becomes `target` (SI), within the input's range.
Backwards work_backwards(const Entry& entry, std::vector<Numbers> given, std::size_t missing,
                         std::size_t result, double target);

}  // namespace turnwright::figure
