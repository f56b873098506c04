// SPDX-License-Identifier: MIT
#pragma once
// A sheet of a workbook (Office Open XML, ISO/IEC 29500) as rows of text. Nothing is worked
// out: of a formula the value saved with it is taken. Bounded in size, whatever the archive says.
#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "turnwright/document/table.hpp"

namespace turnwright {

inline constexpr std::size_t largest_workbook = 100'000'000;  // unpacked, of all that is read
inline constexpr std::size_t most_marks = 6'000'000;          // of its XML: tags and attributes

class WorkbookReader : public RowReader {
 public:
  /// `sheet`: its name; empty: the first.
  explicit WorkbookReader(const std::string& path, std::string sheet = "");
  WorkbookReader(const WorkbookReader&) = delete;
  WorkbookReader& operator=(const WorkbookReader&) = delete;
  ~WorkbookReader() override;
  std::optional<TableRow> next() override;
  const std::string& file() const override;
  /// Cells so far whose formula was not worked out.
  int formulas() const;
  /// Rows so far that the workbook hides, and that are read all the same.
  int hidden() const;
  /// Names of the sheets that are not read.
  std::vector<std::string> other_sheets() const;

 private:
  class Sheet;
  std::unique_ptr<Sheet> sheet_;
};

}  // namespace turnwright
