// SPDX-License-Identifier: MIT
#include "xlsx/sheet_headings.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace turnwright {
namespace {

constexpr double points_per_line = 12, margin = 2;
constexpr double standard_width = 8;  // in characters

double characters(const std::string& text) {
  return static_cast<double>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

// Words do not fill a line to its end, and headings are bold.
double lines_of(const std::string& text, double width) {
  return std::ceil(1.3 * characters(text) / width);
}

// Of running text: its letters are narrower than the digits that widths are counted in, and words
// do not fill a line to its end.
double height_of(const std::string& text, double width) {
  constexpr double narrower = 0.9;
  return margin + points_per_line * std::max(1.0, std::ceil(narrower * characters(text) / width));
}

}  // namespace

void write_headings(Spreadsheet& book, const Words& words, int sheet, int row,
                    const Messages& headings, const std::vector<double>& widths, int numbers_from,
                    int numbers_to) {
  // The library does not fit rows by itself.
  double lines = 1;
  for (std::size_t i = 0; i < headings.size(); ++i)
    if (!headings[i].empty())
      lines = std::max(
          lines, lines_of(words(headings[i]), i < widths.size() ? widths[i] : standard_width));
  book.height(sheet, row, margin + lines * points_per_line);
  for (int i = 0; i < static_cast<int>(headings.size()); ++i) {
    const Message& heading = headings[static_cast<std::size_t>(i)];
    if (heading.empty())
      book.blank(sheet, row, i, Look::head);
    else
      book.text(sheet, row, i, words.heading(heading),
                i < numbers_from || i >= numbers_to ? Look::head : Look::head_right);
  }
}

void write_texts(Spreadsheet& book, int sheet, int row, const std::vector<std::string>& cells,
                 const std::vector<double>& widths) {
  double height = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    book.text(sheet, row, static_cast<int>(i), cells[i], Look::wrap);
    height = std::max(height, height_of(cells[i], widths[i]));
  }
  book.height(sheet, row, height);
}

void write_paragraph(Spreadsheet& book, int sheet, int row, const std::string& text,
                     const std::vector<double>& widths) {
  book.height(sheet, row, height_of(text, std::accumulate(widths.begin(), widths.end(), 0.0)));
  book.wide_text(sheet, row, 0, static_cast<int>(widths.size()) - 1, text, Look::wrap);
}

Message in_currency(Message what, const std::string& currency) {
  return {"xlsx.in-currency", {{"what", std::move(what)}, {"currency", currency}}};
}

std::string page_footer(const Words& words) {
  return words({"xlsx.page", {{"page", "&P"}, {"pages", "&N"}}});
}

}  // namespace turnwright
