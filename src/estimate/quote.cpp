// SPDX-License-Identifier: MIT
#include "turnwright/estimate/quote.hpp"

#include <algorithm>
#include <cmath>

#include "turnwright/estimate/band.hpp"
#include "turnwright/figure/sure_quantity.hpp"

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
  if (shop.policy.whole_bars && stock.section.si > 0) {
    m.pieces_per_bar =
        std::max(static_cast<int>(((shop.bars.bar_length - shop.bars.bar_end) / length).si), 1);
    m.whole_bar = max(shop.bars.bar_length, length) * stock.section * job.material.density * price *
                  (1 + shop.policy.overhead_on_material);
  }
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

// Operations before the work that follows roughing: both ends are roughed, it goes out, both are
// finished.
std::size_t roughing_operations(const Route& route) {
  const auto& work = route.job.part.other_work;
  const bool between = std::any_of(work.begin(), work.end(),
                                   [](const OtherWork& w) { return w.after == "roughing"; });
  return between ? route.operations.size() / 2 : 0;
}

// How many of what it is charged by are in a piece.
double measure_of(const Route& route, const OtherWork& w) {
  const Job& job = route.job;
  const std::size_t rough = w.after == "roughing" ? roughing_operations(route) : 0;
  switch (w.per) {
    case ChargedBy::kg: {
      Volume volume = job.volume();
      if (rough > 0) {
        const Operation& last = route.operations[rough - 1];
        volume = body_volume(last.after, last.hollow_after);
      }
      return in(volume * job.material.density, unit::kg);
    }
    case ChargedBy::dm2:
      return in(body_surface(job.finished, job.hollow()), unit::mm2) / 1e4;
    case ChargedBy::minute:
      return in(w.time.value_or(Time(0.0)), unit::min);
    default:
      return 1;
  }
}

// Own time goes at the hour's rates, bought work with its overhead.
void other_work(const Quote& quote, const Shop& shop, model::LotInputs<double>& lot) {
  for (const OtherWork& w : quote.route.job.part.other_work) {
    lot.other_time_lot += w.setup;
    const bool by_lot = w.per == ChargedBy::lot;
    if (!w.price) {
      (by_lot ? lot.other_time_lot : lot.other_time_each) += *w.time;
      continue;
    }
    model::OutsideStage<double> stage;
    const Amount each = *w.price * measure_of(quote.route, w);
    (by_lot ? stage.fixed : stage.each) = each;
    stage.fixed += w.certificate + w.transport;
    stage.minimum = w.minimum;
    stage.scrap = w.scrap;
    stage.after_roughing = w.after == "roughing";
    lot.outside.push_back(stage);
  }
  lot.outside_overhead = shop.policy.overhead_on_outside;
  for (std::size_t i = 0; i < roughing_operations(quote.route); ++i) {
    lot.rough_machine += quote.times.operations[i].machine;
    lot.rough_person += quote.times.operations[i].person;
  }
}

// A repeat order pays none of them again.
void one_offs(Quote& quote, const Shop& shop, model::LotInputs<double>& lot) {
  const Policy& policy = shop.policy;
  if (quote.route.job.part.repeat) return;
  for (const OneOff& o : quote.route.job.part.one_offs) {
    const Amount bought = o.price.value_or(Amount(0.0)) * (1 + policy.overhead_on_outside);
    const Time own = o.time.value_or(Time(0.0));
    const Amount cost = bought + own * (lot.machine_rate + lot.person_rate) * (1 + lot.overhead.si);
    const auto pieces = static_cast<double>(o.pieces);
    if (o.paid == PaidBy::first_order)
      lot.one_off_lot += bought, lot.one_off_time_lot += own;
    else if (o.paid == PaidBy::pieces)
      lot.one_off_each += bought / pieces, lot.one_off_time_each += own / pieces;
    else {
      const Amount price = model::price_each<double>(rounded(cost).amount(), Number(1.0),
                                                     policy.margin, policy.markup);
      quote.one_offs.push_back(
          {o.what, rounded(cost), rounded_to_step(price, policy.step_of(price))});
    }
  }
}

// One-offs on a manual lathe: turned end for end instead of a second load and a second set-up.
void turn_round(const Quote& quote, const Shop& shop, model::LotInputs<double>& lot) {
  const Route& route = quote.route;
  if (!route.machine.manual() || route.operations.size() != 2 ||
      route.operations[1].jaws == Jaws::soft)
    return;
  const OperationTime& second = quote.times.operations[1];
  auto named = [](const std::vector<ElementTime>& list, std::string_view name) {
    for (const ElementTime& e : list)
      if (e.name == name) return e.machine;
    return Time(0.0);
  };
  lot.turned_round_up_to = static_cast<double>(shop.policy.turn_round_up_to);
  lot.round_each = (shop.element("turn round").manual - named(second.elements, "load and unload")) *
                   (1 + quote.times.allowance);
  lot.round_ready = named(second.setup_elements, "next operation");
}

model::LotInputs<double> lot_inputs(const Quote& quote, const Shop& shop) {
  const Route& route = quote.route;
  model::LotInputs<double> lot;
  lot.quantity = 1.0;
  lot.scrap_share = shop.policy.scrap_share;
  lot.scrap_from = static_cast<double>(shop.policy.scrap_from);
  // A manual lathe's first piece is a good one; a CNC spends a blank on each new operation.
  lot.setting_pieces = route.machine.manual() ? 0.0
                                              : static_cast<double>(shop.policy.setting_pieces) *
                                                    static_cast<double>(route.operations.size());
  lot.setup_machine = lot.setup_person = quote.times.setup;
  lot.machine_each = quote.times.machine_each;
  lot.person_each = quote.times.person_each;
  rates(route.machine, lot);
  for (const OperationTime& operation : quote.times.operations)
    for (const StepTime& step : operation.steps)
      if (step.edge_share > 0) lot.edges.push_back({step.edge_share, step.edge_price});
  lot.whole_edges_up_to = static_cast<double>(shop.policy.whole_edges_up_to);
  lot.material_each = quote.material.each;
  if (quote.material.pieces_per_bar > 0) {
    lot.material_each -= quote.material.bar * (1 + shop.policy.overhead_on_material);
    lot.pieces_per_bar = static_cast<double>(quote.material.pieces_per_bar);
    lot.bar_each = quote.material.whole_bar;
  }
  lot.releases = static_cast<double>(route.job.part.releases);
  other_work(quote, shop, lot);
  turn_round(quote, shop, lot);
  return lot;
}

void total_up(Price& p, const Policy& policy) {
  // ROUND(each x quantity / unit, 2): the customer's arithmetic.
  p.total = rounded(p.each.amount() * static_cast<double>(p.quantity) /
                    static_cast<double>(p.price_unit));
  p.minimum_surcharge = p.total < policy.minimum_order ? policy.minimum_order - p.total : Money();
  p.margin = p.total + p.minimum_surcharge - p.cost;
  const double sales = (p.total + p.minimum_surcharge).amount().si;
  p.margin_share = sales > 0 ? p.margin.amount().si / sales : 0;
}

}  // namespace

namespace {

model::LotInputs<double> lot_in(const Quote& quote, int quantity, int releases) {
  model::LotInputs<double> lot = quote.lot;
  lot.releases = static_cast<double>(releases);
  lot.quantity = static_cast<double>(quantity);
  if (quote.service_level > 0) {
    const Number good = lot.quantity / lot.releases;
    double yield = good < lot.scrap_from ? 1 : 1 - lot.scrap_share.si;
    for (const auto& stage : lot.outside) yield *= 1 - stage.scrap.si;
    lot.service_pieces = figure::SureQuantity::work_out<double>(
                             {good, Number(1 - yield), Number(quote.service_level)})
                             .start;
  }
  if (const auto& learning = quote.route.job.part.learning) {
    auto learned = [&](double unit) {
      return figure::LearningUnit::work_out<double>(
          {Time(1.0), Number(learning->rate), Number(unit)});
    };
    lot.learned = learned(quantity).total / lot.quantity / learned(learning->planned_at).time_unit;
  }
  return lot;
}

}  // namespace

model::LotInputs<double> lot_of(const Quote& quote, int quantity) {
  return lot_in(quote, quantity, quote.route.job.part.releases);
}

model::LotLines<double> lot_lines(const Quote& quote, int quantity) {
  return model::lot_lines(lot_of(quote, quantity));
}

Amount lot_cost(const Quote& quote, int quantity) {
  const auto l = lot_lines(quote, quantity);
  return l.setup + l.machine + l.labour + l.edges + l.material + l.other + l.outside + l.one_offs;
}

namespace {

std::vector<CostLine> cost_lines(const Quote& quote, const model::LotLines<double>& l) {
  std::vector<CostLine> lines;
  auto add = [&](const char* name, Amount amount, bool always = true) {
    if (always || amount.si > 0) lines.push_back({name, rounded(amount)});
  };
  add("setup", l.setup);
  add(quote.split_rate ? "machine" : "running", l.machine);
  add("labour", l.labour, quote.split_rate);
  add("edges", l.edges);
  add("material", l.material);
  add("other work", l.other);
  add("outside work", l.outside, false);
  add("one-offs", l.one_offs, false);
  return lines;
}
Money sum_of(const std::vector<CostLine>& lines) {
  Money sum;
  for (const CostLine& line : lines) sum = sum + line.amount;
  return sum;
}

Money price_of(Amount cost, int quantity, int price_unit, const Policy& policy) {
  const Amount each = model::price_each<double>(cost, Number(static_cast<double>(quantity)),
                                                policy.margin, policy.markup) *
                      static_cast<double>(price_unit);
  return rounded_to_step(each, policy.step_of(each));
}

}  // namespace

Price price_at(const Quote& quote, const Shop& shop, int quantity) {
  const model::LotInputs<double>& lot = quote.lot;
  const auto lines = lot_lines(quote, quantity);
  const Policy& policy = shop.policy;
  const Part& part = quote.route.job.part;
  Price p;
  p.quantity = quantity;
  p.price_unit = part.price_unit > 0 ? part.price_unit : policy.price_unit;
  p.made = static_cast<int>(std::lround(lines.made.si));
  p.machine = lot.releases * (lot.setup_machine - lines.setup_saved) + lines.machine_run;
  p.person = lot.releases * (lot.setup_person - lines.setup_saved) + lines.person_run;
  p.lines = cost_lines(quote, lines);
  p.cost = sum_of(p.lines);
  auto each = [&](Amount cost) { return price_of(cost, quantity, p.price_unit, policy); };
  p.each = p.likely_each = each(p.cost.amount());
  if (part.releases > 1) {
    const auto at_once = model::lot_lines(lot_in(quote, quantity, 1));
    p.at_once_each = each(sum_of(cost_lines(quote, at_once)).amount());
  }
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
    const auto from = (next.total + next.minimum_surcharge).hundredths() * now.price_unit /
                          now.each.hundredths() +
                      1;
    if (from < next.quantity)
      found.push_back({std::max(static_cast<int>(from), now.quantity), next.quantity});
  }
  return found;
}

void mark_old_price(Quote& quote, Date on, const Policy& policy) {
  const Material& material = quote.route.job.material;
  const auto date = read_date(material.price_date);
  if (!date || quote.route.job.part.stock.customers) return;
  const int age = days_between(*date, on);
  if (age > policy.price_age)
    quote.unconfirmed.push_back("the price of " + material.name + " is of " + material.price_date +
                                ", " + std::to_string(age) + " days before the request");
}

Quote make_quote(const Route& route, const Shop& shop) {
  Quote quote;
  quote.route = route;
  quote.times = times_of(route, shop);
  quote.material = material_cost(route, shop);
  quote.currency = shop.policy.currency;
  quote.rate_words = rate_in_words(route.machine, quote.currency);
  quote.split_rate = !route.machine.rate.all_in.has_value();
  quote.service_level = shop.policy.service_level;
  quote.lot = lot_inputs(quote, shop);
  one_offs(quote, shop, quote.lot);
  for (const int q : route.job.part.quantities) quote.prices.push_back(price_at(quote, shop, q));
  never_rising(quote.prices, shop.policy);
  quote.unconfirmed = route.job.unconfirmed;
  quote.cautions = route.cautions;
  if (!shop.own_machines)
    quote.unconfirmed.push_back("machines and rates are the shipped classes, not a shop's own");
  return quote;
}

}  // namespace turnwright
