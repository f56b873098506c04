// SPDX-License-Identifier: MIT
#pragma once
// A table of text, row by row (RFC 4180; comma, semicolon or tab): memory does not grow with its
// length. What cannot be read makes its own row wrong, not the rest.
#include <cstddef>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/problem.hpp"

namespace turnwright {

/// What a sheet keeps in a cell; a file of text keeps texts.
enum class CellHolds { text, number, day };

struct Cell {
  std::string text;  // of a number as typed: 0.1; of a day: 2026-12-24, and its time
  bool quoted = false;
  Position at;  // line within its row, from 1 (of a sheet: its column); column in characters
  CellHolds holds = CellHolds::text;
};

struct TableRow {
  int line = 0;           // of the file or sheet
  bool in_sheet = false;  // of a workbook: places are cells
  std::string text;       // as it stands in the file, without its end; of a sheet empty
  std::vector<Cell> cells;
  Problems problems;  // of the row as such; places are those of the file
};

/// Problems whose lines are counted within a row, with their places in the file: line and column,
/// or the cell of a sheet.
Problems in_file(Problems problems, const TableRow& row);
/// "BC12".
std::string cell_of(int column, int row);

inline constexpr std::size_t largest_row = std::size_t{1} << 20;
inline constexpr int most_columns = 256;

/// Whatever gives rows.
class RowReader {
 public:
  RowReader() = default;
  RowReader(const RowReader&) = delete;
  RowReader& operator=(const RowReader&) = delete;
  virtual ~RowReader() = default;
  /// The next row that holds anything; none at the end.
  virtual std::optional<TableRow> next() = 0;
  virtual const std::string& file() const = 0;
};

class TableReader : public RowReader {
 public:
  /// `file` is its name for messages. The separator is the one that the first line uses most.
  TableReader(std::string file, std::istream& in);
  TableReader(const TableReader&) = delete;
  TableReader& operator=(const TableReader&) = delete;
  ~TableReader() override;
  std::optional<TableRow> next() override;
  const std::string& file() const override;

 private:
  class Parser;
  std::unique_ptr<Parser> parser_;
};

/// A cell as it is written: quoted where needed. A text that a spreadsheet would take for a formula
/// gets an apostrophe, which TableReader takes away again.
std::string table_cell(std::string_view text);

}  // namespace turnwright
