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
                    int numbers_from = 1000);

/// "setup, EUR".
Message in_currency(Message what, const std::string& currency);
/// "page 1 of 3", for the foot of a sheet.
std::string page_footer(const Words& words);

}  // namespace turnwright
