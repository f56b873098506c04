// SPDX-License-Identifier: MIT
#include "turnwright/figure/sure_quantity.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>

namespace turnwright::figure {
namespace {

// The chance of at least `good` good pieces of n.
double chance_of(double good, double n, double yield) {
  const boost::math::binomial_distribution<double> pieces(n, yield);
  return boost::math::cdf(boost::math::complement(pieces, good - 1));
}

}  // namespace

double pieces_to_start(double good, double yield, double level) {
  good = std::max(std::ceil(good - whole_slack), 1.0);
  auto enough = [&](double n) {
    return yield >= 1 || chance_of(good, n, yield) >= level - 1e-12;  // a tie is enough
  };
  double high = good;
  while (!enough(high)) high = high * 2 + 1;
  double low = good - 1;  // not enough
  while (high - low > 1) {
    const double middle = std::floor((low + high) / 2);
    (enough(middle) ? high : low) = middle;
  }
  return high;
}

std::vector<double> chances_of_shortage(double good, double pieces, double yield) {
  constexpr double once_in_a_million = 1e-6;
  good = std::ceil(good - whole_slack), pieces = std::floor(pieces + whole_slack);
  if (yield >= 1 || pieces < good) return {1};
  std::vector<double> chances;
  for (double enough = good; enough >= 0; --enough) {
    chances.push_back(enough < 1 ? 1 : chance_of(enough, pieces, yield));
    if (chances.back() > 1 - once_in_a_million) break;
  }
  return chances;
}

}  // namespace turnwright::figure
