// SPDX-License-Identifier: MIT
// What a lot costs by: rates, other work, one-offs, pieces turned round.
#include <algorithm>

#include "quote_parts.hpp"
#include "turnwright/estimate/pricing.hpp"

namespace turnwright {
namespace {

void set_rates(const Machine& machine, model::LotInputs<double>& lot) {
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

// Of the work as it goes out: roughed, or finished.
Volume volume_for(const Route& route, const OtherWork& w) {
  const std::size_t rough = w.after == WorkAfter::roughing ? roughing_operations(route) : 0;
  if (rough == 0) return route.job.volume();
  const Operation& last = route.operations[rough - 1];
  return body_volume(last.after, last.hollow_after);
}

// How many of what it is charged by are in a piece.
double measure_of(const Route& route, const OtherWork& w) {
  const Job& job = route.job;
  switch (w.per) {
    case ChargedBy::kg:
      return in(volume_for(route, w) * job.material.density, unit::kg);
    case ChargedBy::dm2:
      if (w.area) return in(*w.area, unit::mm2) / 1e4;
      return in(body_surface(job.finished, job.hollow()), unit::mm2) / 1e4;
    case ChargedBy::minute:
      return in(w.time.value_or(Time(0.0)), unit::min);
    default:
      return 1;
  }
}

model::OutsideStage<double> bought(const Route& route, const OtherWork& w) {
  model::OutsideStage<double> stage;
  const Amount each = *w.price * measure_of(route, w);
  // By the lot, the price and the minimum are for the same: the larger holds.
  if (w.per == ChargedBy::lot)
    stage.fixed = std::max(each, w.minimum);
  else
    stage.each = each, stage.minimum = w.minimum;
  stage.fixed += w.certificate + w.transport;
  stage.scrap = w.scrap;
  stage.after_roughing = w.after == WorkAfter::roughing;
  return stage;
}

// Own time goes at the hour's rates, bought work with its overhead.
void other_work(const Quote& quote, const Shop& shop, model::LotInputs<double>& lot) {
  for (const OtherWork& w : quote.route.job.part.other_work) {
    if (const OtherMachine* at = shop.other_machine(w.machine)) {
      const bool by_lot = w.per == ChargedBy::lot;
      lot.other_cost_lot +=
          model::time_cost<double>(by_lot ? w.setup + *w.time : w.setup, at->rate);
      if (!by_lot) lot.other_cost_each += model::time_cost<double>(*w.time, at->rate);
      continue;
    }
    lot.other_time_lot += w.setup;
    if (w.price)
      lot.outside.push_back(bought(quote.route, w));
    else
      (w.per == ChargedBy::lot ? lot.other_time_lot : lot.other_time_each) += *w.time;
  }
  lot.outside_overhead = shop.policy.overhead_on_outside;
  for (std::size_t i = 0; i < roughing_operations(quote.route); ++i) {
    lot.rough_machine += quote.times.operations[i].machine;
    lot.rough_person += quote.times.operations[i].person;
  }
}

Time machine_time_of(const std::vector<ElementTime>& list, ElementId id) {
  for (const ElementTime& e : list)
    if (e.id == id) return e.machine;
  return Time(0.0);
}

// Single pieces on a manual lathe: turned end for end instead of a second load and a second setup.
void turn_round(const Quote& quote, const Shop& shop, model::LotInputs<double>& lot) {
  const Route& route = quote.route;
  if (!route.machine.manual() || route.operations.size() != 2 ||
      route.operations[1].jaws == Jaws::soft)
    return;
  const OperationTime& second = quote.times.operations[1];
  lot.turned_round_up_to = static_cast<double>(shop.policy.turn_round_up_to);
  lot.round_each = (shop.element(HandlingId::turn_round).manual -
                    machine_time_of(second.elements, ElementId::load_and_unload)) *
                   (1 + quote.times.allowance);
  lot.round_ready = machine_time_of(second.setup_elements, ElementId::setup_next_operation);
}

void pieces_and_times(const Quote& quote, const Policy& policy, model::LotInputs<double>& lot) {
  const Route& route = quote.route;
  lot.quantity = 1.0;
  lot.scrap_share = policy.scrap_share;
  lot.scrap_from = static_cast<double>(policy.scrap_from);
  // The first piece is a good one on a manual lathe, and where it is dear; else a CNC spends a
  // blank on each new operation.
  const bool kept = route.machine.manual() ||
                    quote.times.machine_each > policy.setting_piece_up_to ||
                    quote.material.each > policy.setting_blank_up_to;
  lot.setting_pieces = kept ? 0.0
                            : static_cast<double>(policy.setting_pieces) *
                                  static_cast<double>(route.operations.size());
  lot.setup_machine = lot.setup_person = quote.times.setup;
  lot.first_time = quote.times.first_time;
  lot.machine_each = quote.times.machine_each;
  lot.person_each = quote.times.person_each;
  lot.releases = static_cast<double>(route.job.part.releases);
}

void inserts_and_material(const Quote& quote, const Policy& policy, model::LotInputs<double>& lot) {
  std::vector<const StepTime*> steps;
  for (const OperationTime& operation : quote.times.operations)
    for (const StepTime& step : operation.steps) steps.push_back(&step);
  for (const EdgeUse& use : edge_uses(quote.route, quote.times)) {
    double share = 0;
    for (const std::size_t i : use.steps) share += steps[i]->edge_share;
    lot.edges.push_back({share, steps[use.steps.front()]->edge_price});
  }
  lot.whole_edges_up_to = static_cast<double>(policy.whole_edges_up_to);
  lot.material_each = quote.material.each;
  if (quote.material.pieces_per_bar > 0) {
    lot.material_each -= quote.material.by_bar;
    lot.pieces_per_bar = static_cast<double>(quote.material.pieces_per_bar);
    lot.bar_each = quote.material.whole_bar;
  }
}

// A one-off that stands as a line of its own is sold like a piece.
OneOffLine own_line(const Quote& quote, OneOffLine line, const Policy& policy) {
  line.cost = rounded(model::one_off_cost<double>(quote.lot, line.bought, line.own));
  const Amount price =
      price_from_cost(line.cost.amount(), pricing_of(quote.route.job.part, policy));
  line.price = rounded_to_step(price, policy.step_of(price));
  return line;
}

}  // namespace

std::vector<EdgeUse> edge_uses(const Route& route, const RouteTimes& times) {
  std::vector<EdgeUse> uses;
  std::size_t number = 0;
  for (std::size_t i = 0; i < route.operations.size(); ++i)
    for (std::size_t k = 0; k < route.operations[i].steps.size(); ++k, ++number) {
      if (times.operations[i].steps[k].edge_share <= 0) continue;
      const std::string& tool = route.operations[i].steps[k].tool;
      const auto known = std::find_if(uses.begin(), uses.end(),
                                      [&](const EdgeUse& use) { return use.tool == tool; });
      if (known == uses.end())
        uses.push_back({tool, {number}});
      else
        known->steps.push_back(number);
    }
  return uses;
}

std::size_t roughing_operations(const Route& route) {
  const auto& work = route.job.part.other_work;
  const bool between = std::any_of(
      work.begin(), work.end(), [](const OtherWork& w) { return w.after == WorkAfter::roughing; });
  return between ? route.operations.size() / 2 : 0;
}

model::LotInputs<double> lot_inputs(const Quote& quote, const Shop& shop) {
  model::LotInputs<double> lot;
  pieces_and_times(quote, shop.policy, lot);
  set_rates(quote.route.machine, lot);
  inserts_and_material(quote, shop.policy, lot);
  other_work(quote, shop, lot);
  turn_round(quote, shop, lot);
  return lot;
}

void add_one_offs(Quote& quote, const Shop& shop) {
  model::LotInputs<double>& lot = quote.lot;
  if (quote.route.job.part.repeat) return;
  for (const OneOff& o : quote.route.job.part.one_offs) {
    const Amount bought = o.price.value_or(Amount(0.0));
    const Time own = o.time.value_or(Time(0.0));
    const auto pieces = static_cast<double>(o.pieces);
    if (o.paid == PaidBy::first_order)
      lot.one_off_lot += bought, lot.one_off_time_lot += own;
    else if (o.paid == PaidBy::pieces)
      lot.one_off_each += bought / pieces, lot.one_off_time_each += own / pieces;
    else
      quote.one_offs.push_back(own_line(quote, {o.what, bought, own, {}, {}}, shop.policy));
  }
}

}  // namespace turnwright
