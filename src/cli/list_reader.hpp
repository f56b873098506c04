// SPDX-License-Identifier: MIT
#pragma once
// Lists as customers and other programs write them: text or workbook, headings in their words.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "files.hpp"
#include "session.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/document/workbook_table.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright::cli {

/// The rows of a list, of text or of a workbook.
class ListReader {
 public:
  ListReader(const Session& session, const std::string& path, const std::string& sheet);
  RowReader& rows() { return *reader_; }
  std::vector<TableRow> chunk(std::size_t size);
  Messages other_sheets() const;
  /// Rows of a workbook that it hides.
  int hidden() const { return sheet_ == nullptr ? 0 : sheet_->hidden(); }
  int formulas() const { return sheet_ == nullptr ? 0 : sheet_->formulas(); }

 private:
  std::optional<InputTable> file_;
  std::unique_ptr<RowReader> reader_;
  const WorkbookReader* sheet_ = nullptr;
};

/// Words for columns in every language: a list is written by somebody else.
HeadingWords heading_words(const std::vector<ListColumn>& columns);

/// The row that names the columns, and how many stand above it; the first where none does.
struct HeadRow {
  std::optional<TableRow> row;
  std::size_t above = 0;
};
HeadRow head_of(RowReader& rows, const std::function<bool(const TableRow&)>& is_head);

/// "priced.csv" or "priced.xlsx" -> "priced.again.csv".
std::string rejected_path(const std::string& output);
/// What is wrong with a row, as a cell of the list that is read again.
std::string one_line(const Session& session, const Problems& problems);

}  // namespace turnwright::cli
