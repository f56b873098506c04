// SPDX-License-Identifier: MIT
#include "paths.hpp"

#include <array>
#include <string_view>
#include <utility>

namespace turnwright::cli {

FileFormat format_of(const std::string& path) {
  static constexpr std::array<std::pair<std::string_view, FileFormat>, 6> endings{
      {{".json", FileFormat::json},
       {".html", FileFormat::page},
       {".xlsx", FileFormat::workbook},
       {".csv", FileFormat::table},
       {".ics", FileFormat::calendar},
       {".yaml", FileFormat::yaml}}};
  for (const auto& [ending, format] : endings)
    if (path.ends_with(ending)) return format;
  return FileFormat::text;
}

bool is_standard_input(const std::string& path) { return path == "-"; }

bool is_list(const std::string& path) {
  const FileFormat format = format_of(path);
  return format == FileFormat::table || format == FileFormat::workbook;
}

}  // namespace turnwright::cli
