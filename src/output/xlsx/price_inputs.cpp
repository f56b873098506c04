// SPDX-License-Identifier: MIT
// What a lot costs by: a row each of label, unit, name in formulas, and the place that the formulas
// take it from.
#include "turnwright/estimate/pricing.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

using EngineLot = model::LotInputs<double>;
using LiveLot = model::LotInputs<Expression>;

constexpr int first_row = 3, label_column = 0, value_column = 1;

struct InputRows {
  const QuoteBook& of;
  LiveLot& lot;
  bool named = true;  // the first method's
  int row = first_row;

  void group(const Message& text) {
    if (row > first_row) ++row;
    of.book.text(prices_sheet, row++, label_column, of.words.heading(text), Look::head);
  }
  void label(const Message& text) {
    of.book.text(prices_sheet, row, label_column, of.words(text), Look::label);
  }
  template <Dim D>
  Quantity<D, Expression> input(const Message& text, const char* name, const Unit& unit, Look look,
                                Quantity<D> value) {
    label(text);
    return of.book.input(prices_sheet, row++, value_column, value, unit, look, named ? name : "");
  }
  /// A member of the lot's inputs, from the engine's into the live ones.
  template <Dim D>
  void lot_input(const Message& text, const char* name, const Unit& unit, Look look,
                 Quantity<D> EngineLot::*from, Quantity<D, Expression> LiveLot::*to) {
    lot.*to = input(text, name, unit, look, of.quote.lot.*from);
  }
};

void write_rates(InputRows& rows, LiveCells& live) {
  const QuoteBook& of = rows.of;
  rows.lot_input(of.money(of.quote.split_rate ? "xlsx.machine-hour" : "xlsx.all-in-hour"),
                 "machine_rate", unit::money_per_h, Look::input_money, &EngineLot::machine_rate,
                 &LiveLot::machine_rate);
  rows.lot_input(of.money("xlsx.person-hour"), "person_rate", unit::money_per_h, Look::input_money,
                 &EngineLot::person_rate, &LiveLot::person_rate);
  live.operator_share = rows.input("xlsx.operator-share", "operator_share", unit::ratio,
                                   Look::input_percent, Number(of.quote.times.operator_share));
  live.allowance = rows.input("element.allowance", "allowance_share", unit::ratio,
                              Look::input_percent, Number(of.quote.times.allowance));
  rows.lot_input("xlsx.overhead", "overhead_share", unit::ratio, Look::input_percent,
                 &EngineLot::overhead, &LiveLot::overhead);
}

void write_releases(InputRows& rows) {
  if (rows.of.quote.lot.releases.si > 1)
    return rows.lot_input("xlsx.releases", "releases", unit::ratio, Look::input,
                          &EngineLot::releases, &LiveLot::releases);
  rows.lot.releases = rows.of.quote.lot.releases;
  rows.label("xlsx.releases");
  rows.of.book.value(prices_sheet, rows.row++, value_column, 1, Look::whole);
}

void write_pieces(InputRows& rows) {
  rows.lot_input("xlsx.scrap-share", "scrap_share", unit::ratio, Look::input_percent,
                 &EngineLot::scrap_share, &LiveLot::scrap_share);
  rows.lot_input("xlsx.scrap-from", "scrap_from", unit::ratio, Look::input, &EngineLot::scrap_from,
                 &LiveLot::scrap_from);
  rows.lot_input("xlsx.setting-pieces", "setting_pieces", unit::ratio, Look::input,
                 &EngineLot::setting_pieces, &LiveLot::setting_pieces);
  write_releases(rows);
  rows.lot_input("xlsx.whole-edges", "whole_edges", unit::ratio, Look::input,
                 &EngineLot::whole_edges_up_to, &LiveLot::whole_edges_up_to);
}

// A price of each size has its step; a single step is a cell like any other.
void write_price_steps(InputRows& rows, ListCells& list) {
  const QuoteBook& of = rows.of;
  const std::vector<PriceStep>& steps = of.shop.policy.price_steps;
  rows.label(of.money("xlsx.price-step"));
  int column = value_column;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    PriceStepCells cells;
    cells.step = of.book.input(prices_sheet, rows.row, column++, steps[i].step.amount(),
                               unit::money, Look::input_money, i == 0 ? "price_step" : "");
    if (i + 1 < steps.size())
      cells.below = of.book.input(prices_sheet, rows.row, column++, steps[i].below.amount(),
                                  unit::money, Look::input_money);
    list.price_steps.push_back(cells);
  }
  if (steps.size() > 1)
    of.book.text(prices_sheet, rows.row, column, of.words("xlsx.price-steps-note"), Look::note);
  ++rows.row;
}

void write_price_rules(InputRows& rows, ListCells& list) {
  const QuoteBook& of = rows.of;
  const Policy& policy = of.shop.policy;
  const Part& part = of.quote.route.job.part;
  const Money minimum = part.selling.whole_order ? policy.minimum_order : Money();
  const Pricing pricing = pricing_of(part, policy);
  list.margin = rows.input(pricing.markup ? "xlsx.markup" : "xlsx.margin", "margin_share",
                           unit::ratio, Look::input_percent, Number(pricing.share));
  if (pricing.discount > 0)
    list.kept = 1.0 - rows.input("xlsx.discount", "discount_share", unit::ratio,
                                 Look::input_percent, Number(pricing.discount));
  if (const double rebate = of.part.quote.prices.front().rebate_share; rebate > 0)
    list.rebate =
        rows.input("xlsx.rebate", "rebate_share", unit::ratio, Look::input_percent, Number(rebate));
  write_price_steps(rows, list);
  list.minimum_order = rows.input(of.money("xlsx.minimum-order"), "minimum_order", unit::money,
                                  Look::input_money, minimum.amount());
  list.price_unit = rows.input("xlsx.price-unit", "price_unit", unit::ratio, Look::input,
                               Number(of.part.quote.prices.front().price_unit));
}

void write_material(InputRows& rows) {
  const QuoteBook& of = rows.of;
  rows.lot_input(of.money("xlsx.material-each"), "material_each", unit::money, Look::input_money,
                 &EngineLot::material_each, &LiveLot::material_each);
  if (of.quote.lot.pieces_per_bar.si <= 0) return;
  rows.lot_input("xlsx.pieces-per-bar", "pieces_per_bar", unit::ratio, Look::input,
                 &EngineLot::pieces_per_bar, &LiveLot::pieces_per_bar);
  rows.lot_input(of.money("xlsx.whole-bar"), "bar_each", unit::money, Look::input_money,
                 &EngineLot::bar_each, &LiveLot::bar_each);
}

void write_other_work(InputRows& rows) {
  rows.lot_input("xlsx.other-time-each", "other_time_each", unit::min, Look::input,
                 &EngineLot::other_time_each, &LiveLot::other_time_each);
  rows.lot_input("xlsx.other-time-lot", "other_time_lot", unit::min, Look::input,
                 &EngineLot::other_time_lot, &LiveLot::other_time_lot);
  const QuoteBook& of = rows.of;
  if (of.quote.lot.other_cost_each.si > 0 || of.quote.lot.other_cost_lot.si > 0) {
    rows.lot_input(of.money("xlsx.other-cost-each"), "other_cost_each", unit::money,
                   Look::input_money, &EngineLot::other_cost_each, &LiveLot::other_cost_each);
    rows.lot_input(of.money("xlsx.other-cost-lot"), "other_cost_lot", unit::money,
                   Look::input_money, &EngineLot::other_cost_lot, &LiveLot::other_cost_lot);
  }
  rows.lot_input("xlsx.outside-overhead", "outside_overhead", unit::ratio, Look::input_percent,
                 &EngineLot::outside_overhead, &LiveLot::outside_overhead);
}

void write_one_offs(InputRows& rows) {
  const QuoteBook& of = rows.of;
  rows.lot_input(of.money("xlsx.one-offs-order"), "one_offs_order", unit::money, Look::input_money,
                 &EngineLot::one_off_lot, &LiveLot::one_off_lot);
  rows.lot_input(of.money("xlsx.one-offs-each"), "one_offs_piece", unit::money, Look::input_money,
                 &EngineLot::one_off_each, &LiveLot::one_off_each);
  rows.lot_input("xlsx.one-off-time-order", "one_off_time_order", unit::min, Look::input,
                 &EngineLot::one_off_time_lot, &LiveLot::one_off_time_lot);
  rows.lot_input("xlsx.one-off-time-each", "one_off_time_piece", unit::min, Look::input,
                 &EngineLot::one_off_time_each, &LiveLot::one_off_time_each);
}

void write_turning_round(InputRows& rows) {
  if (rows.of.quote.lot.turned_round_up_to.si <= 0) return;
  rows.lot_input("xlsx.turned-round", "turned_round", unit::ratio, Look::input,
                 &EngineLot::turned_round_up_to, &LiveLot::turned_round_up_to);
  rows.lot_input("xlsx.turned-round-each", "round_each", unit::min, Look::input,
                 &EngineLot::round_each, &LiveLot::round_each);
  rows.lot_input("xlsx.turned-round-setup", "round_setup", unit::min, Look::input,
                 &EngineLot::round_ready, &LiveLot::round_ready);
}

namespace at {
enum Column { what, each, minimum, by_lot, scrap };  // of outside work
}

namespace once {
enum Column { what, bought, own, cost, price };  // of what is charged once
}

std::vector<const OtherWork*> bought_work(const Part& part) {
  std::vector<const OtherWork*> bought;
  for (const OtherWork& work : part.other_work)
    if (work.price) bought.push_back(&work);
  return bought;
}

model::OutsideStage<Expression> write_stage(const QuoteBook& of,
                                            const model::OutsideStage<double>& stage, int row) {
  auto money = [&](int column, Amount amount) {
    return of.book.input(prices_sheet, row, column, amount, unit::money, Look::input_money);
  };
  model::OutsideStage<Expression> cells;
  cells.each = money(at::each, stage.each);
  cells.minimum = money(at::minimum, stage.minimum);
  cells.fixed = money(at::by_lot, stage.fixed);
  cells.scrap = of.book.input(prices_sheet, row, at::scrap, stage.scrap, unit::ratio, Look::input);
  cells.after_roughing = stage.after_roughing;
  return cells;
}

// Work done by other firms, a row each.
void write_outside_stages(InputRows& rows) {
  const QuoteBook& of = rows.of;
  const auto& stages = of.quote.lot.outside;
  if (stages.empty()) return;
  const std::vector<const OtherWork*> bought = bought_work(of.quote.route.job.part);
  ++rows.row;
  write_headings(of.book, of.words, prices_sheet, rows.row++,
                 {"cost.outside-work", of.money("text.per-piece"), of.money("xlsx.at-least"),
                  of.money("text.per-lot"), "xlsx.scrap"},
                 {});
  for (std::size_t i = 0; i < stages.size(); ++i, ++rows.row) {
    of.book.text(prices_sheet, rows.row, at::what, of.words.name(bought[i]->what));
    rows.lot.outside.push_back(write_stage(of, stages[i], rows.row));
  }
}

AmountOf<Expression> write_one_off_line(const InputRows& rows, const OneOffLine& line,
                                        const ListCells& list) {
  const QuoteBook& of = rows.of;
  const int row = rows.row;
  of.book.text(prices_sheet, row, once::what, of.words.name(line.what));
  const auto bought =
      of.book.input(prices_sheet, row, once::bought, line.bought, unit::money, Look::input_money);
  const auto own = of.book.input(prices_sheet, row, once::own, line.own, unit::min, Look::input);
  const auto cost = of.book.formula(
      prices_sheet, row, once::cost,
      AmountOf<Expression>(money_of(model::one_off_cost<Expression>(rows.lot, bought, own).si)),
      unit::money, Look::money);
  const auto raw = live_price(of, list, cost, Pure<Expression>(Expression(1.0)));
  return of.book.formula(
      prices_sheet, row, once::price,
      AmountOf<Expression>(money_to_step(raw.si, step_of(list.price_steps, raw).si)), unit::money,
      Look::bold_money);
}

// What is charged once, as lines beside the prices.
void write_one_off_lines(InputRows& rows, ListCells& list) {
  const QuoteBook& of = rows.of;
  const std::vector<OneOffLine>& lines = of.quote.one_offs;
  if (lines.empty()) return;
  ++rows.row;
  write_headings(of.book, of.words, prices_sheet, rows.row++,
                 {"cost.one-offs", of.money("xlsx.bought"), "xlsx.own-min", of.money("text.cost"),
                  of.money("text.total-price")},
                 {});
  for (std::size_t i = 0; i < lines.size(); ++i, ++rows.row) {
    const auto price = write_one_off_line(rows, lines[i], list);
    list.one_off_prices = i == 0 ? price : list.one_off_prices + price;
  }
}

}  // namespace

AmountOf<Expression> live_price(const QuoteBook& of, const ListCells& list,
                                AmountOf<Expression> cost, Pure<Expression> quantity) {
  const Pricing pricing = pricing_of(of.quote.route.job.part, of.shop.policy);
  const auto price = model::price_each<Expression>(cost, quantity, list.margin, pricing.markup);
  return pricing.discount > 0 ? price * list.kept : price;
}

void write_price_inputs(const QuoteBook& of, LiveCells& live, ListCells& list) {
  InputRows rows{of, live.lot, live.first};
  if (live.first) {
    of.book.text(prices_sheet, 0, 0, of.words("xlsx.prices-title"), Look::title);
    of.book.text(prices_sheet, 1, 0, of.words("xlsx.prices-note"), Look::note);
  } else {
    rows.row = list.end + 1;
  }
  if (!live.name.empty())
    of.book.text(prices_sheet, rows.row - 1, 0, of.words.name(live.name), Look::label);
  rows.group("xlsx.group-rates");
  write_rates(rows, live);
  rows.group("xlsx.group-policy");
  write_pieces(rows);
  if (live.first) write_price_rules(rows, list);
  rows.group("xlsx.group-part");
  write_material(rows);
  write_other_work(rows);
  write_one_offs(rows);
  write_turning_round(rows);
  write_outside_stages(rows);
  if (live.first) write_one_off_lines(rows, list);
  list.end = rows.row;
}

}  // namespace turnwright
