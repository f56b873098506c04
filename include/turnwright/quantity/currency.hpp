// SPDX-License-Identifier: MIT
#pragma once
// One shop, one currency: amounts that are written in another are converted by a record of the
// shop, or are a problem.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/quantity/date.hpp"
#include "turnwright/quantity/money.hpp"

namespace turnwright {

/// What one unit of another currency is worth in the shop's own.
struct ExchangeRate {
  std::string currency;
  double rate = 1;
  Date date{};
  std::string source;
};

struct Currencies {
  std::string own = "EUR";
  std::vector<ExchangeRate> rates;

  /// The factor of an amount in this currency; an unnamed one ("") is the shop's own.
  std::optional<double> factor(std::string_view currency) const;
};

/// A code of ISO 4217 that amounts can be written in.
bool is_currency(std::string_view code);
/// The least that is paid in it: a hundredth, or one of those that ISO 4217 gives no decimals.
Money smallest_unit(std::string_view code);

}  // namespace turnwright
