// SPDX-License-Identifier: MIT
#include "turnwright/quantity/money.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace turnwright {
namespace {

std::int64_t nearest_multiple(std::int64_t value, std::int64_t step) {
  const std::int64_t size = std::llabs(value);
  const std::int64_t whole = (size + step / 2) / step;
  return value < 0 ? -whole : whole;
}

// Millionths, as far as whole numbers go: 9.2 million million of money.
std::int64_t millionths(Amount x) {
  constexpr double most = 9.2e18;
  return std::isnan(x.si) ? 0 : std::llround(std::clamp(x.si * 1e6, -most, most));
}

}  // namespace

std::string Money::text() const {
  const std::int64_t size = std::llabs(cents_);
  const std::int64_t rest = size % 100;
  return (cents_ < 0 ? "-" : "") + std::to_string(size / 100) + (rest < 10 ? ".0" : ".") +
         std::to_string(rest);
}

Money rounded(Amount x) { return Money::from_hundredths(nearest_multiple(millionths(x), 10000)); }

Money rounded_to_step(Amount x, Money step) {
  const std::int64_t cents = step.hundredths();
  return Money::from_hundredths(nearest_multiple(millionths(x), 10000 * cents) * cents);
}

}  // namespace turnwright
