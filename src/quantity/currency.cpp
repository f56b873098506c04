// SPDX-License-Identifier: MIT
#include "turnwright/quantity/currency.hpp"

#include <algorithm>
#include <array>

namespace turnwright {

Money smallest_unit(std::string_view code) {
  // ISO 4217:2015, table A.1: minor unit 0.
  static constexpr std::array whole{std::string_view("CLP"), std::string_view("ISK"),
                                    std::string_view("JPY"), std::string_view("KRW"),
                                    std::string_view("VND")};
  const bool has_none = std::find(whole.begin(), whole.end(), code) != whole.end();
  return rounded(Amount(has_none ? 1.0 : 0.01));
}

std::optional<double> Currencies::factor(std::string_view currency) const {
  if (currency.empty() || currency == own) return 1.0;
  for (const ExchangeRate& rate : rates)
    if (rate.currency == currency) return rate.rate;
  return std::nullopt;
}

}  // namespace turnwright
