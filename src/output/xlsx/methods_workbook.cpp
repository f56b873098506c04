// SPDX-License-Identifier: MIT
#include "turnwright/output/methods.hpp"

#include <array>

#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "xlsx/method_rows.hpp"
#include "xlsx/sheet_headings.hpp"
#include "xlsx/spreadsheet.hpp"

namespace turnwright {
namespace {

enum SheetIndex { methods_sheet, map_sheet, inputs_sheet };
constexpr int head_row = 2;
constexpr double field_width = 4.5;
constexpr double stock_width = 14;
constexpr std::array<unsigned, 8> colours{0xBFD9EC, 0xF3CDBB, 0xCBE3C9, 0xDDCBEA,
                                          0xEADFB8, 0xBFE0E0, 0xEBC9DB, 0xD5DADF};

struct MethodsBook {
  const MethodsReport& report;
  const Words& words;
  Spreadsheet& book;
};

const std::vector<Price>& prices_of(const Comparison& comparison) {
  static const std::vector<Price> none;
  for (const MethodResult& method : comparison.methods)
    if (method.feasible()) return method.quote->prices;
  return none;
}

int write_leaders(const MethodsBook& of, int row) {
  const MethodsView view = view_of(of.report.comparison, of.report.quantity);
  for (const Message& line : leader_lines(view, of.report.quantity, of.words))
    of.book.text(methods_sheet, row++, 0, of.words(line));
  of.book.text(methods_sheet, ++row, 0, of.words("methods.who-leads"), Look::label);
  ++row;
  for (const LeadingRange& range : of.report.comparison.lead)
    of.book.text(methods_sheet, row++, 0, of.words(leading(of.report.comparison, range)));
  return row;
}

void write_reasons(const MethodsBook& of, int row, const std::vector<double>& widths) {
  const Comparison& c = of.report.comparison;
  std::size_t left_out = 0;
  const MethodsView view = folded(view_of(c, of.report.quantity), left_out);
  of.book.text(methods_sheet, row++, 0,
               of.words({"methods.why",
                         {{"qty", of.report.quantity},
                          {"method", c.quoted().name},
                          {"currency", of.report.currency}}}),
               Look::label);
  write_headings(of.book, of.words, methods_sheet, row++, difference_headings("text.method"),
                 widths);
  for (const Difference& d : c.reasons) {
    if (!shows(view, c.methods[d.method])) continue;
    of.book.text(methods_sheet, row, 0, of.words.name(c.methods[d.method].name));
    write_difference(of.book, methods_sheet, row++, d);
  }
}

void write_methods_sheet(const MethodsBook& of) {
  const std::vector<Price>& prices = prices_of(of.report.comparison);
  const std::vector<double> widths = method_widths(prices.size());
  of.book.text(methods_sheet, 0, 0, of.words({"methods.title", {{"part", of.report.title}}}),
               Look::title);
  of.book.text(methods_sheet, 1, 0, of.words(verdict(of.report.comparison)), Look::label);
  of.book.widths(methods_sheet, widths);
  write_headings(of.book, of.words, methods_sheet, head_row,
                 method_headings(prices, of.report.currency), widths);
  const MethodRows rows =
      write_method_rows(of.book, of.words, methods_sheet, head_row + 1, of.report.comparison);
  write_reasons(of, write_leaders(of, rows.end + 1) + 1, widths);
}

// A row of the map: stock per side, then the letter of what leads at each quantity.
void write_map_row(const MethodsBook& of, const std::vector<MapKey>& keys, std::size_t k, int row) {
  const MethodMap& map = *of.report.map;
  const Unit mm = of.words.inch() ? counterpart(unit::mm) : Unit(unit::mm);
  of.book.value(map_sheet, row, 0, shown(map.stock[k].si, mm),
                of.words.inch() ? Look::number3 : Look::number);
  for (std::size_t i = 0; i < map.quantities.size(); ++i)
    if (const auto key = key_of(keys, map.method[k][i]))
      of.book.text(map_sheet, row, 1 + static_cast<int>(i), std::string(1, keys[*key].letter));
}

void write_keys(const MethodsBook& of, const std::vector<MapKey>& keys, const CellRange& fields) {
  int row = fields.last_row + 2;
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const std::string letter(1, keys[i].letter);
    of.book.colour_where(fields, letter, colours[i % colours.size()]);
    of.book.text(
        map_sheet, row++, 0,
        of.words({"methods.map-key",
                  {{"letter", letter},
                   {"method", of.report.map->names[static_cast<std::size_t>(keys[i].method)]}}}));
  }
}

void write_map(const MethodsBook& of) {
  const MethodMap& map = *of.report.map;
  const std::string unit = of.words.unit(unit::mm);
  of.book.text(map_sheet, 0, 0, of.words({"methods.map", {{"unit", unit}}}), Look::title);
  of.book.text(map_sheet, head_row, 0, of.words({"xlsx.per-side", {{"unit", unit}}}), Look::head);
  for (std::size_t i = 0; i < map.quantities.size(); ++i)
    of.book.value(map_sheet, head_row, 1 + static_cast<int>(i), map.quantities[i], Look::whole);
  const std::vector<MapKey> keys = keys_of(map);
  int row = head_row + 1;
  for (std::size_t k = map.stock.size(); k-- > 0;) write_map_row(of, keys, k, row++);
  const int last_column = static_cast<int>(map.quantities.size());
  write_keys(of, keys, {map_sheet, head_row + 1, 1, row - 1, last_column});
  of.book.width(map_sheet, 0, 0, stock_width);
  of.book.width(map_sheet, 1, last_column, field_width);
}

void write_inputs(const MethodsBook& of) {
  const std::vector<double> widths{40, 22, 30};
  const Message title = for_unit({"methods.a-tenth", {{"qty", of.report.quantity}}},
                                 "methods.a-tenth-per", price_unit_of(of.report.comparison));
  of.book.widths(inputs_sheet, widths);
  of.book.text(inputs_sheet, 0, 0, of.words.heading(title), Look::title);
  write_headings(of.book, of.words, inputs_sheet, head_row,
                 {"methods.input", "methods.tenth-less", "methods.tenth-more"}, widths);
  int row = head_row + 1;
  for (const Sensitivity& s : of.report.sensitivities) {
    of.book.text(inputs_sheet, row, 0, of.words(word_of(s.input)));
    of.book.value(inputs_sheet, row, 1, s.lower.amount().si, Look::money);
    of.book.value(inputs_sheet, row++, 2, s.higher.amount().si, Look::money);
  }
  ++row;
  of.book.text(inputs_sheet, row++, 0,
               of.words({"methods.winner-changes", {{"qty", of.report.quantity}}}), Look::label);
  write_headings(of.book, of.words, inputs_sheet, row++,
                 {"methods.input", "text.change", "methods.then-leads"}, widths);
  for (const WinnerChange& change : of.report.winner_changes) {
    of.book.text(inputs_sheet, row, 0, of.words(word_of(change.input)));
    of.book.value(inputs_sheet, row, 1, change.factor - 1, Look::percent);
    of.book.text(inputs_sheet, row++, 2, of.words.name(change.leader));
  }
}

}  // namespace

void write_methods_workbook(const MethodsReport& report, const Words& words,
                            const std::string& path) {
  Spreadsheet book(
      path, {words("xlsx.sheet-methods"), words("xlsx.sheet-map"), words("xlsx.sheet-inputs")});
  const MethodsBook of{report, words, book};
  write_methods_sheet(of);
  if (report.map) write_map(of);
  write_inputs(of);
  PageSetup setup;
  setup.letter = words.letter();
  setup.footer = "&A, " + page_footer(words);
  for (const int sheet : {methods_sheet, map_sheet, inputs_sheet}) {
    setup.one_page = sheet != map_sheet;
    book.page(sheet, setup);
  }
  book.close();
}

}  // namespace turnwright
