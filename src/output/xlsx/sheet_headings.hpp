// SPDX-License-Identifier: MIT
#pragma once
#include <string>
#include <vector>

#include "turnwright/output/words.hpp"
#include "xlsx/spreadsheet.hpp"

namespace turnwright {

/// Headings of columns from the first on, in a row as high as the widths of its columns ask for; an
/// empty message leaves its cell empty. Those of numbers stand right, as the numbers do.
void write_headings(Spreadsheet& book, const Words& words, int sheet, int row,
                    const Messages& headings, const std::vector<double>& widths,
                    int numbers_from = 1000, int numbers_to = 1000);

/// Cells of running text from the first column on, in a row as high as the widths ask for.
void write_texts(Spreadsheet& book, int sheet, int row, const std::vector<std::string>& cells,
                 const std::vector<double>& widths);
/// A text over the columns of these widths from the first on, as high as it needs.
void write_paragraph(Spreadsheet& book, int sheet, int row, const std::string& text,
                     const std::vector<double>& widths);

/// "setup, EUR".
Message in_currency(Message what, const std::string& currency);
/// "page 1 of 3", for the foot of a sheet.
std::string page_footer(const Words& words);

}  // namespace turnwright
