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

// The draws of this many rows: where each stands on its triangle, draw by draw.
std::vector<double> draws_of(std::size_t rows) {
  std::vector<double> all(rows * band_draws);
  if (rows == 0) return all;
  boost::random::sobol points(rows);
  boost::random::uniform_01<double> share;
  for (double& x : all) x = on_triangle(share(points));
  return all;
}

CostSpread spread(const std::vector<BandRow>& rows, const std::vector<double>& draws, Amount cost,
                  Amount income) {
  CostSpread spread;
  spread.p10 = spread.p50 = spread.p90 = spread.expected = cost;
  if (rows.empty()) return spread;
  std::vector<double> costs(band_draws);
  auto draw = draws.begin();
  int losses = 0;
  double sum = 0;
  for (double& drawn : costs) {
    drawn = cost.si;
    for (const BandRow& row : rows) drawn += row.amount.si * row.band * *draw++;
    losses += drawn > income.si ? 1 : 0;
    sum += drawn;
  }
  auto at = [&](double p) {
    const auto nth = costs.begin() + static_cast<std::ptrdiff_t>(p * band_draws);
    std::nth_element(costs.begin(), nth, costs.end());
    return Amount(*nth);
  };
  spread.p10 = at(0.1);
  spread.p50 = at(0.5);
  spread.p90 = at(0.9);
  spread.expected = Amount(sum / band_draws);
  spread.loss_chance = static_cast<double>(losses) / band_draws;
  return spread;
}

}  // namespace

double on_triangle(double u) { return u < 0.5 ? std::sqrt(2 * u) - 1 : 1 - std::sqrt(2 * (1 - u)); }

std::vector<BandRow> band_rows(const Quote& quote, const Shop& shop, int quantity) {
  const Policy& policy = shop.policy;
  const auto lines = lot_lines(quote, quantity);
  Time cutting(0.0), all(0.0), given(0.0);
  for (const OperationTime& operation : quote.times.operations) {
    all += operation.machine;
    for (const StepTime& step : operation.steps) {
      cutting += step.cutting;
      given += step.given;
    }
  }
  const Material& material = quote.route.job.material;
  const CuttingGroup* group = shop.cutting_group(material.group);
  const Source unknown;
  const Source& speeds = group == nullptr ? unknown : group->source;
  const Amount running = lines.machine + lines.labour;
  const double cut = all.si > 0 ? (cutting / all).si : 0;
  const double own = all.si > 0 ? (given / all).si : 0;
  const Source& ready = shop.ready("machine").source;
  const Basis price = quote.material.status == "confirmed" ? Basis::found : Basis::typical;
  std::vector<BandRow> rows;
  auto add = [&](std::string name, Amount amount, double band, Basis basis) {
    if (amount.si > 0) rows.push_back({std::move(name), amount, band, basis});
  };
  add("make-ready times", lines.setup, band_of(policy, ready), ready.basis);
  add("cutting speeds and feeds", running * cut, band_of(policy, speeds), speeds.basis);
  add("handling times", running * (1 - cut - own), band_of(policy, shop.load.source),
      shop.load.source.basis);
  add("times given for this part", running * own, band_of(policy, Basis::given), Basis::given);
  add("edges and their lives", lines.edges, band_of(policy, Basis::from_memory),
      Basis::from_memory);
  add("material price", lines.material,
      material.source.band ? *material.source.band : band_of(policy, price), price);
  add("other work", lines.other + lines.outside + lines.one_offs, band_of(policy, Basis::given),
      Basis::given);
  return rows;
}

CostSpread spread_of(const std::vector<BandRow>& rows, Amount cost, Amount income) {
  return spread(rows, draws_of(rows.size()), cost, income);
}

std::vector<BandCause> widest_causes(const std::vector<BandRow>& rows, int quantity,
                                     std::size_t most) {
  std::vector<BandCause> causes;
  for (const BandRow& row : rows) {
    const Amount each = row.amount * row.band / static_cast<double>(quantity);
    if (each.si > 0) causes.push_back({row.name, -each, each, row.basis});
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
    if (draws.size() != rows.size() * band_draws) draws = draws_of(rows.size());
    const CostSpread found =
        spread(rows, draws, p.cost.amount(), (p.total + p.minimum_surcharge).amount());
    const double n = p.quantity;
    p.p10_each = rounded(found.p10 / n);
    p.p50_each = rounded(found.p50 / n);
    p.p90_each = rounded(found.p90 / n);
    p.loss_chance = found.loss_chance;
    p.causes = widest_causes(rows, p.quantity, 3);
  }
  return quote;
}

}  // namespace turnwright
