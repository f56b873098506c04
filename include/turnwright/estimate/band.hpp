// SPDX-License-Identifier: MIT
#pragma once
// How wide a cost is: the rows that it rests on, each with the band of its basis, drawn together.
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// What rows are off by together.
enum class ErrorFamily { times, prices };

/// A part of a lot's cost that stands or falls with one row of the rates.
struct BandRow {
  BandRowId row = BandRowId::setup_times;
  Amount amount{};  // of the lot's cost, likely
  double band = 0;  // the row may lie below its likely value by this share
  Basis basis = Basis::typical;
  ErrorFamily family = ErrorFamily::times;
  double common = 0;    // the same of all rows of the family together
  double planning = 0;  // the same of what is planned for the first time
  double upward = 1;    // how much farther it may lie above than below

  Amount low() const { return amount * (band + common + planning); }
  Amount high() const { return upward * low(); }
};

/// The rows of a lot; they add up to its cost but for what carries no band.
std::vector<BandRow> band_rows(const Quote& quote, const Shop& shop, int quantity);

/// Where a share of 0 to 1 lies on a triangle from -1 over 0 to `upward`.
double on_triangle(double share, double upward = 1);
/// Half width below of the triangle that spreads as much as values with this standard deviation.
double band_of_spread(double deviation, double upward);

/// Cost of a lot drawn from its rows: each a triangle from low over likely to high of its own, and
/// one for what the rows of a family, and those of a first plan, are off by together.
struct CostSpread {
  Amount p10{}, p50{}, p90{}, expected{};
  double loss_chance = 0;  // that the cost is above what the price brings
};
inline constexpr int band_draws = 4096;
/// Quasi-random draws (Sobol), the same on every machine and in every run.
CostSpread spread_of(const std::vector<BandRow>& rows, Amount cost, Amount income);

/// The rows that widen the band most, widest first; by the price units in the lot.
std::vector<BandCause> widest_causes(const std::vector<BandRow>& rows, double units,
                                     std::size_t most);

/// The quote with the draws of each of its prices.
Quote with_band(Quote quote, const Shop& shop);

}  // namespace turnwright
