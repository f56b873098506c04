// SPDX-License-Identifier: MIT
#pragma once
// Methods side by side, on the sheet of a quote's workbook and of the methods' own.
#include <vector>

#include "turnwright/compare/compare.hpp"
#include "xlsx/sheet_headings.hpp"
#include "xlsx/spreadsheet.hpp"

namespace turnwright {

inline constexpr int first_price_column = 4;

std::vector<double> method_widths(std::size_t prices);
Messages method_headings(const std::vector<Price>& prices, const std::string& currency);

struct MethodRows {
  std::vector<int> feasible;  // their rows
  int end = 0;                // the first free one
};
/// A row a method: times and prices each, or why it is not possible and what would help.
MethodRows write_method_rows(Spreadsheet& book, const Words& words, int sheet, int row,
                             const Comparison& comparison);

/// Of a lot's cost by cause; the first column is named.
Messages difference_headings(Message first);
/// From the second column on.
void write_difference(Spreadsheet& book, int sheet, int row, const Difference& difference);

}  // namespace turnwright
