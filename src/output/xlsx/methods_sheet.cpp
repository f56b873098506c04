// SPDX-License-Identifier: MIT
#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "xlsx/method_rows.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

constexpr int head_row = 3;

int write_leaders(const QuoteBook& of, int row) {
  of.book.text(methods_sheet, row++, 0, of.words("methods.who-leads"), Look::label);
  for (const LeadingRange& range : of.methods.lead)
    of.book.text(methods_sheet, row++, 0, of.words(leading(of.methods, range)));
  return row;
}

// The second method less the first, at each quantity.
int write_differences(const QuoteBook& of, int row) {
  if (of.methods.differences.empty()) return row;
  const std::vector<MethodResult>& methods = of.methods.methods;
  const std::size_t second = of.methods.differences.front().method;
  of.book.text(methods_sheet, ++row, 0,
               of.words({"xlsx.differences",
                         {{"method", methods[second].name},
                          {"other", of.methods.quoted().name},
                          {"currency", of.quote.currency}}}),
               Look::label);
  write_headings(of.book, of.words, methods_sheet, ++row, difference_headings("text.qty"),
                 method_widths(of.quote.prices.size()));
  for (const Difference& d : of.methods.differences) {
    of.book.value(methods_sheet, ++row, 0, d.quantity, Look::whole);
    write_difference(of.book, methods_sheet, row, d);
  }
  return row + 1;
}

void write_chart(const QuoteBook& of, const std::vector<int>& rows, int row) {
  if (rows.empty()) return;
  const int first = first_price_column;
  const int last = first + static_cast<int>(of.quote.prices.size()) - 1;
  ColumnChart chart;
  chart.title = of.words(for_unit("chart.price-by-method", "chart.price-per-by-method",
                                  of.quote.prices.front().price_unit));
  chart.y_axis = of.quote.currency;
  for (const int of_method : rows)
    chart.series.push_back({"",
                            CellRange{methods_sheet, of_method, 0, of_method, 0},
                            {methods_sheet, head_row, first, head_row, last},
                            {methods_sheet, of_method, first, of_method, last}});
  of.book.chart(methods_sheet, row, 0, chart);
}

}  // namespace

void write_methods(const QuoteBook& of) {
  of.book.text(methods_sheet, 0, 0, of.words("xlsx.methods-title"), Look::title);
  of.book.text(methods_sheet, 1, 0, of.words("xlsx.methods-note"), Look::note);
  const std::vector<double> widths = method_widths(of.quote.prices.size());
  of.book.widths(methods_sheet, widths);
  write_headings(of.book, of.words, methods_sheet, head_row,
                 method_headings(of.quote.prices, of.quote.currency), widths);
  const MethodRows rows =
      write_method_rows(of.book, of.words, methods_sheet, head_row + 1, of.methods);
  int row = write_leaders(of, rows.end + 1);
  row = write_differences(of, row);
  write_chart(of, rows.feasible, row + 1);
}

}  // namespace turnwright
