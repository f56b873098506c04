// SPDX-License-Identifier: MIT
#include "turnwright/estimate/band.hpp"

#include <algorithm>
#include <boost/random/sobol.hpp>
#include <boost/random/uniform_01.hpp>
#include <cmath>

namespace turnwright {
namespace {

// Where each row stands on its triangle, draw by draw, then each error that rows share; of pieces
// that are missing the bare share. What is booked errs evenly: a factor has its middle put right.
std::vector<double> draws_of(const std::vector<BandRow>& rows) {
  if (rows.empty()) return {};
  const std::size_t width = rows.size() + shared_errors;
  std::vector<double> upward(width, 1);
  for (std::size_t i = 0; i < rows.size(); ++i) upward[i] = rows[i].upward;
  const double most = *std::max_element(upward.begin(), upward.end());
  for (std::size_t i = rows.size(); i < width; ++i)
    if (i != rows.size() + static_cast<std::size_t>(SharedError::booked)) upward[i] = most;
  std::vector<double> all(width * band_draws);
  boost::random::sobol points(width);
  boost::random::uniform_01<double> share;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::size_t column = i % width;
    const double u = share(points);
    const bool counted = column < rows.size() && !rows[column].short_by.empty();
    all[i] = counted ? u : on_triangle(u, upward[column]);
  }
  return all;
}

// So many that a larger shortage is less likely than the share leaves.
double short_of(const std::vector<double>& short_by, double share) {
  const auto found = std::lower_bound(short_by.begin(), short_by.end(), share);
  return static_cast<double>(found - short_by.begin());
}

// What one row is off by in a draw.
Amount error_of(const BandRow& row, double own, const double* shared) {
  if (!row.short_by.empty()) return row.missing * short_of(row.short_by, own);
  double share = row.band * own;
  for (std::size_t i = 0; i < shared_errors; ++i) share += row.shared[i] * shared[i];
  return row.amount * share;
}

struct DrawnCosts {
  std::vector<double> costs;
  double sum = 0;
  int losses = 0;
};
DrawnCosts drawn_costs(const std::vector<BandRow>& rows, const std::vector<double>& draws,
                       Amount cost, Amount income) {
  DrawnCosts all{std::vector<double>(band_draws)};
  const double* draw = draws.data();
  for (double& drawn : all.costs) {
    drawn = cost.si;
    const double* shared = draw + rows.size();
    for (const BandRow& row : rows) drawn += error_of(row, *draw++, shared).si;
    draw = shared + shared_errors;
    all.losses += drawn > income.si ? 1 : 0;
    all.sum += drawn;
  }
  return all;
}

CostSpread spread(const std::vector<BandRow>& rows, const std::vector<double>& draws, Amount cost,
                  Amount income) {
  if (rows.empty()) return {cost, cost, cost, cost, 0};
  DrawnCosts all = drawn_costs(rows, draws, cost, income);
  auto at = [&](double p) {
    const auto nth = all.costs.begin() + static_cast<std::ptrdiff_t>(p * band_draws);
    std::nth_element(all.costs.begin(), nth, all.costs.end());
    return Amount(*nth);
  };
  CostSpread spread;
  spread.p10 = at(0.1);
  spread.p50 = at(0.5);
  spread.p90 = at(0.9);
  spread.expected = Amount(all.sum / band_draws);
  spread.loss_chance = static_cast<double>(all.losses) / band_draws;
  return spread;
}

}  // namespace

double BandRow::width() const {
  double squares = band * band;
  for (const double error : shared) squares += error * error;
  return std::sqrt(squares);
}

Amount BandRow::high() const {
  constexpr double nearly_sure = 0.95;  // of pieces that are missing no most can be said
  return upward * low() + missing * short_of(short_by, nearly_sure);
}

double on_triangle(double u, double upward) {
  const double width = 1 + upward;
  return u * width < 1 ? std::sqrt(u * width) - 1 : upward - std::sqrt((1 - u) * width * upward);
}

// The variance of an even triangle of half width b is b^2/6.
double band_of_spread(double deviation) { return deviation * std::sqrt(6.0); }

CostSpread spread_of(const std::vector<BandRow>& rows, Amount cost, Amount income) {
  return spread(rows, draws_of(rows), cost, income);
}

std::vector<BandCause> widest_causes(const std::vector<BandRow>& rows, double units,
                                     std::size_t most) {
  std::vector<BandCause> causes;
  for (const BandRow& row : rows) {
    if (row.high().si > 0)
      causes.push_back({row.row, Amount(0.0) - row.low() / units, row.high() / units, row.basis});
  }
  std::stable_sort(causes.begin(), causes.end(), [](const BandCause& a, const BandCause& b) {
    return a.high_each > b.high_each;
  });
  if (causes.size() > most) causes.resize(most);
  return causes;
}

Quote with_band(Quote quote, const Shop& shop) {
  for (Price& p : quote.prices) {
    const Amount each = p.each.amount() / static_cast<double>(p.price_unit);
    const std::vector<BandRow> rows = band_rows(quote, shop, p.quantity, each);
    const CostSpread found = spread_of(rows, p.cost.amount(), p.income().amount());
    const double n = static_cast<double>(p.quantity) / p.price_unit;
    p.p10_each = rounded(found.p10 / n);
    p.p50_each = rounded(found.p50 / n);
    p.p90_each = rounded(found.p90 / n);
    p.loss_chance = found.loss_chance;
    p.causes = widest_causes(rows, n, 3);
  }
  return quote;
}

}  // namespace turnwright
