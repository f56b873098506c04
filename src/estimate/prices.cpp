// SPDX-License-Identifier: MIT
// From a quantity to its price: the lot, its lines, rounding, and the rules of a list.
#include <algorithm>
#include <cmath>

#include "quote_parts.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/estimate/pricing.hpp"
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

Time machine_time(const model::LotLines<double>& lines) {
  return lines.machine_setup + lines.machine_run;
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

// The price of a price unit of pieces, rounded to its step.
Money price_of(Amount cost, const Price& p, const Part& part, const Policy& policy) {
  const Amount each =
      price_from_cost(cost / static_cast<double>(p.quantity), pricing_of(part, policy)) *
      static_cast<double>(p.price_unit);
  return rounded_to_step(each, policy.step_of(each));
}

int price_unit_of(const Part& part, const Policy& policy) {
  return part.price_unit > 0 ? part.price_unit : policy.price_unit;
}

// All rows low, all high.
void width(Price& p, const std::vector<BandRow>& rows, const Part& part, const Policy& policy) {
  Amount below(0.0), above(0.0);
  for (const BandRow& row : rows) below += row.low(), above += row.high();
  p.low_each = std::min(price_of(p.cost.amount() - below, p, part, policy), p.each);
  p.high_each = std::max(price_of(p.cost.amount() + above, p, part, policy), p.each);
}

void fix_by_hand(Price& p, const Part& part) {
  const auto price = price_by_hand(part, p.quantity);
  if (!price) return;
  p.each = p.low_each = p.likely_each = p.high_each = *price;
  total_up(p);
}

}  // namespace

Money missing_to(Money minimum, Money goods, double rebate_share) {
  return std::max(minimum - (goods - rounded(goods.amount() * rebate_share)), Money());
}

void total_up(Price& p) {
  // ROUND(each x quantity / unit, 2): the customer's arithmetic.
  p.total = rounded(p.each.amount() * static_cast<double>(p.quantity) /
                    static_cast<double>(p.price_unit));
  p.rebate = rounded(p.total.amount() * p.rebate_share);
  p.minimum_surcharge = missing_to(p.minimum_order, p.total + p.once, p.rebate_share);
  p.margin = p.income() - p.cost;
  const double sales = p.income().amount().si;
  p.margin_share = sales > 0 ? p.margin.amount().si / sales : 0;
}

int main_quantity(const Part& part) { return part.quantities[part.quantities.size() / 2]; }

model::LotInputs<double> lot_of(const Quote& quote, int quantity) {
  return lot_in(quote, quantity, quote.route.job.part.releases_at(quantity));
}

model::LotLines<double> lot_lines(const Quote& quote, int quantity) {
  return model::lot_lines(lot_of(quote, quantity));
}

Amount lot_cost(const Quote& quote, int quantity) { return sum_of(lot_lines(quote, quantity)); }

LotCosts::LotCosts(const Quote& quote)
    : quote_(&quote),
      lot_(lot_of(quote, 1)),
      plain_(quote.service_level <= 0 && !quote.route.job.part.learning &&
             quote.route.job.part.released == 0) {}

Amount LotCosts::at(int quantity) {
  if (!plain_) return lot_cost(*quote_, quantity);
  lot_.quantity = static_cast<double>(quantity);
  return sum_of(model::lot_lines(lot_));
}

Time lot_machine_time(const Quote& quote, int quantity) {
  return machine_time(lot_lines(quote, quantity));
}

Rate contribution_per_hour(const Quote& quote, int quantity, Money income) {
  const auto lines = lot_lines(quote, quantity);
  const Time taken = machine_time(lines);
  if (taken.si <= 0) return Rate(0.0);
  return (income.amount() - lines.material - lines.inserts - lines.outside) / taken;
}

Money each_in_lots(const Quote& quote, const Shop& shop, int quantity, int lots) {
  Price p;
  p.quantity = quantity;
  p.price_unit = price_unit_of(quote.route.job.part, shop.policy);
  const auto lines = model::lot_lines(lot_in(quote, quantity, lots));
  return price_of(sum_of(cost_lines(quote, lines)).amount(), p, quote.route.job.part, shop.policy);
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
  p.price_unit = price_unit_of(part, policy);
  p.releases = part.releases_at(quantity);
  p.made = nearest_whole(lines.made.si);
  p.machine = machine_time(lines);
  p.person = lines.person_setup + lines.person_run;
  p.lines = cost_lines(quote, lines);
  p.cost = sum_of(p.lines);
  p.each = p.likely_each = price_of(p.cost.amount(), p, part, policy);
  // The minimum holds for the order: what is charged once counts, and so do the other lines.
  if (part.selling.whole_order) p.minimum_order = policy.minimum_order;
  for (const OneOffLine& o : quote.one_offs) p.once = p.once + o.price;
  p.rebate_share = part.selling.rebate.value_or(policy.rebate);
  if (p.releases > 1) p.at_once_each = each_in_lots(quote, shop, quantity, 1);
  const Amount each = p.each.amount() / static_cast<double>(p.price_unit);
  width(p, band_rows(quote, shop, quantity, each), part, policy);
  p.worked_out = p.each;
  fix_by_hand(p, part);
  total_up(p);
  return p;
}

std::optional<std::size_t> next_alike(const std::vector<Price>& prices, std::size_t index) {
  for (std::size_t i = index + 1; i < prices.size(); ++i)
    if (prices[i].releases == prices[index].releases) return i;
  return std::nullopt;
}

void never_rising(std::vector<Price>& prices, const Part& part) {
  for (std::size_t i = prices.size(); i-- > 0;) {
    const auto next = next_alike(prices, i);
    if (!next) continue;
    Price& smaller = prices[i];
    const Price& larger = prices[*next];
    smaller.worked_out = std::max(smaller.worked_out, larger.worked_out);
    if (smaller.each >= larger.each) continue;
    smaller.each = larger.each;
    smaller.high_each = std::max(smaller.high_each, smaller.each);
  }
  for (Price& price : prices) total_up(price), fix_by_hand(price, part);
}

namespace {

// The first quantity at a price that pays more than another does, below an end; that end: none.
int first_that_pays_more(Price at, Money than, int end) {
  int from = at.quantity, to = end;
  while (from < to) {
    at.quantity = from + (to - from) / 2;
    total_up(at);
    if (at.income() > than)
      to = at.quantity;
    else
      from = at.quantity + 1;
  }
  return from;
}

}  // namespace

std::vector<LargerForLess> larger_for_less(const std::vector<Price>& prices) {
  std::vector<LargerForLess> found;
  for (std::size_t i = 0; i < prices.size(); ++i) {
    const auto alike = next_alike(prices, i);
    if (!alike) continue;
    const Price& next = prices[*alike];
    const int from = first_that_pays_more(prices[i], next.income(), next.quantity);
    if (from < next.quantity) found.push_back({from, next.quantity});
  }
  return found;
}

}  // namespace turnwright
