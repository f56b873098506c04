// SPDX-License-Identifier: MIT
#pragma once
// What a path on the command line says by its name alone.
#include <string>

namespace turnwright::cli {

/// By the ending of a name; text: any other.
enum class FileFormat { text, json, page, workbook, table, calendar, yaml, pdf };
FileFormat format_of(const std::string& path);
/// The folder that a path lies in, "." for a bare name.
std::string folder_of(const std::string& path);
/// True for "-".
bool is_standard_input(const std::string& path);
/// True for a table of parts, as text or as a workbook.
bool is_list(const std::string& path);

/// A part number as the name of a file: letters, digits, - and _; long ones are cut.
std::string file_name(const std::string& number);
/// Beside the path, the name of a file not yet in place, that nobody can foresee.
std::string temporary_beside(const std::string& path);
/// A name that `temporary_beside` gives.
bool is_temporary(const std::string& name);

}  // namespace turnwright::cli
