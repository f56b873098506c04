// SPDX-License-Identifier: MIT
#include "turnwright/estimate/quote.hpp"

#include "turnwright/estimate/band.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

// Credit by what the material is: the first word of its cutting group that a record names.
double credit_share(const Shop& shop, const Material& material) {
  for (const ChipCredit& credit : shop.chip_credits)
    if (material.group.find(credit.name) != std::string::npos) return credit.share;
  const bool copper = material.group == "bronze" || material.group == "copper";
  for (const ChipCredit& credit : shop.chip_credits)
    if (copper && credit.name == "brass") return credit.share;
  return 0;
}

MaterialCost material_cost(const Route& route, const Shop& shop) {
  MaterialCost m;
  const Job& job = route.job;
  const Stock& stock = job.stock;
  const bool from_bar = stock.from_bar;
  const Length length = stock.length + kerf_of(route, shop);
  // Bar weight is bought at the upper limit of the size; a casting by its own shape.
  m.blank =
      (stock.section.si > 0 ? stock.section * length : route.audit.stock) * job.material.density;
  m.finished = job.volume() * job.material.density;
  const bool priced = job.material.price.has_value() && !stock.customers;
  const UnitPrice price = priced ? *job.material.price * stock.price_factor : UnitPrice(0.0);
  m.bar = m.blank * price;
  const bool sawn = !from_bar && !stock.customers && stock.section.si > 0;
  m.cut_charge = sawn ? shop.bars.cut_charge : Amount(0.0);
  m.credit_share = credit_share(shop, job.material);
  m.credit = (m.blank - m.finished) * price * m.credit_share;
  m.overhead = (m.bar + m.cut_charge) * shop.policy.overhead_on_material;
  m.each = m.bar + m.cut_charge + m.overhead - m.credit;
  m.status = stock.customers                ? "supplied by the customer"
             : !priced                      ? "no price"
             : job.material.price_confirmed ? "confirmed"
                                            : "not confirmed";
  return m;
}

void rates(const Machine& machine, model::LotInputs<double>& lot) {
  if (machine.rate.all_in) {
    lot.machine_rate = *machine.rate.all_in;
    lot.person_rate = Rate(0.0);
    lot.overhead = 0.0;
  } else {
    lot.machine_rate = machine.rate.machine;
    lot.person_rate = machine.rate.person;
    lot.overhead = machine.rate.overhead;
  }
}

// Own time goes at the hour's rates, bought work with its overhead.
void other_work(const Job& job, const Shop& shop, model::LotInputs<double>& lot) {
  for (const OtherWork& w : job.part.other_work) {
    if (w.time)
      (w.per_lot ? lot.other_time_lot : lot.other_time_each) += *w.time;
    else
      (w.per_lot ? lot.other_lot : lot.other_each) +=
          *w.price * (1 + shop.policy.overhead_on_outside);
    lot.other_time_lot += w.make_ready;
  }
}

// One-offs on a manual lathe: turned end for end instead of a second load and a second set-up.
void turn_round(const Quote& quote, const Shop& shop, model::LotInputs<double>& lot) {
  const Route& route = quote.route;
  if (!route.machine.manual() || route.setups.size() != 2 || route.setups[1].jaws == Jaws::soft)
    return;
  const SetupTime& second = quote.times.setups[1];
  auto named = [](const std::vector<ElementTime>& list, std::string_view name) {
    for (const ElementTime& e : list)
      if (e.name == name) return e.machine;
    return Time(0.0);
  };
  lot.turned_round_up_to = static_cast<double>(shop.policy.turn_round_up_to);
  lot.round_each = (shop.element("turn round").manual - named(second.elements, "load and unload")) *
                   (1 + quote.times.allowance);
  lot.round_ready = named(second.make_ready_elements, "next holding");
}

model::LotInputs<double> lot_inputs(const Quote& quote, const Shop& shop) {
  const Route& route = quote.route;
  model::LotInputs<double> lot;
  lot.quantity = 1.0;
  lot.scrap_share = shop.policy.scrap_share;
  lot.scrap_from = static_cast<double>(shop.policy.scrap_from);
  // A manual lathe's first piece is a good one; a CNC spends a blank on each new holding.
  lot.setting_pieces = route.machine.manual() ? 0.0
                                              : static_cast<double>(shop.policy.setting_pieces) *
                                                    static_cast<double>(route.setups.size());
  lot.make_ready_machine = lot.make_ready_person = quote.times.make_ready;
  lot.machine_each = quote.times.machine_each;
  lot.person_each = quote.times.person_each;
  rates(route.machine, lot);
  for (const SetupTime& setup : quote.times.setups)
    for (const StepTime& step : setup.steps)
      if (step.edge_share > 0) lot.edges.push_back({step.edge_share, step.edge_price});
  lot.whole_edges_up_to = static_cast<double>(shop.policy.whole_edges_up_to);
  lot.material_each = quote.material.each;
  other_work(route.job, shop, lot);
  turn_round(quote, shop, lot);
  return lot;
}

void total_up(Price& p, const Policy& policy) {
  p.total = p.each * p.quantity;
  p.minimum_surcharge = p.total < policy.minimum_order ? policy.minimum_order - p.total : Money();
  p.margin = p.total + p.minimum_surcharge - p.cost;
  const double sales = (p.total + p.minimum_surcharge).amount().si;
  p.margin_share = sales > 0 ? p.margin.amount().si / sales : 0;
}

}  // namespace

model::LotLines<double> lot_lines(const Quote& quote, int quantity) {
  model::LotInputs<double> lot = quote.lot;
  lot.quantity = static_cast<double>(quantity);
  return model::lot_lines(lot);
}

Amount lot_cost(const Quote& quote, int quantity) {
  const auto l = lot_lines(quote, quantity);
  return l.make_ready + l.machine + l.labour + l.edges + l.material + l.other;
}

Price price_at(const Quote& quote, const Shop& shop, int quantity) {
  const model::LotInputs<double>& lot = quote.lot;
  const auto lines = lot_lines(quote, quantity);
  Price p;
  p.quantity = quantity;
  p.made = static_cast<int>(std::lround(lines.made.si));
  p.machine = lot.make_ready_machine - lines.make_ready_saved + lines.pieces * lines.machine_each;
  p.person = lot.make_ready_person - lines.make_ready_saved + lines.pieces * lines.person_each;
  auto line = [&](const char* name, Amount amount) {
    p.lines.push_back({name, rounded(amount)});
    p.cost = p.cost + p.lines.back().amount;
  };
  line("make-ready", lines.make_ready);
  line(quote.split_rate ? "machine" : "running", lines.machine);
  if (quote.split_rate) line("labour", lines.labour);
  line("edges", lines.edges);
  line("material", lines.material);
  line("other work", lines.other);
  const Policy& policy = shop.policy;
  const Number n(static_cast<double>(quantity));
  auto each = [&](Amount cost) {
    return rounded_to_step(model::price_each<double>(cost, n, policy.margin, policy.markup),
                           policy.price_step);
  };
  p.each = p.likely_each = each(p.cost.amount());
  // All rows low, all high.
  const std::vector<BandRow> rows = band_rows(quote, shop, quantity);
  Amount width(0.0);
  for (const BandRow& row : rows) width += row.amount * row.band;
  p.low_each = std::min(each(p.cost.amount() - width), p.each);
  p.high_each = std::max(each(p.cost.amount() + width), p.each);
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
    const auto from =
        (next.total + next.minimum_surcharge).hundredths() / now.each.hundredths() + 1;
    if (from < next.quantity)
      found.push_back({std::max(static_cast<int>(from), now.quantity), next.quantity});
  }
  return found;
}

Quote make_quote(const Route& route, const Shop& shop) {
  Quote quote;
  quote.route = route;
  quote.times = times_of(route, shop);
  quote.material = material_cost(route, shop);
  quote.currency = shop.policy.currency;
  quote.rate_words = rate_in_words(route.machine, quote.currency);
  quote.split_rate = !route.machine.rate.all_in.has_value();
  quote.lot = lot_inputs(quote, shop);
  for (const int q : route.job.part.quantities) quote.prices.push_back(price_at(quote, shop, q));
  never_rising(quote.prices, shop.policy);
  quote.unconfirmed = route.job.unconfirmed;
  quote.cautions = route.cautions;
  if (!shop.own_machines)
    quote.unconfirmed.push_back("machines and rates are the shipped classes, not a shop's own");
  return quote;
}

}  // namespace turnwright
