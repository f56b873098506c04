// SPDX-License-Identifier: MIT
#pragma once
// The priced list: a row a part and quantity, as a table of text or a workbook of values (inside
// copy: cost and margin).
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "turnwright/document/table.hpp"
#include "turnwright/estimate/quote.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {

/// A cell as text of a file, and as a number or as messages where it is that.
struct PriceCell {
  std::string text;
  std::optional<double> number;
  int places = 0;
  Messages messages = {};
};
inline constexpr const char* between_messages = "; ";
using PriceRow = std::vector<PriceCell>;

/// A column: its word in a file, English in every language, and its heading in a workbook.
struct PriceColumn {
  const char* name;
  Message heading;
  double width = 12;  // in a workbook, in characters
};
const std::vector<PriceColumn>& price_columns();
/// The rows of a quote with its band; `notes` as they stood in the list.
std::vector<PriceRow> price_rows(const Quote& quote, const std::string& notes);
/// As lines of text (CSV).
std::string price_head();
std::string price_line(const PriceRow& row);

/// The same as a workbook, written row by row: memory does not grow with the list.
class PriceBook {
 public:
  PriceBook(const std::string& path, const Words& words);
  PriceBook(const PriceBook&) = delete;
  PriceBook& operator=(const PriceBook&) = delete;
  ~PriceBook();
  void add(const PriceRow& row);
  /// Throws CannotWrite.
  void close();

 private:
  class Sheet;
  std::unique_ptr<Sheet> sheet_;
};

/// What was refused, to be corrected and read again: the columns of the list, then the problem.
std::string again_head(const PartTable& table);
std::string again_row(const PartTable& table, const TableRow& row, const std::string& problem);

}  // namespace turnwright
