// SPDX-License-Identifier: MIT
// The first sheet: prices and times, live, and what to know of them.
#include <algorithm>
#include <array>

#include "formatting.hpp"
#include "turnwright/output/part_drawing.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "view/quote_view.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

const std::vector<double>& widths() {
  static const std::vector<double> all{36, 11, 14, 14, 13, 13, 12, 12};
  return all;
}
constexpr double line_height = 13;
// Of the drawing, in units and pixels of the columns that it lies over; of the chart beside it.
constexpr double drawing_units = 620, drawing_scale = 535 / drawing_units, chart_height = 210;

struct Rows {
  const QuoteBook& of;
  int row = 0;

  void line(const Message& message, Look look = Look::text) {
    of.book.text(quote_sheet, row++, 0, of.words.heading(message), look);
  }
  void written(const std::string& text, Look look = Look::text) {
    of.book.text(quote_sheet, row++, 0, text, look);
  }
  void paragraph(const Message& message) {
    write_paragraph(of.book, quote_sheet, row++, of.words.heading(message), widths());
  }
  void headings(const Messages& list, int numbers_from = 1) {
    write_headings(of.book, of.words, quote_sheet, row++, list, widths(), numbers_from);
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
  for (const UsedMethod& used : used_in(of.part))
    rows.paragraph({"page.about",
                    {{"material", of.quote.route.job.material.name},
                     {"stock", stock_label(used.quote->route.job)},
                     {"machine", used.quote->route.machine.name},
                     {"rate", used.quote->rate}}});
  for (const Message& what : of.quote.unconfirmed)
    rows.line({"page.not-confirmed", {{"what", what}}}, Look::warning);
  rows.gap();
}

void write_prices(Rows& rows, const ListCells& list) {
  const QuoteBook& of = rows.of;
  rows.headings({"xlsx.made-by", "text.qty", of.money(price_heading(of.quote.prices.front())),
                 of.money("text.total-price"), of.money("text.cost"), of.money("text.margin"),
                 "xlsx.margin-share", "text.risk-of-loss"});
  for (std::size_t i = 0; i < of.quote.prices.size(); ++i, rows.gap()) {
    const Price& price = of.quote.prices[i];
    const PriceCells& cells = list.prices[i];
    of.book.height(quote_sheet, rows.row, 2 * line_height);
    of.book.text(quote_sheet, rows.row, 0, name_and_machine(price.method, price.made_on, of.words),
                 Look::wrap);
    rows.formula(1, cells.quantity * 1.0, unit::ratio, Look::big_whole);
    rows.formula(2, cells.each * 1.0, unit::money, Look::big);
    rows.formula(3, cells.total * 1.0, unit::money, Look::big);
    rows.formula(4, cells.cost * 1.0, unit::money, Look::money);
    rows.formula(5, cells.gain * 1.0, unit::money, Look::money);
    rows.formula(6, cells.margin * 1.0, unit::ratio, Look::percent);
    if (!price.causes.empty())
      of.book.value(quote_sheet, rows.row, 7, price.loss_chance, Look::percent);
  }
  for (const Message& line : next_best_lines(of.part)) rows.paragraph(line);
  if (!of.quote.delivery.empty()) rows.line({"text.delivery", {{"delivery", of.quote.delivery}}});
  rows.line("xlsx.quote-note", Look::note);
  rows.gap();
}

void write_chart(const Rows& rows, const ListCells& list, int row, int column) {
  const QuoteBook& of = rows.of;
  const int last = list.first_row + static_cast<int>(of.quote.prices.size()) - 1;
  ColumnChart chart;
  chart.title = of.words(for_unit("chart.price-by-quantity", "chart.price-per-by-quantity",
                                  of.quote.prices.front().price_unit));
  chart.x_axis = of.words("text.qty");
  chart.y_axis = of.quote.currency;
  chart.legend = false;
  chart.width = 330;
  chart.height = chart_height;
  chart.series.push_back(
      {of.words(price_heading(of.quote.prices.front())),
       {},
       {prices_sheet, list.first_row, price_column::quantity, last, price_column::quantity},
       {prices_sheet, list.first_row, price_column::each, last, price_column::each}});
  of.book.chart(quote_sheet, row, column, chart);
}

// The part drawn, the prices as columns beside it.
void write_pictures(Rows& rows, const ListCells& list) {
  constexpr int beside = 4;
  constexpr double row_pixels = 20, row_points = 15;
  const QuoteBook& of = rows.of;
  double high = chart_height;
  if (!of.drawing.empty()) {
    const paper::Drawing drawing = sheet_drawing(of.part, of.words);
    of.book.picture(quote_sheet, rows.row, 0, of.drawing, drawing_scale / sheet_drawing_pixels,
                    drawing.label);
    high = std::max(high, drawing.height * drawing_scale);
  }
  write_chart(rows, list, rows.row, of.drawing.empty() ? 0 : beside);
  // As high everywhere: programs stretch a picture with the rows that it lies over.
  const int last = rows.row + static_cast<int>(high / row_pixels) + 1;
  for (; rows.row <= last; ++rows.row) of.book.height(quote_sheet, rows.row, row_points);
}

// What a lot costs by what it is for, a column a quantity.
void write_costs(Rows& rows, const ListCells& list) {
  const QuoteBook& of = rows.of;
  const int columns = static_cast<int>(list.prices.size());
  of.book.text(quote_sheet, rows.row, 0, of.words.heading(of.money("xlsx.lot-costs")), Look::head);
  for (int i = 0; i < columns; ++i)
    rows.formula(1 + i, list.prices[static_cast<std::size_t>(i)].quantity * 1.0, unit::ratio,
                 Look::big_whole);
  rows.gap();
  const std::array kinds{"cost.setup",        of.quote.split_rate ? "cost.machine" : "cost.running",
                         "cost.labour",       "cost.inserts",
                         "cost.material",     "cost.other-work",
                         "cost.outside-work", "cost.one-offs"};
  auto write = [&](const char* heading, auto of_price, Look look) {
    rows.text(0, of.words.heading(heading));
    for (int i = 0; i < columns; ++i)
      rows.formula(1 + i, of_price(list.prices[static_cast<std::size_t>(i)]) * 1.0, unit::money,
                   look);
    rows.gap();
  };
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    const bool any = std::any_of(list.prices.begin(), list.prices.end(),
                                 [&](const PriceCells& p) { return value_of(p.lines[k].si) != 0; });
    if (any)
      write(
          kinds[k], [&](const PriceCells& p) { return p.lines[k]; }, Look::money);
  }
  write(
      "text.cost", [](const PriceCells& p) { return p.cost; }, Look::bold_money);
  write(
      "text.margin", [](const PriceCells& p) { return p.gain; }, Look::money);
  write(
      "text.total-price", [](const PriceCells& p) { return p.total; }, Look::bold_money);
  if (of.quote.prices.front().rebate_share > 0)
    write(
        "xlsx.rebate-off",
        [](const PriceCells& p) { return AmountOf<Expression>(Expression(0.0)) - p.rebate; },
        Look::money);
  if (value_of(list.minimum_order.si) > 0)  // a changed quantity may fall below it
    write(
        "xlsx.surcharge", [](const PriceCells& p) { return p.surcharge; }, Look::money);
  rows.gap();
}

const Route& route_of(const QuoteBook& of, const LiveCells& live) {
  return of.methods.methods[live.index].quote->route;
}

void write_times(Rows& rows, const LiveCells& live) {
  // The clamping takes the columns before the times.
  enum At { text, cycle = 4, person, setup };
  const QuoteBook& of = rows.of;
  if (!live.name.empty()) rows.written(of.words.name(live.name), Look::label);
  rows.headings({"xlsx.times", {}, {}, {}, "text.cycle-min", "text.operator-min", "text.setup-min"},
                cycle);
  const std::vector<double> before(widths().begin(), widths().begin() + cycle);
  const std::vector<Operation>& operations = route_of(of, live).operations;
  for (std::size_t i = 0; i < operations.size(); ++i) {
    write_paragraph(of.book, quote_sheet, rows.row,
                    of.words({"page.operation",
                              {{"op", operation_label(operations[i])},
                               {"clamping", clamping_label(operations[i])}}}),
                    before);
    rows.formula(cycle, live.operations[i].machine * 1.0, unit::min, Look::number);
    rows.formula(person, live.operations[i].person * 1.0, unit::min, Look::number);
    rows.gap();
  }
  rows.text(text, of.words.heading("xlsx.each-and-setup"));
  rows.formula(cycle, live.machine_each, unit::min, Look::number);
  rows.formula(person, live.person_each, unit::min, Look::number);
  rows.formula(setup, live.setup, unit::min, Look::number);
  rows.gap();
  rows.gap();
}

void write_steps(Rows& rows, const LiveCells& live) {
  const QuoteBook& of = rows.of;
  rows.headings({"xlsx.step-and-tool", "xlsx.machine-min"});
  const std::vector<StepPlace> places = steps_of(*of.methods.methods[live.index].quote);
  for (std::size_t i = 0; i < places.size(); ++i, rows.gap()) {
    const Step& step = *places[i].step;
    rows.text(0, of.words({step.tool.empty() ? "xlsx.step" : "xlsx.step-with-tool",
                           {{"step", step_label(*places[i].operation, step)},
                            {"work", word_of(step.kind)},
                            {"tool", step.tool}}}));
    rows.formula(1, live.steps[i].machine * 1.0, unit::min, Look::number);
  }
  rows.gap();
}

void write_material(Rows& rows, const LiveCells& live) {
  const QuoteBook& of = rows.of;
  const Quote& q = *of.methods.methods[live.index].quote;
  rows.line(stock_line(q, of.words));
  rows.line({"xlsx.material-price", {{"price", price_of_material(q, of.words)}}});
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
  constexpr int answer = 3, price = 5;
  rows.gap();
  rows.headings(
      {"text.question", {}, {}, "text.otherwise", {}, of.money(question_price_heading(of.part))},
      price);
  for (const Question& question : questions) {
    of.book.text(quote_sheet, rows.row, 0, of.words(question.ask));
    of.book.text(quote_sheet, rows.row, answer, of.words(question.otherwise));
    of.book.value(quote_sheet, rows.row++, price, question.each.amount().si, Look::money);
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

paper::Drawing sheet_drawing(const PartQuote& part, const Words& words) {
  return part_drawing(part.quote.route.job, words, drawing_units);
}

void write_quote(const QuoteBook& of, const std::vector<LiveCells>& methods,
                 const ListCells& list) {
  of.book.widths(quote_sheet, widths());
  Rows rows{of};
  write_head(rows);
  write_prices(rows, list);
  write_pictures(rows, list);
  write_costs(rows, list);
  for (const LiveCells& live : methods) {
    write_times(rows, live);
    write_steps(rows, live);
    write_material(rows, live);
  }
  write_other_work(rows);
  write_methods_in_short(rows);
  write_questions(rows);
  write_cautions(rows);
}

}  // namespace turnwright
