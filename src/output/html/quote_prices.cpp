// SPDX-License-Identifier: MIT
// What an owner looks at first: prices, where the money goes, methods.
#include "formatting.hpp"
#include "html/charts.hpp"
#include "html/quote_page.hpp"
#include "turnwright/estimate/band.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"

namespace turnwright {
namespace {

constexpr int cost_points = 60, method_points = 40;  // of a curve

Table price_table(const QuotePage& of, const Words& words) {
  const Price& first = of.quote.prices.front();
  Table table;
  table.columns = {number_column("text.qty"), number_column(price_heading(first)),
                   number_column("text.total-price"),
                   number_column(for_unit("page.planned", "page.planned-per", first.price_unit)),
                   number_column("text.margin")};
  if (of.view.drawn) table.columns.push_back(number_column("text.risk-of-loss"));
  for (const PriceView& v : of.view.prices) {
    const Price& p = *v.price;
    Cells cells{words.whole(p.quantity), words.money(p.each), words.money(p.total),
                words.money(v.cost_each), percent_text(p.margin_share, words)};
    if (of.view.drawn) cells.push_back(percent_text(p.loss_chance, words));
    table.add(std::move(cells));
  }
  return table;
}

// What an owner asks next: the lot, the spread, the hours.
Table lot_table(const QuotePage& of, const Words& words) {
  const int unit = of.quote.prices.front().price_unit;
  Table table;
  table.columns = {number_column("text.qty"), number_column("text.make"),
                   number_column("page.cost")};
  if (of.view.drawn)
    for (const Message& heading : {for_unit("page.p10", "page.p10-per", unit), Message("page.p50"),
                                   Message("page.p90"), Message("page.margin-at-p90")})
      table.columns.push_back(number_column(heading));
  table.columns.push_back(number_column("page.machine-hours"));
  table.columns.push_back(number_column("page.contribution"));
  for (const PriceView& v : of.view.prices) {
    const Price& p = *v.price;
    Cells cells{words.whole(p.quantity), words.whole(p.made), words.money(p.cost)};
    if (of.view.drawn)
      for (std::string cell :
           {words.money(p.p10_each), words.money(p.p50_each), words.money(p.p90_each),
            v.worst_margin ? percent_text(*v.worst_margin, words) : ""})
        cells.push_back(std::move(cell));
    cells.push_back(hours_text(p.machine, words));
    cells.push_back(p.machine.si > 0 ? words.fixed(in(v.contribution, unit::money_per_h), 2) : "");
    table.add(std::move(cells));
  }
  return table;
}

// "At 10, 50, 250: sawn blanks × rough then finish".
void made_by(PageWriter& page, const PartQuote& part) {
  const Words& words = page.words();
  for (const UsedMethod& used : used_in(part)) {
    Messages quantities;
    for (const int n : used.quantities) quantities.push_back(verbatim(words.whole(n)));
    page.paragraph(
        {"page.made-by", {{"qty", words.joined(quantities, ", ")}, {"method", used.name}}});
  }
}

// The answer that would turn the price into a loss, if there is one.
void loss(PageWriter& page, const QuotePage& of) {
  if (of.methods.questions.empty()) return;
  const int quantity = of.view.main_price().price->quantity;
  if (const Question* losing = losing_question(of.view, of.methods.questions))
    page.warning({"page.answer-loses",
                  {{"qty", quantity}, {"ask", losing->ask}, {"answer", losing->otherwise}}});
  else
    page.note({"page.no-answer-loses", {{"qty", quantity}}});
}

void price_curve(PageWriter& page, const PartQuote& part) {
  const Words& words = page.words();
  const Quote& q = part.quote;
  CostCurve found = cost_curve(part, cost_points);
  const Curve cost{words("page.cost-per-piece"), std::move(found.quantity), std::move(found.cost),
                   1, false};
  Curve listed{words("page.price-per-piece"), {}, {}, 0, true};
  for (const Price& p : q.prices) {
    listed.x.push_back(p.quantity);
    listed.y.push_back(p.each.amount().si / p.price_unit);
  }
  page.markup().open("figure");
  draw_curves(page, {cost, listed}, "page.price-curve", q.currency, beside_width);
  page.markup().open("figcaption");
  page.key(cost.colour, cost.name);
  page.key(listed.colour, listed.name);
  page.markup().close().close();
}

// Colours by what a coin is for, the same in every chart.
int colour_of(CostKind kind) {
  switch (kind) {
    case CostKind::setup:
      return 1;
    case CostKind::material:
      return 2;
    case CostKind::labour:
      return 3;
    case CostKind::inserts:
      return 4;
    case CostKind::other_work:
      return 5;
    case CostKind::outside_work:
      return 6;
    case CostKind::one_offs:
      return 7;
    default:
      return 0;
  }
}

void cost_bars(PageWriter& page, const Quote& q) {
  const Words& words = page.words();
  std::vector<Bar> bars;
  for (const Price& p : q.prices) {
    Bar bar{words({"page.n-pieces", {{"n", p.quantity}}}), {}};
    for (const CostLine& l : p.lines)
      bar.pieces.push_back(
          {l.amount.amount().si / p.quantity, colour_of(l.kind), words(word_of(l.kind)), false});
    bars.push_back(std::move(bar));
  }
  page.markup().open("figure");
  draw_bars(page, bars, "page.cost-bars", q.currency);
  page.markup().open("figcaption");
  for (const CostKind kind : cost_kinds(q)) page.key(colour_of(kind), words(word_of(kind)));
  page.markup().close().close();
}

void cost_lines(PageWriter& page, const Quote& q) {
  const Words& words = page.words();
  Table table;
  table.columns = {number_column("page.cost-of-lot")};
  const std::vector<CostKind> kinds = cost_kinds(q);
  for (const CostKind kind : kinds) table.columns.push_back(number_column(word_of(kind)));
  table.columns.push_back(number_column("page.cost"));
  for (const Price& p : q.prices) {
    Cells cells{words.whole(p.quantity)};
    for (const CostKind kind : kinds) cells.push_back(words.money(amount_of(p, kind)));
    cells.push_back(words.money(p.cost));
    table.add(std::move(cells));
  }
  page.table(table, "page.cost-of-lot");
}

void causes(PageWriter& page, const Price& main) {
  if (main.causes.empty()) return;
  const Words& words = page.words();
  const Message heading =
      for_unit({"text.causes", {{"qty", main.quantity}}}, "text.causes-per", main.price_unit);
  page.paragraph(heading);
  Table table;
  table.columns = {words_column("text.cause"), number_column("text.cause-low"),
                   number_column("text.cause-high"), words_column("text.rests-on")};
  for (const BandCause& c : main.causes)
    table.add({words(word_of(c.row)), signed_text(c.low_each, words),
               signed_text(c.high_each, words), words(word_of(c.basis))});
  page.table(table, heading);
}

void method_curves(PageWriter& page, const MethodsView& view, const std::string& currency) {
  std::vector<Curve> curves;
  for (const MethodView& m : view.feasible) {
    CostCurve found = cost_curve(*m.quote, method_points);
    curves.push_back({page.words().name(m.method->name), std::move(found.quantity),
                      std::move(found.cost), static_cast<int>(curves.size()) % 8, false});
  }
  if (curves.size() < 2) return;
  page.markup().open("figure");
  draw_curves(page, curves, "page.method-curves", currency);
  page.markup().open("figcaption");
  for (const Curve& c : curves) page.key(c.colour, c.name);
  page.markup().close().close();
}

Table method_table(const MethodsView& view, const Words& words) {
  Table table;
  table.columns = {words_column("text.method"), number_column("text.cycle-min"),
                   number_column("text.operator-min"), number_column("text.setup-min")};
  const int unit = price_unit_of(*view.comparison);
  for (const int q : view.quantities)
    table.columns.push_back(number_column(price_heading_at(q, unit)));
  table.columns.push_back(words_column("methods.quoted-at"));
  for (const MethodView& m : view.feasible) {
    const RouteTimes& times = m.quote->times;
    Cells cells{words.name(m.method->name), minutes_text(times.machine_each, words),
                minutes_text(times.person_each, words), minutes_text(times.setup, words)};
    for (const Price& p : m.quote->prices) cells.push_back(words.money(p.worked_out));
    cells.push_back(quoted_at(m, words));
    table.add(std::move(cells));
  }
  return table;
}

}  // namespace

void draw_prices(PageWriter& page, const QuotePage& of) {
  const Quote& q = of.quote;
  page.markup().open("div", {{"class", "beside"}});
  page.table(price_table(of, page.words()), "page.prices");
  price_curve(page, of.part);
  page.markup().close();
  made_by(page, of.part);
  for (const Message& line : next_best_lines(of.part)) page.note(line);
  for (const PriceView& v : of.view.prices)
    for (const Message& note : price_notes(v)) page.note(note);
  for (const LargerForLess& l : larger_for_less(q.prices)) page.note(larger_for_less_label(l));
  for (const OneOffLine& o : q.one_offs)
    page.note({"text.once", {{"what", o.what}, {"price", o.price}, {"cost", o.cost}}});
  page.begin_fold("page.of-the-lot");
  page.table(lot_table(of, page.words()), "page.of-the-lot");
  page.note({"page.prices-mean", {{"currency", q.currency}, {"trials", band_draws}}});
  page.end_fold();
}

void draw_risks(PageWriter& page, const QuotePage& of) {
  loss(page, of);
  causes(page, *of.view.main_price().price);
}

void draw_money(PageWriter& page, const QuotePage& of) {
  cost_bars(page, of.quote);
  cost_lines(page, of.quote);
}

void draw_methods(PageWriter& page, const QuotePage& of) {
  const Comparison& c = of.methods;
  std::size_t left_out = 0;
  const MethodsView view = shortened(view_of(c, c.quantity), left_out);
  page.paragraph(verdict(c));
  page.table(method_table(view, page.words()), "page.methods");
  if (left_out > 0) page.note({"text.methods-left-out", {{"n", left_out}}});
  for (const MethodView& m : view.infeasible) page.note(not_possible(*m.method));
  method_curves(page, view, of.quote.currency);
  Messages leads;
  for (const LeadingRange& range : c.lead) leads.push_back(leading(c, range));
  page.list(leads);
  if (c.break_even > 0) page.note({"text.lead-changes", {{"qty", c.break_even}}});
}

}  // namespace turnwright
