// SPDX-License-Identifier: MIT
#pragma once
// How many pieces to start for a given certainty of enough good ones: the exact binomial sum.
#include <vector>

#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"

namespace turnwright::figure {

/// The fewest pieces of which at least `good` are good with probability `level`.
double pieces_to_start(double good, double yield, double level);

/// The chance that, of so many pieces, none, at most one, two … are missing to `good` good ones; up
/// to where more are missing once in a million. One entry: none ever is.
std::vector<double> chances_of_shortage(double good, double pieces, double yield);

/// Works on plain numbers only: a whole-number search has no live formula.
struct SureQuantity {
  template <class N = double>
  struct Inputs {
    Pure<N> good, scrap_rate, level;
  };
  template <class N = double>
  struct Results {
    Pure<N> start;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {Pure<N>(N(pieces_to_start(value_of(given.good.si), 1 - value_of(given.scrap_rate.si),
                                      value_of(given.level.si))))};
  }
  static constexpr Identity identity{
      "sure-quantity",
      std::array{needed("good", "N", unit::ratio, 1, 1e7),
                 needed("scrap-rate", "p", unit::ratio, 0, 0.95),
                 optional("level", "P", unit::ratio, 0.95, 0.01, 0.9999)},
      std::array{result("start", "N0", unit::ratio)},
      "smallest N0 with P(good >= N) >= P, good binomial of N0 and 1 - p",
      "definition of the binomial distribution"};
};

}  // namespace turnwright::figure
