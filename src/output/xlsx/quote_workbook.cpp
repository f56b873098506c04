// SPDX-License-Identifier: MIT
#include "turnwright/output/workbook.hpp"
#include "view/quote_view.hpp"
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

void set_pages(const QuoteBook& of, int step_rows) {
  for (int sheet = 0; sheet < quote_sheets; ++sheet) {
    PageSetup setup;
    setup.letter = of.words.inch();
    setup.one_page = sheet == quote_sheet;
    setup.landscape = sheet != quote_sheet;
    setup.freeze = sheet == steps_sheet || sheet == passes_sheet;
    if (setup.freeze) setup.repeated_row = head_row;
    if (sheet == steps_sheet) {
      setup.printed_columns = steps_printed;
      setup.rows = step_rows;
    }
    setup.grid = sheet != quote_sheet;
    setup.footer = "&A, " + page_footer(of.words);
    of.book.page(sheet, setup);
  }
  of.book.show(quote_sheet);
}

constexpr int first_pass_row = 4;

// Inputs, steps and passes of every method that a price is by; rows of the steps sheet.
int write_by_method(const QuoteBook& of, std::vector<LiveCells>& methods, ListCells& list) {
  const std::vector<UsedMethod> used = used_in(of.part);
  methods.resize(used.size());
  write_passes_head(of);
  int steps_row = 0, pass_row = first_pass_row;
  for (std::size_t m = 0; m < used.size(); ++m) {
    const QuoteBook by{of.part, *used[m].quote, of.methods, of.shop, of.inputs, of.words, of.book};
    LiveCells& live = methods[m];
    live.index = used[m].index;
    live.first = m == 0;
    live.steps_row = steps_row;
    if (used.size() > 1) live.name = used[m].name;
    write_price_inputs(by, live, list);
    write_step_inputs(by, live);
    pass_row = write_passes(by, live, pass_row);
    write_step_times(by, live);
    steps_row = steps_end(by, live);
  }
  return steps_row;
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

void write_workbook(const PartQuote& part, const Shop& shop, const std::vector<InputDigest>& inputs,
                    const Words& words, const std::string& path, const std::string& drawing) {
  Spreadsheet book(path, names_of_sheets(words));
  const QuoteBook of{part, part.quote, part.methods, shop, inputs, words, book, drawing};
  std::vector<LiveCells> methods;
  ListCells list;
  const int step_rows = write_by_method(of, methods, list);
  write_prices(of, methods, list);
  write_methods(of);
  write_working(of);
  write_quote(of, methods, list);
  set_pages(of, step_rows);
  book.close();
}

}  // namespace turnwright
