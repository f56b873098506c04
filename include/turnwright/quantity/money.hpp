// SPDX-License-Identifier: MIT
#pragma once
// Exact money. An amount becomes money by ROUND(ROUND(x,6),2), half away from zero, worked in
// integers; after that, sums and multiples are exact, in the engine and in any spreadsheet.
#include <compare>
#include <cstdint>
#include <string>

#include "turnwright/quantity/quantity.hpp"

namespace turnwright {

class Money {
 public:
  constexpr Money() = default;
  static constexpr Money from_hundredths(std::int64_t cents) { return Money(cents); }
  constexpr std::int64_t hundredths() const { return cents_; }
  constexpr Amount amount() const { return Amount(static_cast<double>(cents_) / 100.0); }
  /// "12.34".
  std::string text() const;

  friend constexpr Money operator+(Money a, Money b) { return Money(a.cents_ + b.cents_); }
  friend constexpr Money operator-(Money a, Money b) { return Money(a.cents_ - b.cents_); }
  friend constexpr Money operator*(Money a, std::int64_t n) { return Money(a.cents_ * n); }
  friend constexpr auto operator<=>(Money, Money) = default;  // NOLINT(modernize-use-nullptr)

 private:
  constexpr explicit Money(std::int64_t cents) : cents_(cents) {}
  std::int64_t cents_ = 0;
};

/// ROUND(ROUND(x,6),2). The inner rounding makes ties the same whatever noise the last bits carry.
Money rounded(Amount x);
/// The multiple of `step` nearest to x's six-digit value, half away from zero.
Money rounded_to_step(Amount x, Money step);

}  // namespace turnwright
