// SPDX-License-Identifier: MIT
#include "turnwright/output/workbook.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

constexpr int head_row = 3;  // of steps and passes

std::vector<std::string> names_of_sheets(const Words& words) {
  std::vector<std::string> names;
  for (const char* id : {"xlsx.sheet-quote", "xlsx.sheet-steps", "xlsx.sheet-passes",
                         "xlsx.sheet-methods", "xlsx.sheet-prices", "xlsx.sheet-working"})
    names.push_back(words(id));
  return names;
}

void set_pages(const QuoteBook& of) {
  for (int sheet = 0; sheet < quote_sheets; ++sheet) {
    PageSetup setup;
    setup.letter = of.words.inch();
    setup.one_page = sheet == quote_sheet;
    setup.landscape = sheet != quote_sheet;
    setup.freeze = sheet == steps_sheet || sheet == passes_sheet;
    if (setup.freeze) setup.repeated_row = head_row;
    setup.footer = "&A, " + page_footer(of.words);
    of.book.page(sheet, setup);
  }
  of.book.show(quote_sheet);
}

}  // namespace

std::vector<StepPlace> steps_of(const Quote& quote) {
  std::vector<StepPlace> list;
  for (std::size_t i = 0; i < quote.route.operations.size(); ++i) {
    const Operation& operation = quote.route.operations[i];
    for (std::size_t k = 0; k < operation.steps.size(); ++k)
      list.push_back({&operation, &operation.steps[k], &quote.times.operations[i].steps[k]});
  }
  return list;
}

void write_workbook(const Quote& quote, const Comparison& methods, const Shop& shop,
                    const std::vector<InputDigest>& inputs, const Words& words,
                    const std::string& path) {
  Spreadsheet book(path, names_of_sheets(words));
  const QuoteBook of{quote, methods, shop, inputs, words, book};
  LiveCells live;
  write_price_inputs(of, live);
  write_step_inputs(of, live);
  write_passes(of, live);
  write_step_times(of, live);
  write_prices(of, live);
  write_methods(of);
  write_working(of);
  write_quote(of, live);
  set_pages(of);
  book.close();
}

}  // namespace turnwright
