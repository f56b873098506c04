// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>

#include "turnwright/output/price_table.hpp"
#include "xlsx/sheet_headings.hpp"
#include "xlsx/spreadsheet.hpp"

namespace turnwright {
namespace {

constexpr int sheet = 0;
constexpr int columns_printed = 14;  // columns that are on paper
constexpr std::array looks{Look::whole, Look::number1, Look::money, Look::number3, Look::number4};

Look look_of(int places) {
  return looks[static_cast<std::size_t>(std::clamp<int>(places, 0, looks.size() - 1))];
}

std::vector<double> widths_of(const std::vector<PriceColumn>& columns) {
  std::vector<double> widths;
  for (const PriceColumn& column : columns) widths.push_back(column.width);
  return widths;
}

Messages headings_of(const std::vector<PriceColumn>& columns) {
  Messages headings;
  for (const PriceColumn& column : columns) headings.push_back(column.heading);
  return headings;
}

}  // namespace

class PriceBook::Sheet {
 public:
  Sheet(const std::string& path, const Words& words)
      : words_(words), book_(path, {words("xlsx.sheet-prices")}, Spreadsheet::Storage::streamed) {
    PageSetup setup;
    setup.letter = words.letter();
    setup.repeated_row = 0;
    setup.freeze = true;
    setup.frozen_columns = 1;
    setup.footer = page_footer(words);
    book_.page(sheet, setup);
    const std::vector<double> widths = widths_of(price_columns());
    book_.widths(sheet, widths);
    write_headings(book_, words, sheet, 0, headings_of(price_columns()), widths);
  }

  void add(const PriceRow& row) {
    ++row_;
    int column = 0;
    for (const PriceCell& cell : row) {
      if (cell.number)
        book_.value(sheet, row_, column, *cell.number, look_of(cell.places));
      else
        book_.text(sheet, row_, column, text_of(cell));
      ++column;
    }
  }
  void close() {
    const int last = static_cast<int>(price_columns().size()) - 1;
    print_first_columns();
    book_.filter({sheet, 0, 0, std::max(row_, 1), last});
    book_.close();
  }

 private:
  // From the number to what the row earns: more is not to be read on paper.
  void print_first_columns() {
    PageSetup setup;
    setup.letter = words_.letter();
    setup.printed_columns = columns_printed;
    setup.rows = row_;
    book_.page(sheet, setup);
  }
  std::string text_of(const PriceCell& cell) const {
    return cell.messages.empty() ? words_.name(cell.text)
                                 : words_.joined(cell.messages, between_messages);
  }

  Words words_;  // its own: the book outlives the call
  Spreadsheet book_;
  int row_ = 0;
};

PriceBook::PriceBook(const std::string& path, const Words& words)
    : sheet_(std::make_unique<Sheet>(path, words)) {}
PriceBook::~PriceBook() = default;
void PriceBook::add(const PriceRow& row) { sheet_->add(row); }
void PriceBook::close() { sheet_->close(); }

}  // namespace turnwright
