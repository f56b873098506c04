// SPDX-License-Identifier: MIT
#include "xlsx/method_rows.hpp"

#include "view/labels.hpp"
#include "view/methods_view.hpp"

namespace turnwright {
namespace {

enum Column { name, cycle, person, setup };

void write_feasible(Spreadsheet& book, int sheet, int row, const Quote& quote) {
  book.value(sheet, row, cycle, in(quote.times.machine_each, unit::min), Look::number);
  book.value(sheet, row, person, in(quote.times.person_each, unit::min), Look::number);
  book.value(sheet, row, setup, in(quote.times.setup, unit::min), Look::number);
  int column = first_price_column;
  for (const Price& price : quote.prices)
    book.value(sheet, row, column++, price.worked_out.amount().si, Look::money);
}

}  // namespace

std::vector<double> method_widths(std::size_t prices) {
  std::vector<double> widths{50, 12, 12, 12};
  widths.resize(first_price_column + std::max<std::size_t>(prices, difference_parts.size()), 12);
  return widths;
}

Messages method_headings(const std::vector<Price>& prices, const std::string& currency) {
  Messages headings{"text.method", "text.cycle-min", "text.operator-min", "text.setup-min"};
  for (const Price& price : prices)
    headings.push_back(in_currency(price_heading_at(price.quantity, price.price_unit), currency));
  return headings;
}

MethodRows write_method_rows(Spreadsheet& book, const Words& words, int sheet, int row,
                             const Comparison& comparison) {
  MethodRows rows;
  std::size_t left_out = 0;
  const MethodsView view = folded(view_of(comparison, comparison.quantity), left_out);
  for (const MethodView& one : view.feasible) {
    const MethodResult& method = *one.method;
    book.text(sheet, row, name, words.name(method.name), Look::label);
    if (!one.quoted_at.empty())
      book.text(sheet, row, first_price_column + static_cast<int>(method.quote->prices.size()),
                words({"xlsx.quoted-at", {{"at", quoted_at(one, words)}}}));
    write_feasible(book, sheet, row, *method.quote);
    rows.feasible.push_back(row++);
    for (const Message& note : method.route().two_cut_notes)
      book.text(sheet, row++, cycle, words(note), Look::note);
  }
  if (left_out > 0)
    book.text(sheet, row++, name, words({"methods.folded", {{"n", left_out}}}), Look::note);
  const std::vector<double> widths = method_widths(view.quantities.size());
  for (const MethodView& one : view.infeasible)
    write_paragraph(book, sheet, row++, words.heading(not_possible(*one.method)), widths);
  rows.end = row;
  return rows;
}

Messages difference_headings(Message first) {
  Messages headings{std::move(first)};
  for (const DifferencePart part : difference_parts)
    headings.push_back(std::string("methods.part-") + name_of(part));
  return headings;
}

void write_difference(Spreadsheet& book, int sheet, int row, const Difference& difference) {
  int column = 1;
  for (const DifferencePart part : difference_parts)
    book.value(sheet, row, column++, part_of(difference, part).si, Look::money);
}

}  // namespace turnwright
