// SPDX-License-Identifier: MIT
#pragma once
// What a workbook holds: counted while it is written, and again in the file.
#include <cstddef>
#include <string>
#include <vector>

namespace turnwright {

struct SheetCounts {
  std::size_t cells = 0, formulas = 0, texts = 0;  // texts: cells that hold one
  bool operator==(const SheetCounts&) const = default;
};
struct BookCounts {
  std::vector<SheetCounts> sheets;
  std::size_t strings = 0;  // different texts in the common table of all sheets
  std::size_t series = 0;   // of all charts
  std::size_t picture_bytes = 0;
  bool operator==(const BookCounts&) const = default;
};

/// Of a written workbook, every part of it unpacked; throws CannotWrite when one is damaged.
BookCounts counts_of(const std::string& path);
/// Throws CannotWrite when it holds other than was written.
void require_counts(const std::string& path, const BookCounts& written);

}  // namespace turnwright
