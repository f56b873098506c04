// SPDX-License-Identifier: MIT
#pragma once
// Exact fractions: the factor between a unit and the coherent SI unit is kept as numerator and
// denominator, so that a spreadsheet formula shows "1000*B4" and not "0.001" seventeen digits long.
#include <cstdint>
#include <optional>

namespace turnwright {

__extension__ using Wide = __int128;

struct Ratio {
  Wide num = 1;
  Wide den = 1;
  friend constexpr bool operator==(const Ratio&, const Ratio&) = default;
};

constexpr Wide common_divisor(Wide a, Wide b) {
  if (a < 0) a = -a;
  if (b < 0) b = -b;
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a == 0 ? 1 : a;
}

constexpr Ratio reduced(Wide num, Wide den) {
  if (den < 0) {
    num = -num;
    den = -den;
  }
  const Wide g = common_divisor(num, den);
  return {num / g, den / g};
}

/// Products stay exact; `nothing` when a part would leave 100 bits (the caller then prints
/// decimals).
constexpr std::optional<Ratio> product(Ratio a, Ratio b) {
  constexpr Wide limit = Wide{1} << 100;
  const Wide g1 = common_divisor(a.num, b.den);
  const Wide g2 = common_divisor(b.num, a.den);
  const Wide n1 = a.num / g1, n2 = b.num / g2, d1 = a.den / g2, d2 = b.den / g1;
  auto too_big = [](Wide x, Wide y) {
    if (x < 0) x = -x;
    if (y < 0) y = -y;
    return y != 0 && x > limit / y;
  };
  if (too_big(n1, n2) || too_big(d1, d2)) return std::nullopt;
  return reduced(n1 * n2, d1 * d2);
}

constexpr Ratio inverse(Ratio a) { return reduced(a.den, a.num); }

constexpr double as_double(Ratio a) {
  return static_cast<double>(a.num) / static_cast<double>(a.den);
}

}  // namespace turnwright
