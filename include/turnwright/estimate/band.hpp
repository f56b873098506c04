// SPDX-License-Identifier: MIT
#pragma once
// How wide a cost is: the rows that it rests on, each with the band of its basis, drawn together.
#include <vector>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// A part of a lot's cost that stands or falls with one row of the rates.
struct BandRow {
  BandRowId row = BandRowId::setup_times;
  Amount amount{};  // of the lot's cost, likely
  double band = 0;  // the row may be off by this share either way
  Basis basis = Basis::typical;
};

/// The rows of a lot; they add up to its cost but for what carries no band.
std::vector<BandRow> band_rows(const Quote& quote, const Shop& shop, int quantity);

/// Where a share of 0 to 1 lies on a triangle from -1 over 0 to 1.
double on_triangle(double share);

/// Cost of a lot drawn from its rows: each a triangle from low over likely to high, independent.
struct CostSpread {
  Amount p10{}, p50{}, p90{}, expected{};
  double loss_chance = 0;  // that the cost is above what the price brings
};
inline constexpr int band_draws = 4096;
/// Quasi-random draws (Sobol), the same on every machine and in every run.
CostSpread spread_of(const std::vector<BandRow>& rows, Amount cost, Amount income);

/// The rows that widen the band most, widest first.
std::vector<BandCause> widest_causes(const std::vector<BandRow>& rows, int quantity,
                                     std::size_t most);

/// The quote with the draws of each of its prices.
Quote with_band(Quote quote, const Shop& shop);

}  // namespace turnwright
