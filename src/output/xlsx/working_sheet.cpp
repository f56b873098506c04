// SPDX-License-Identifier: MIT
// What the quote rests on: formulas, rates, input files.
#include "view/labels.hpp"
#include "view/sources.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

const std::vector<double>& widths() {
  static const std::vector<double> all{26, 44, 30, 70};
  return all;
}

struct Rows {
  const QuoteBook& of;
  int row = 2;

  void headings(const Messages& list) {
    write_headings(of.book, of.words, working_sheet, row++, list, widths());
  }
  void write(const std::vector<std::string>& cells) {
    write_texts(of.book, working_sheet, row++, cells, widths());
  }
};

void write_figures(Rows& rows) {
  const Words& words = rows.of.words;
  rows.headings({"page.figure", "page.formula", "xlsx.where-used", "page.source"});
  const QuoteBook& of = rows.of;
  for (const FigureUse& use : figures_used(of.quote.route.job.part, of.shop.policy))
    rows.write(
        {words.name(use.name), words.name(use.formula), words(use.where), words.name(use.source)});
  ++rows.row;
}

void write_rates(Rows& rows) {
  const QuoteBook& of = rows.of;
  rows.headings({"page.rate", "page.value", "xlsx.basis", "page.source"});
  for (const RateUse& use : rates_used(of.part, of.shop, of.words))
    rows.write({use.name, use.value, of.words(word_of(use.source.basis)),
                of.words.name(of.shop.source_text(use.source))});
  ++rows.row;
}

void write_inputs(Rows& rows) {
  const Words& words = rows.of.words;
  rows.headings({"page.input", "page.digest"});
  for (const InputDigest& d : rows.of.inputs)
    rows.write({words.name(d.path), words.name(d.sha256)});
  rows.write({words("page.version"), words.name(version)});
}

}  // namespace

void write_working(const QuoteBook& of) {
  of.book.text(working_sheet, 0, 0, of.words("xlsx.working-title"), Look::title);
  of.book.widths(working_sheet, widths());
  Rows rows{of};
  write_figures(rows);
  write_rates(rows);
  write_inputs(rows);
}

}  // namespace turnwright
