// SPDX-License-Identifier: MIT
// The first sheet: prices and times, live, and what to know of them.
#include "formatting.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "view/quote_view.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

const std::vector<double>& widths() {
  static const std::vector<double> all{26, 13, 24, 13, 15, 15, 34, 22};
  return all;
}
constexpr int last_column = 5;
constexpr double line_height = 13;
constexpr std::size_t line_length = 90;  // of a line over all columns

struct Rows {
  const QuoteBook& of;
  int row = 0;

  void line(const Message& message, Look look = Look::text) {
    of.book.text(quote_sheet, row++, 0, of.words(message), look);
  }
  void written(const std::string& text, Look look = Look::text) {
    of.book.text(quote_sheet, row++, 0, text, look);
  }
  // Over all columns, as high as it needs.
  void paragraph(const Message& message) {
    const std::string text = of.words(message);
    const auto lines = static_cast<double>(1 + text.size() / line_length);
    of.book.height(quote_sheet, row, lines * line_height);
    of.book.wide_text(quote_sheet, row++, 0, last_column, text, Look::wrap);
  }
  void headings(const Messages& list) {
    write_headings(of.book, of.words, quote_sheet, row++, list, widths());
  }
  void text(int column, const std::string& text) { of.book.text(quote_sheet, row, column, text); }
  template <Dim D>
  void formula(int column, Quantity<D, Expression> q, const Unit& unit, Look look) {
    of.book.formula(quote_sheet, row, column, q, unit, look);
  }
  void gap() { ++row; }
};

void write_head(Rows& rows) {
  const QuoteBook& of = rows.of;
  rows.written(part_title(of.quote.route.job.part, of.words), Look::title);
  rows.line("page.internal", Look::warning);
  rows.line("xlsx.quote-note", Look::note);
  rows.gap();
  for (const Message& what : of.quote.unconfirmed)
    rows.line({"page.not-confirmed", {{"what", what}}}, Look::warning);
}

void write_prices(Rows& rows, const ListCells& list) {
  const QuoteBook& of = rows.of;
  rows.headings({"text.qty", of.money("text.price-each"), of.money("text.total-price"),
                 of.money("text.cost"), of.money("xlsx.low-again"), of.money("xlsx.high-again"),
                 "text.method", "methods.on-head"});
  for (std::size_t i = 0; i < of.quote.prices.size(); ++i, rows.gap()) {
    const Price& price = of.quote.prices[i];
    rows.formula(0, list.prices[i].quantity, unit::ratio, Look::whole);
    rows.formula(1, list.prices[i].each, unit::money, Look::bold_money);
    rows.formula(2, list.prices[i].total, unit::money, Look::money);
    rows.formula(3, list.prices[i].cost, unit::money, Look::money);
    of.book.value(quote_sheet, rows.row, 4, price.low_each.amount().si, Look::money);
    of.book.value(quote_sheet, rows.row, 5, price.high_each.amount().si, Look::money);
    rows.text(6, of.words.name(price.method));
    rows.text(7, of.words.name(price.made_on));
  }
  rows.line("text.low-and-high", Look::note);
  for (const Message& line : next_best_lines(of.methods)) rows.line(line, Look::note);
  for (const Message& hour : hours_of(of.part)) rows.line(hour, Look::note);
  if (!of.quote.delivery.empty()) rows.line({"text.delivery", {{"delivery", of.quote.delivery}}});
  rows.gap();
}

const Route& route_of(const QuoteBook& of, const LiveCells& live) {
  return of.methods.methods[live.index].quote->route;
}

void write_times(Rows& rows, const std::vector<LiveCells>& methods) {
  rows.headings({"xlsx.times", "text.cycle-min", "text.operator-min", "text.setup-min"});
  for (const LiveCells& live : methods) {
    rows.text(0, live.name.empty() ? rows.of.words("xlsx.each-and-setup")
                                   : rows.of.words.name(live.name));
    rows.formula(1, live.machine_each, unit::min, Look::number);
    rows.formula(2, live.person_each, unit::min, Look::number);
    rows.formula(3, live.setup, unit::min, Look::number);
    rows.gap();
    for (const Operation& operation : route_of(rows.of, live).operations)
      rows.line({"page.operation",
                 {{"op", operation_label(operation)}, {"clamping", clamping_label(operation)}}});
  }
  rows.gap();
}

void write_steps(Rows& rows, const LiveCells& live) {
  const QuoteBook& of = rows.of;
  if (!live.name.empty()) rows.written(of.words.name(live.name), Look::label);
  rows.headings({"text.step", "text.work", "text.tool", "xlsx.machine-min"});
  const std::vector<StepPlace> places = steps_of(*of.methods.methods[live.index].quote);
  for (std::size_t i = 0; i < places.size(); ++i, rows.gap()) {
    rows.text(0, step_label(*places[i].operation, *places[i].step));
    rows.text(1, of.words(word_of(places[i].step->kind)));
    rows.text(2, of.words.name(places[i].step->tool));
    rows.formula(3, live.steps[i].machine, unit::min, Look::number);
  }
  rows.gap();
}

void write_material(Rows& rows, const LiveCells& live) {
  const QuoteBook& of = rows.of;
  const Quote& q = *of.methods.methods[live.index].quote;
  rows.line({"text.stock-line",
             {{"material", q.route.job.material.name},
              {"stock", stock_label(q.route.job)},
              {"blank", blank_label(q.route.job.stock)},
              {"in", measure(q.material.blank, unit::kg, 3)},
              {"out", measure(q.material.finished, unit::kg, 3)},
              {"share", percent_text(material_share(q), of.words)}}});
  rows.line({"xlsx.material-price", {{"status", word_of(q.material.status)}}});
}

void write_other_work(Rows& rows) {
  const QuoteBook& of = rows.of;
  for (const OtherWork& work : of.quote.route.job.part.other_work)
    rows.written(of.words.joined(other_work_parts(work, of.quote.currency), ", "));
  for (const OneOffLine& o : of.quote.one_offs)
    rows.line({"text.once", {{"what", o.what}, {"price", o.price}, {"cost", o.cost}}});
}

void write_methods_in_short(Rows& rows) {
  const Comparison& methods = rows.of.methods;
  std::size_t left_out = 0;
  const MethodsView view = shortened(view_of(methods, methods.quantity), left_out);
  for (const MethodView& method : view.infeasible) rows.paragraph(not_possible(*method.method));
  if (methods.break_even > 0)
    rows.line({"text.lead-changes", {{"qty", methods.break_even}}});
  else if (!methods.lead.empty())
    rows.line(
        {"xlsx.best-method", {{"method", methods.methods[methods.lead.front().method].name}}});
}

void write_questions(Rows& rows) {
  const QuoteBook& of = rows.of;
  const std::vector<Question>& questions = of.methods.questions;
  if (questions.empty()) return;
  rows.gap();
  rows.headings({"text.question",
                 {},
                 "text.otherwise",
                 of.money({"xlsx.price-at-again", {{"qty", questions.front().quantity}}})});
  for (const Question& question : questions) {
    rows.text(0, of.words(question.ask));
    rows.text(2, of.words(question.otherwise));
    of.book.value(quote_sheet, rows.row++, 3, question.each.amount().si, Look::money);
  }
}

void write_cautions(Rows& rows) {
  const QuoteBook& of = rows.of;
  if (of.quote.cautions.empty()) return;
  rows.gap();
  rows.line("text.cautions", Look::label);
  for (const Message& caution : of.quote.cautions) rows.paragraph(caution);
}

}  // namespace

void write_quote(const QuoteBook& of, const std::vector<LiveCells>& methods,
                 const ListCells& list) {
  of.book.widths(quote_sheet, widths());
  Rows rows{of};
  write_head(rows);
  write_prices(rows, list);
  write_times(rows, methods);
  for (const LiveCells& live : methods) {
    write_steps(rows, live);
    write_material(rows, live);
  }
  write_other_work(rows);
  write_methods_in_short(rows);
  write_questions(rows);
  write_cautions(rows);
}

}  // namespace turnwright
