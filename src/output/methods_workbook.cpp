// SPDX-License-Identifier: MIT
#include "sheet.hpp"
#include "turnwright/output/methods.hpp"
#include "turnwright/output/text.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright {

void write_methods_workbook(const MethodsReport& r, const std::string& path) {
  enum { methods, map, inputs };
  Spreadsheet book(path, {"Ways", "Map", "Inputs"});
  const Formats& f = book.formats();
  const Comparison& c = r.comparison;
  auto heads = [&](int sheet, int row, const std::vector<std::string>& names) {
    for (std::size_t i = 0; i < names.size(); ++i)
      book.text(sheet, row, static_cast<int>(i), names[i], f.head);
  };
  book.text(methods, 0, 0, r.title + ": ways of making it", f.title);
  std::vector<std::string> names{"method", "machine each, min", "operator each, min",
                                 "make-ready, min"};
  for (const MethodResult& w : c.methods)
    if (w.feasible()) {
      for (const Price& p : w.quote.prices)
        names.push_back("each at " + std::to_string(p.quantity) + ", " + r.currency);
      break;
    }
  heads(methods, 2, names);
  int row = 3;
  for (const MethodResult& w : c.methods) {
    book.text(methods, row, 0, w.name, f.label);
    if (w.feasible()) {
      book.value(methods, row, 1, in(w.quote.times.machine_each, unit::min), f.number);
      book.value(methods, row, 2, in(w.quote.times.person_each, unit::min), f.number);
      book.value(methods, row, 3, in(w.quote.times.setup, unit::min), f.number);
      for (std::size_t i = 0; i < w.quote.prices.size(); ++i)
        book.value(methods, row, 4 + static_cast<int>(i), w.quote.prices[i].each.amount().si,
                   f.money);
    } else {
      book.text(methods, row, 1, "not possible: " + w.route.why_not);
    }
    ++row;
  }
  for (const LeadingRange& l : c.lead) book.text(methods, ++row, 0, lead_text(c, l));
  row += 2;
  book.text(methods, row++, 0,
            "Cost of a lot of " + std::to_string(r.quantity) + " less " + c.methods.front().name +
                ", " + r.currency,
            f.label);
  heads(methods, row++,
        {"method", "total", "setup", "tool change", "cutting", "other time", "edges", "material"});
  for (const Difference& d : c.reasons) {
    book.text(methods, row, 0, c.methods[d.method].name);
    const Amount amounts[] = {d.total,      d.setup, d.tool_change, d.cutting,
                              d.other_time, d.edges, d.material};
    for (int i = 0; i < 7; ++i) book.value(methods, row, 1 + i, amounts[i].si, f.money);
    ++row;
  }
  book.widths(methods, {34, 13, 13, 13, 13, 13, 13, 13});
  if (r.map) {
    book.text(map, 0, 0, "Who leads: stock a side (mm) by quantity", f.title);
    book.text(map, 2, 0, "mm a side", f.head);
    for (std::size_t i = 0; i < r.map->quantities.size(); ++i)
      book.value(map, 2, 1 + static_cast<int>(i), r.map->quantities[i], f.whole);
    int at = 3;
    for (std::size_t k = r.map->stock.size(); k-- > 0; ++at) {
      book.value(map, at, 0, in(r.map->stock[k], unit::mm), f.number);
      for (std::size_t i = 0; i < r.map->quantities.size(); ++i)
        if (const int method = r.map->method[k][i]; method >= 0)
          book.text(map, at, 1 + static_cast<int>(i),
                    std::string(1, static_cast<char>('A' + method % 26)));
    }
    const auto last_row = static_cast<lxw_row_t>(at - 1);
    const auto last_column = static_cast<lxw_col_t>(r.map->quantities.size());
    const std::uint32_t colours[] = {0xBFD9EC, 0xF3CDBB, 0xCBE3C9, 0xDDCBEA,
                                     0xEADFB8, 0xBFE0E0, 0xEBC9DB, 0xD5DADF};
    ++at;
    for (std::size_t i = 0; i < r.map->names.size(); ++i) {
      std::string letter = "\"" + std::string(1, static_cast<char>('A' + i % 26)) + "\"";
      lxw_format* format = workbook_add_format(book.raw());
      format_set_bg_color(format, colours[i % 8]);
      lxw_conditional_format rule{};
      rule.type = LXW_CONDITIONAL_TYPE_CELL;
      rule.criteria = LXW_CONDITIONAL_CRITERIA_EQUAL_TO;
      rule.value_string = letter.data();
      rule.format = format;
      worksheet_conditional_format_range(book.sheet(map), 3, 1, last_row, last_column, &rule);
      book.text(map, at++, 0,
                std::string(1, static_cast<char>('A' + i % 26)) + ": " + r.map->names[i]);
    }
    worksheet_set_column(book.sheet(map), 1, last_column, 4.5, nullptr);
    worksheet_set_landscape(book.sheet(map));
    worksheet_fit_to_pages(book.sheet(map), 1, 0);
  }
  book.text(inputs, 0, 0, "What the inputs do at " + std::to_string(r.quantity) + " pieces",
            f.title);
  heads(inputs, 2, {"input", "price each, a tenth less", "price each, a tenth more"});
  row = 3;
  for (const Sensitivity& s : r.sensitivities) {
    book.text(inputs, row, 0, s.input);
    book.value(inputs, row, 1, s.lower.amount().si, f.money);
    book.value(inputs, row++, 2, s.higher.amount().si, f.money);
  }
  row += 2;
  heads(inputs, row++, {"flips the lead", "change", "then leads"});
  for (const WinnerChange& winner_change : r.winner_changes) {
    book.text(inputs, row, 0, winner_change.input);
    book.value(inputs, row, 1, winner_change.factor - 1, f.percent);
    book.text(inputs, row++, 2, winner_change.leader);
  }
  book.widths(inputs, {40, 22, 30});
  for (const int sheet : {methods, inputs}) {
    worksheet_set_paper(book.sheet(sheet), 9);
    worksheet_set_landscape(book.sheet(sheet));
    worksheet_fit_to_pages(book.sheet(sheet), 1, 0);
  }
  book.close();
}

}  // namespace turnwright
