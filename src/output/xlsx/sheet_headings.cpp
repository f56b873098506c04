// SPDX-License-Identifier: MIT
#include "xlsx/sheet_headings.hpp"

#include <algorithm>
#include <cmath>

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

}  // namespace

void write_headings(Spreadsheet& book, const Words& words, int sheet, int row,
                    const Messages& headings, const std::vector<double>& widths, int numbers_from) {
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
                i < numbers_from ? Look::head : Look::head_right);
  }
}

Message in_currency(Message what, const std::string& currency) {
  return {"xlsx.in-currency", {{"what", std::move(what)}, {"currency", currency}}};
}

std::string page_footer(const Words& words) {
  return words({"xlsx.page", {{"page", "&P"}, {"pages", "&N"}}});
}

}  // namespace turnwright
