// SPDX-License-Identifier: MIT
#pragma once
// How wide a cost is: the rows that it rests on, each with the band of its basis, what rows are off
// by together, and the pieces that a lot may be short of.
#include <array>
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// What rows are off by together: all times of a shop, all that is bought, the first plan of a
/// part, and a machine's work as its booked times have it.
enum class SharedError { times, prices, first_plan, booked };
inline constexpr std::size_t shared_errors = 4;

/// A part of a lot's cost that stands or falls with one row of the rates.
struct BandRow {
  BandRowId row = BandRowId::setup_times;
  Amount amount{};  // of the lot's cost, likely
  double band = 0;  // the row alone may lie below its likely value by this share
  Basis basis = Basis::typical;
  std::array<double, shared_errors> shared{};  // the same, together with the other rows
  double upward = 1;                           // how much farther it may lie above than below
  // Of pieces that a lot is short of: what one brings, and the chance that no more than so many
  // are missing.
  Amount missing{};
  std::vector<double> short_by{};

  double& of(SharedError error) { return shared[static_cast<std::size_t>(error)]; }
  /// Its own and shared errors are independent: their squares add up.
  double width() const;
  Amount low() const { return amount * width(); }
  Amount high() const;
};

/// The rows of a lot whose price brings `each` a piece; they add up to its cost.
std::vector<BandRow> band_rows(const Quote& quote, const Shop& shop, int quantity, Amount each);

/// Where a share of 0 to 1 lies on a triangle from -1 over 0 to `upward`.
double on_triangle(double share, double upward = 1);
/// Half width of the even triangle that spreads as much as values with this standard deviation.
double band_of_spread(double deviation);

/// Cost of a lot drawn from its rows: each a triangle from low over likely to high of its own, and
/// one for each error that rows share.
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
