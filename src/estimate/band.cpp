// SPDX-License-Identifier: MIT
#include "turnwright/estimate/band.hpp"

#include <algorithm>
#include <boost/random/sobol.hpp>
#include <boost/random/uniform_01.hpp>
#include <cmath>

namespace turnwright {
namespace {

double band_of(const Policy& policy, Basis basis) {
  const auto found = policy.bands.find(basis);
  return found == policy.bands.end() ? 0.3 : found->second;
}
// A record's own band, else the one of its basis.
double band_of(const Policy& policy, const Source& source) {
  return source.band ? *source.band : band_of(policy, source.basis);
}

// Of the cycle time.
struct RunningShares {
  double cutting = 0, given = 0;
};
RunningShares running_shares(const RouteTimes& times) {
  Time cutting(0.0), all(0.0), given(0.0);
  for (const OperationTime& operation : times.operations) {
    all += operation.machine;
    for (const StepTime& step : operation.steps) {
      cutting += step.cutting;
      given += step.given;
    }
  }
  if (all.si <= 0) return {};
  return {(cutting / all).si, (given / all).si};
}

const Source& source_of_speeds(const Material& material, const Shop& shop) {
  static const Source unknown;
  const CuttingGroup* group = shop.cutting_group(material.group);
  return group == nullptr ? unknown : group->source;
}

// What all rows share: times, prices, the first plan.
constexpr std::size_t shared_errors = 3;

// The draws of these rows: where each stands on its triangle, draw by draw, then what they share.
std::vector<double> draws_of(const std::vector<BandRow>& rows) {
  if (rows.empty()) return {};
  const std::size_t width = rows.size() + shared_errors;
  std::vector<double> all(width * band_draws);
  boost::random::sobol points(width);
  boost::random::uniform_01<double> share;
  for (double& x : all) x = on_triangle(share(points), rows.front().upward);
  return all;
}

// What one row is off by in a draw.
double error_of(const BandRow& row, double own, const double* shared) {
  const double family = shared[static_cast<std::size_t>(row.family)];
  return row.amount.si * (row.band * own + row.common * family + row.planning * shared[2]);
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
    for (const BandRow& row : rows) drawn += error_of(row, *draw++, shared);
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

// Rows of what is bought share the error of prices, all others that of times.
bool is_bought(BandRowId row) {
  return row == BandRowId::material_price || row == BandRowId::inserts;
}
// Of setup and running, planned for this part.
bool is_planned(BandRowId row) {
  return row == BandRowId::setup_times || row == BandRowId::cutting_speeds_and_feeds ||
         row == BandRowId::handling_times;
}

// Nobody has made the part yet. Booked times of the machine say how far its plans are off.
double planning_error(const Quote& quote, const Shop& shop) {
  if (quote.route.job.part.repeat) return 0;
  for (const Correction& c : shop.corrections)
    if (c.machine == quote.route.machine.name && !c.setup && c.source.band) return *c.source.band;
  return shop.policy.planning_error;
}

}  // namespace

double on_triangle(double u, double upward) {
  const double width = 1 + upward;
  return u * width < 1 ? std::sqrt(u * width) - 1 : upward - std::sqrt((1 - u) * width * upward);
}

// The variance of a triangle from -b over 0 to ub is b^2 (1 + u + u^2)/18.
double band_of_spread(double deviation, double upward) {
  return deviation * std::sqrt(18 / (1 + upward + upward * upward));
}

std::vector<BandRow> band_rows(const Quote& quote, const Shop& shop, int quantity) {
  const Policy& policy = shop.policy;
  const auto lines = lot_lines(quote, quantity);
  const RunningShares shares = running_shares(quote.times);
  const Amount running = lines.machine + lines.labour;
  const Source& speeds = source_of_speeds(quote.route.job.material, shop);
  const Source& setup = shop.setup_element(SetupId::machine).source;
  const Source& price = quote.route.job.material.source;
  const Basis priced =
      quote.material.status == PriceStatus::confirmed ? Basis::found : Basis::typical;
  const double planning = planning_error(quote, shop);
  std::vector<BandRow> rows;
  auto add = [&](BandRowId row, Amount amount, double band, Basis basis) {
    if (amount.si <= 0) return;
    const bool bought = is_bought(row);
    rows.push_back({row, amount, band, basis, bought ? ErrorFamily::prices : ErrorFamily::times,
                    bought ? policy.common_error_of_prices : policy.common_error_of_times,
                    is_planned(row) ? planning : 0, policy.upward});
  };
  auto add_source = [&](BandRowId row, Amount amount, const Source& source) {
    add(row, amount, band_of(policy, source), source.basis);
  };
  auto add_basis = [&](BandRowId row, Amount amount, Basis basis) {
    add(row, amount, band_of(policy, basis), basis);
  };
  add_source(BandRowId::setup_times, lines.setup, setup);
  add_source(BandRowId::cutting_speeds_and_feeds, running * shares.cutting, speeds);
  add_source(BandRowId::handling_times, running * (1 - shares.cutting - shares.given),
             shop.load.source);
  add_basis(BandRowId::given_times, running * shares.given, Basis::given);
  add_basis(BandRowId::inserts, lines.inserts, Basis::from_memory);
  add(BandRowId::material_price, lines.material, price.band ? *price.band : band_of(policy, priced),
      priced);
  add_basis(BandRowId::other_work, lines.other + lines.outside + lines.one_offs, Basis::given);
  return rows;
}

CostSpread spread_of(const std::vector<BandRow>& rows, Amount cost, Amount income) {
  return spread(rows, draws_of(rows), cost, income);
}

std::vector<BandCause> widest_causes(const std::vector<BandRow>& rows, double units,
                                     std::size_t most) {
  std::vector<BandCause> causes;
  for (const BandRow& row : rows) {
    if (row.low().si > 0)
      causes.push_back({row.row, -row.low() / units, row.high() / units, row.basis});
  }
  std::stable_sort(causes.begin(), causes.end(), [](const BandCause& a, const BandCause& b) {
    return a.high_each > b.high_each;
  });
  if (causes.size() > most) causes.resize(most);
  return causes;
}

Quote with_band(Quote quote, const Shop& shop) {
  std::vector<double> draws;  // the same for every price of as many rows
  for (Price& p : quote.prices) {
    const std::vector<BandRow> rows = band_rows(quote, shop, p.quantity);
    if (draws.size() != (rows.size() + shared_errors) * band_draws) draws = draws_of(rows);
    const CostSpread found = spread(rows, draws, p.cost.amount(), p.income().amount());
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
