// SPDX-License-Identifier: MIT
#pragma once
// What a path on the command line says by its name alone.
#include <string>

namespace turnwright::cli {

/// By the ending of a name; text: any other.
enum class FileFormat { text, json, page, workbook, table, calendar, yaml };
FileFormat format_of(const std::string& path);
/// True for "-".
bool is_standard_input(const std::string& path);
/// True for a table of parts, as text or as a workbook.
bool is_list(const std::string& path);

}  // namespace turnwright::cli
