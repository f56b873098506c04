// SPDX-License-Identifier: MIT
// From a quantity to its price: the lot, its lines, rounding, and the rules of a list.
#include <algorithm>
#include <cmath>

#include "turnwright/estimate/band.hpp"
#include "turnwright/figure/sure_quantity.hpp"
#include "turnwright/quantity/whole.hpp"

namespace turnwright {
namespace {

// Pieces that are started so that enough are good as surely as the service level asks.
Pure<double> service_pieces(const Quote& quote, const model::LotInputs<double>& lot) {
  const Number good = lot.quantity / lot.releases;
  double yield = good < lot.scrap_from ? 1 : 1 - lot.scrap_share.si;
  for (const auto& stage : lot.outside) yield *= 1 - stage.scrap.si;
  return figure::SureQuantity::work_out<double>(
             {good, Number(1 - yield), Number(quote.service_level)})
      .start;
}

// Mean time of the first pieces as a share of the planned.
Pure<double> learned(const Learning& learning, const model::LotInputs<double>& lot, int quantity) {
  auto unit = [&](double n) {
    return figure::LearningUnit::work_out<double>({Time(1.0), Number(learning.rate), Number(n)});
  };
  return unit(quantity).total / lot.quantity / unit(learning.planned_at).time_unit;
}

model::LotInputs<double> lot_in(const Quote& quote, int quantity, int releases) {
  model::LotInputs<double> lot = quote.lot;
  lot.releases = static_cast<double>(releases);
  lot.quantity = static_cast<double>(quantity);
  if (quote.service_level > 0) lot.service_pieces = service_pieces(quote, lot);
  if (const auto& learning = quote.route.job.part.learning)
    lot.learned = learned(*learning, lot, quantity);
  return lot;
}

Amount sum_of(const model::LotLines<double>& l) {
  return l.setup + l.machine + l.labour + l.inserts + l.material + l.other + l.outside + l.one_offs;
}

Time machine_time(const model::LotInputs<double>& lot, const model::LotLines<double>& lines) {
  return lot.releases * (lot.setup_machine - lines.setup_saved) + lines.machine_run;
}

std::vector<CostLine> cost_lines(const Quote& quote, const model::LotLines<double>& l) {
  std::vector<CostLine> lines;
  auto add = [&](CostKind kind, Amount amount, bool always = true) {
    if (always || amount.si > 0) lines.push_back({kind, rounded(amount)});
  };
  add(CostKind::setup, l.setup);
  add(quote.split_rate ? CostKind::machine : CostKind::running, l.machine);
  add(CostKind::labour, l.labour, quote.split_rate);
  add(CostKind::inserts, l.inserts);
  add(CostKind::material, l.material);
  add(CostKind::other_work, l.other);
  add(CostKind::outside_work, l.outside, false);
  add(CostKind::one_offs, l.one_offs, false);
  return lines;
}

Money sum_of(const std::vector<CostLine>& lines) {
  Money sum;
  for (const CostLine& line : lines) sum = sum + line.amount;
  return sum;
}

void total_up(Price& p, const Policy& policy) {
  // ROUND(each x quantity / unit, 2): the customer's arithmetic.
  p.total = rounded(p.each.amount() * static_cast<double>(p.quantity) /
                    static_cast<double>(p.price_unit));
  p.minimum_surcharge = p.total < policy.minimum_order ? policy.minimum_order - p.total : Money();
  p.margin = p.income() - p.cost;
  const double sales = p.income().amount().si;
  p.margin_share = sales > 0 ? p.margin.amount().si / sales : 0;
}

// The price of a price unit of pieces, rounded to its step.
Money price_of(Amount cost, const Price& p, const Policy& policy) {
  const Amount each = model::price_each<double>(cost, Number(static_cast<double>(p.quantity)),
                                                policy.margin, policy.markup) *
                      static_cast<double>(p.price_unit);
  return rounded_to_step(each, policy.step_of(each));
}

// All rows low, all high.
void width(Price& p, const std::vector<BandRow>& rows, const Policy& policy) {
  Amount off(0.0);
  for (const BandRow& row : rows) off += row.amount * row.band;
  p.low_each = std::min(price_of(p.cost.amount() - off, p, policy), p.each);
  p.high_each = std::max(price_of(p.cost.amount() + off, p, policy), p.each);
}

}  // namespace

int main_quantity(const Part& part) { return part.quantities[part.quantities.size() / 2]; }

model::LotInputs<double> lot_of(const Quote& quote, int quantity) {
  return lot_in(quote, quantity, quote.route.job.part.releases);
}

model::LotLines<double> lot_lines(const Quote& quote, int quantity) {
  return model::lot_lines(lot_of(quote, quantity));
}

Amount lot_cost(const Quote& quote, int quantity) { return sum_of(lot_lines(quote, quantity)); }

LotCosts::LotCosts(const Quote& quote)
    : quote_(&quote),
      lot_(lot_of(quote, 1)),
      plain_(quote.service_level <= 0 && !quote.route.job.part.learning) {}

Amount LotCosts::at(int quantity) {
  if (!plain_) return lot_cost(*quote_, quantity);
  lot_.quantity = static_cast<double>(quantity);
  return sum_of(model::lot_lines(lot_));
}

Time lot_machine_time(const Quote& quote, int quantity) {
  return machine_time(quote.lot, lot_lines(quote, quantity));
}

Rate contribution_per_hour(const Quote& quote, int quantity, Money income) {
  const auto lines = lot_lines(quote, quantity);
  const Time taken = machine_time(quote.lot, lines);
  if (taken.si <= 0) return Rate(0.0);
  return (income.amount() - lines.material - lines.inserts - lines.outside) / taken;
}

Price price_at(const Quote& quote, const Shop& shop, int quantity) {
  const auto lines = lot_lines(quote, quantity);
  const Policy& policy = shop.policy;
  const Part& part = quote.route.job.part;
  Price p;
  p.quantity = quantity;
  p.method = quote.method;
  p.made_on = quote.route.machine.name;
  p.cycle = quote.times.machine_each;
  p.attended = quote.times.person_each;
  p.setup = quote.times.setup;
  p.price_unit = part.price_unit > 0 ? part.price_unit : policy.price_unit;
  p.made = nearest_whole(lines.made.si);
  p.machine = machine_time(quote.lot, lines);
  p.person = quote.lot.releases * (quote.lot.setup_person - lines.setup_saved) + lines.person_run;
  p.lines = cost_lines(quote, lines);
  p.cost = sum_of(p.lines);
  p.each = p.likely_each = price_of(p.cost.amount(), p, policy);
  if (part.releases > 1) {
    const auto at_once = model::lot_lines(lot_in(quote, quantity, 1));
    p.at_once_each = price_of(sum_of(cost_lines(quote, at_once)).amount(), p, policy);
  }
  width(p, band_rows(quote, shop, quantity), policy);
  total_up(p, policy);
  return p;
}

void never_rising(std::vector<Price>& prices, const Policy& policy) {
  for (std::size_t i = prices.size(); i-- > 1;) {
    Price& smaller = prices[i - 1];
    const Price& larger = prices[i];
    if (smaller.each >= larger.each) continue;
    smaller.each = larger.each;
    smaller.high_each = std::max(smaller.high_each, smaller.each);
    total_up(smaller, policy);
  }
}

std::vector<LargerForLess> larger_for_less(const std::vector<Price>& prices) {
  std::vector<LargerForLess> found;
  for (std::size_t i = 0; i + 1 < prices.size(); ++i) {
    const Price &now = prices[i], &next = prices[i + 1];
    if (now.each.hundredths() <= 0) continue;
    // The first whole number of pieces that costs more than the next quantity does.
    const auto from = next.income().hundredths() * now.price_unit / now.each.hundredths() + 1;
    if (from < next.quantity)
      found.push_back({std::max(static_cast<int>(from), now.quantity), next.quantity});
  }
  return found;
}

}  // namespace turnwright
