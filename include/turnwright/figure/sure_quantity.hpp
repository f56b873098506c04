// SPDX-License-Identifier: MIT
#pragma once
// How many pieces to start for a given certainty of enough good ones: the exact binomial sum.
#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>

#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"

namespace turnwright::figure {

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
    const double good = std::max(std::ceil(value_of(given.good.si) - whole_slack), 1.0);
    const double yield = 1 - value_of(given.scrap_rate.si), level = value_of(given.level.si);
    auto enough = [&](double n) {
      return yield >= 1 || boost::math::cdf(boost::math::complement(
                               boost::math::binomial_distribution<double>(n, yield), good - 1)) >=
                               level - 1e-12;  // a tie is enough
    };
    double high = good;
    while (!enough(high)) high = high * 2 + 1;
    double low = good - 1;  // not enough
    while (high - low > 1) {
      const double middle = std::floor((low + high) / 2);
      (enough(middle) ? high : low) = middle;
    }
    return {Pure<N>(N(high))};
  }
  static constexpr Identity identity{
      "sure-quantity",
      std::array{needed("good", "N", unit::count, 1, 1e7),
                 needed("scrap-rate", "p", unit::ratio, 0, 0.95),
                 optional("level", "P", unit::ratio, 0.95, 0.01, 0.9999)},
      std::array{result("start", "N0", unit::count)},
      "smallest N0 with P(good >= N) >= P, good binomial of N0 and 1 - p",
      "definition of the binomial distribution"};
};

}  // namespace turnwright::figure
