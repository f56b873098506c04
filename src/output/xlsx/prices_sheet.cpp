// SPDX-License-Identifier: MIT
// Times of a piece, then a row of cost and price per quantity, then the bands.
#include <algorithm>
#include <array>

#include "turnwright/estimate/pricing.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

constexpr int label_column = 0, value_column = 1;

namespace at {
enum Column {
  quantity = price_column::quantity,
  pieces,
  make,
  setup = price_column::setup,
  machine,
  labour,
  inserts,
  material,
  other_work,
  outside_work,
  one_offs,
  cost,
  each_alone,
  each = price_column::each,
  total,
  surcharge,
  margin,
  margin_share
};
}  // namespace at

namespace band {
enum Column { quantity, low, high, p10, p50, p90, loss, learned };
}

const std::vector<double>& widths() {
  static const std::vector<double> all{47, 10, 10, 10, 10, 10, 10, 10, 10,
                                       10, 10, 10, 10, 10, 11, 11, 10, 9};
  return all;
}

// Where the rows of prices and bands begin.
struct Layout {
  int prices = 0, bands = 0;
};

Messages price_headings(const QuoteBook& of) {
  const Quote& q = of.quote;
  const std::vector<UsedMethod> used = used_in(of.part);
  const bool split = std::any_of(used.begin(), used.end(),
                                 [](const UsedMethod& u) { return u.quote->split_rate; });
  return {"text.qty",
          lot_of(q, 1).service_pieces.si > 0 ? "xlsx.pieces-run-fixed" : "xlsx.pieces-run",
          "text.make",
          of.money("cost.setup"),
          of.money(split ? "cost.machine" : "cost.running"),
          of.money("cost.labour"),
          of.money("cost.inserts"),
          of.money("cost.material"),
          of.money("cost.other-work"),
          of.money("cost.outside-work"),
          of.money("cost.one-offs"),
          of.money("text.cost"),
          of.money(for_unit("xlsx.each-alone", "xlsx.per-alone", q.prices.front().price_unit)),
          of.money(price_heading(q.prices.front())),
          of.money("text.total-price"),
          of.money("xlsx.surcharge"),
          of.money("text.margin"),
          "xlsx.margin-share"};
}

Messages band_headings(const QuoteBook& of) {
  return {"text.qty",
          of.money("text.price-low"),
          of.money("text.price-high"),
          of.money("xlsx.cost-p10"),
          of.money("xlsx.cost-p50"),
          of.money("xlsx.cost-p90"),
          "text.risk-of-loss",
          "xlsx.learned"};
}

const Quote& quote_of(const QuoteBook& of, const LiveCells& live) {
  return *of.methods.methods[live.index].quote;
}

struct TimeRows {
  const QuoteBook& of;
  int row;
  TimeOf<Expression> write(const Message& label, TimeOf<Expression> time, Look look) {
    of.book.text(prices_sheet, row, label_column, of.words(label), Look::label);
    return of.book.formula(prices_sheet, row++, value_column, time, unit::min, look);
  }
};

// What comes before the work that follows roughing.
void write_roughing(TimeRows& rows, LiveCells& live) {
  model::LotInputs<Expression>& lot = live.lot;
  for (std::size_t i = 0; i < roughing_operations(quote_of(rows.of, live).route); ++i) {
    const auto& [machine, person] = live.operations[i];
    lot.rough_machine = i == 0 ? machine : lot.rough_machine + machine;
    lot.rough_person = i == 0 ? person : lot.rough_person + person;
  }
  lot.rough_machine = rows.write("xlsx.rough-machine", lot.rough_machine, Look::number3);
  lot.rough_person = rows.write("xlsx.rough-person", lot.rough_person, Look::number3);
}

// In releases the program is written, and proved, once.
void write_first_time(TimeRows& rows, LiveCells& live) {
  const Quote& quote = quote_of(rows.of, live);
  live.lot.first_time = TimeOf<Expression>(Expression(0.0));
  if (quote.lot.releases.si <= 1 || quote.lot.first_time.si <= 0) return;
  Time fixed(0.0);
  for (const OperationTime& t : quote.times.operations) fixed += t.first_time_fixed;
  rows.of.book.text(prices_sheet, rows.row, label_column, rows.of.words("xlsx.first-time-fixed"),
                    Look::label);
  TimeOf<Expression> time =
      rows.of.book.input(prices_sheet, rows.row++, value_column, fixed, unit::min, Look::input);
  for (std::size_t i = 0; i < live.operations.size(); ++i)
    if (quote.times.operations[i].first_time_cycles > 0)
      time = time + quote.times.operations[i].first_time_cycles * live.operations[i].machine;
  live.lot.first_time = rows.write("xlsx.first-time", time, Look::number);
}

void write_times(const QuoteBook& of, LiveCells& live, ListCells& list) {
  const Quote& quote = quote_of(of, live);
  model::LotInputs<Expression>& lot = live.lot;
  TimeRows rows{of, list.end + 1};
  if (!live.name.empty())
    of.book.text(prices_sheet, rows.row++, label_column, of.words.name(live.name), Look::label);
  lot.machine_each = rows.write("text.cycle-min", live.machine_each, Look::number3);
  lot.person_each = rows.write("text.operator-min", live.person_each, Look::number3);
  lot.setup_machine = lot.setup_person = rows.write("text.setup-min", live.setup, Look::number);
  write_first_time(rows, live);
  if (quote.lot.rough_machine.si > 0) write_roughing(rows, live);
  for (const EdgeUse& use : edge_uses(quote.route, quote.times)) {
    Pure<Expression> share = live.steps[use.steps.front()].share;
    for (std::size_t k = 1; k < use.steps.size(); ++k)
      share = share + live.steps[use.steps[k]].share;
    lot.edges.push_back({share, live.steps[use.steps.front()].edge_price});
  }
  list.end = rows.row;
}

// A price of the list: its row, and its place in the list.
struct PriceRowPlace {
  const QuoteBook& of;
  const LiveCells& live;  // of its method
  std::size_t index;
  int row, band_row;

  AmountOf<Expression> money(int column, AmountOf<Expression> amount, Look look) const {
    return of.book.formula(prices_sheet, row, column, AmountOf<Expression>(money_of(amount.si)),
                           unit::money, look);
  }
};

model::LotLines<Expression> write_pieces(const PriceRowPlace& place,
                                         model::LotInputs<Expression> in, PriceCells& cells) {
  Spreadsheet& book = place.of.book;
  const int quantity = place.of.quote.prices[place.index].quantity;
  const model::LotInputs<double> lot = lot_of(quote_of(place.of, place.live), quantity);
  in.quantity = book.input(prices_sheet, place.row, at::quantity,
                           Number(static_cast<double>(quantity)), unit::ratio, Look::input);
  cells.quantity = in.quantity;
  if (lot.service_pieces.si > 0)
    in.service_pieces = book.input(prices_sheet, place.row, at::pieces, lot.service_pieces,
                                   unit::ratio, Look::input);
  if (lot.learned.si != 1)
    in.learned = book.input(prices_sheet, place.band_row, band::learned, lot.learned, unit::ratio,
                            Look::input);
  // Releases are those of one quantity: the others are made in one lot.
  if (place.of.quote.prices[place.index].releases == 1)
    in.releases = Pure<Expression>(Expression(1.0));
  auto lines = model::lot_lines(in);
  if (lot.service_pieces.si <= 0)
    book.formula(prices_sheet, place.row, at::pieces, lines.pieces, unit::ratio, Look::whole);
  book.formula(prices_sheet, place.row, at::make, lines.made, unit::ratio, Look::whole);
  return lines;
}

AmountOf<Expression> write_costs(const PriceRowPlace& place,
                                 const model::LotLines<Expression>& lines, PriceCells& cells) {
  const std::array all{lines.setup,    lines.machine, lines.labour,  lines.inserts,
                       lines.material, lines.other,   lines.outside, lines.one_offs};
  for (std::size_t i = 0; i < all.size(); ++i)
    cells.lines.push_back(place.money(at::setup + static_cast<int>(i), all[i], Look::money));
  AmountOf<Expression> cost = cells.lines.front();
  for (std::size_t i = 1; i < all.size(); ++i) cost = cost + cells.lines[i];
  return place.money(at::cost, cost, Look::bold_money);
}

// Each alone, then as listed: no more than at a smaller quantity.
AmountOf<Expression> write_each(const PriceRowPlace& place, const ListCells& list,
                                const PriceCells& cells) {
  Spreadsheet& book = place.of.book;
  const Price& price = place.of.quote.prices[place.index];
  if (price_by_hand(place.of.quote.route.job.part, price.quantity))
    return book.input(prices_sheet, place.row, at::each, price.each.amount(), unit::money,
                      Look::input_money);
  const auto raw = live_price(place.of, list, cells.cost, cells.quantity) * list.price_unit;
  const auto own =
      book.formula(prices_sheet, place.row, at::each_alone,
                   AmountOf<Expression>(money_to_step(raw.si, step_of(list.price_steps, raw).si)),
                   unit::money, Look::money);
  const auto next = next_alike(place.of.quote.prices, place.index);
  const auto listed =
      next ? AmountOf<Expression>(max_of(own.si, list.prices[*next].each.si)) : own * 1.0;
  return book.formula(prices_sheet, place.row, at::each, listed, unit::money, Look::bold_money);
}

void write_totals(const PriceRowPlace& place, const ListCells& list, PriceCells& cells) {
  cells.total =
      place.money(at::total, cells.each * cells.quantity / list.price_unit, Look::bold_money);
  AmountOf<Expression> income = cells.total * 1.0, goods = income;
  if (!place.of.quote.one_offs.empty()) goods = cells.total + list.one_off_prices;
  if (place.of.quote.prices[place.index].rebate_share > 0) {
    const auto off = [&](const AmountOf<Expression>& sum) {
      return AmountOf<Expression>(money_of((sum * list.rebate).si));
    };
    cells.rebate = off(cells.total);
    income = income - cells.rebate;
    goods = goods - off(goods);
  }
  const AmountOf<Expression> missing = list.minimum_order - goods;
  cells.surcharge =
      place.money(at::surcharge, max(AmountOf<Expression>(Expression(0.0)), missing), Look::money);
  income = income + cells.surcharge;
  cells.gain = place.money(at::margin, income - cells.cost, Look::money);
  cells.margin = place.of.book.formula(prices_sheet, place.row, at::margin_share,
                                       cells.gain / income, unit::ratio, Look::percent);
}

void write_band(const PriceRowPlace& place, const PriceCells& cells) {
  const Price& p = place.of.quote.prices[place.index];
  Spreadsheet& book = place.of.book;
  book.formula(prices_sheet, place.band_row, band::quantity, cells.quantity * 1.0, unit::ratio,
               Look::whole);
  auto value = [&](int column, double number, Look look) {
    book.value(prices_sheet, place.band_row, column, number, look);
  };
  value(band::low, p.low_each.amount().si, Look::money);
  value(band::high, p.high_each.amount().si, Look::money);
  if (p.causes.empty()) return;
  value(band::p10, p.p10_each.amount().si, Look::money);
  value(band::p50, p.p50_each.amount().si, Look::money);
  value(band::p90, p.p90_each.amount().si, Look::money);
  value(band::loss, p.loss_chance, Look::percent);
}

void write_price(const PriceRowPlace& place, ListCells& list) {
  PriceCells& cells = list.prices[place.index];
  cells.cost = write_costs(place, write_pieces(place, place.live.lot, cells), cells);
  cells.each = write_each(place, list, cells);
  write_totals(place, list, cells);
  write_band(place, cells);
}

const LiveCells& method_of(const std::vector<LiveCells>& methods, const Price& price) {
  return *std::find_if(methods.begin(), methods.end(),
                       [&](const LiveCells& live) { return live.index == price.method_index; });
}

Layout lay_out(const QuoteBook& of, const ListCells& list) {
  const int prices = static_cast<int>(of.quote.prices.size());
  Layout layout;
  layout.prices = list.end + 2;
  layout.bands = layout.prices + prices + 3;
  return layout;
}

}  // namespace

AmountOf<Expression> step_of(const std::vector<PriceStepCells>& steps, AmountOf<Expression> price) {
  AmountOf<Expression> step = steps.back().step;
  for (std::size_t i = steps.size() - 1; i-- > 0;)
    step = select(price < steps[i].below, steps[i].step, step);
  return step;
}

void write_prices(const QuoteBook& of, std::vector<LiveCells>& methods, ListCells& list) {
  for (LiveCells& live : methods) write_times(of, live, list);
  of.book.widths(prices_sheet, widths());
  const Layout layout = lay_out(of, list);
  write_headings(of.book, of.words, prices_sheet, layout.prices - 1, price_headings(of), widths(),
                 0);
  of.book.text(prices_sheet, layout.bands - 2, 0, of.words("xlsx.bands"), Look::label);
  write_headings(of.book, of.words, prices_sheet, layout.bands - 1, band_headings(of), widths(), 0);
  list.prices.resize(of.quote.prices.size());
  list.first_row = layout.prices;
  // From the largest quantity up the list: a price list never rises.
  for (std::size_t i = list.prices.size(); i-- > 0;)
    write_price({of, method_of(methods, of.quote.prices[i]), i, layout.prices + static_cast<int>(i),
                 layout.bands + static_cast<int>(i)},
                list);
}

}  // namespace turnwright
