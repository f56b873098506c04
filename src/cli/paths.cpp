// SPDX-License-Identifier: MIT
#include "paths.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <random>
#include <string_view>
#include <utility>

namespace turnwright::cli {

namespace {

constexpr std::size_t longest_name = 120;  // disks hold 255 bytes, with endings of ours
// Files not yet in place; what a killed run leaves is swept a day later.
constexpr std::string_view prefix = ".turnwright-", suffix = ".part";

// Names of devices on some systems, whatever ending follows.
bool is_reserved(std::string name) {
  std::transform(name.begin(), name.end(), name.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const char* device : {"con", "prn", "aux", "nul"})
    if (name == device) return true;
  return name.size() == 4 && (name.starts_with("com") || name.starts_with("lpt")) &&
         std::isdigit(static_cast<unsigned char>(name[3])) != 0;
}

}  // namespace

FileFormat format_of(const std::string& path) {
  static constexpr std::array<std::pair<std::string_view, FileFormat>, 7> endings{
      {{".json", FileFormat::json},
       {".html", FileFormat::page},
       {".xlsx", FileFormat::workbook},
       {".csv", FileFormat::table},
       {".ics", FileFormat::calendar},
       {".yaml", FileFormat::yaml},
       {".pdf", FileFormat::pdf}}};
  for (const auto& [ending, format] : endings)
    if (path.ends_with(ending)) return format;
  return FileFormat::text;
}

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  return slash == std::string::npos ? "." : path.substr(0, std::max<std::size_t>(slash, 1));
}

bool is_standard_input(const std::string& path) { return path == "-"; }

bool is_list(const std::string& path) {
  const FileFormat format = format_of(path);
  return format == FileFormat::table || format == FileFormat::workbook;
}

std::string file_name(const std::string& number) {
  std::string name;
  for (const char c : number)
    name += std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_' ? c : '_';
  if (name.size() > longest_name) name.resize(longest_name);
  if (name.empty() || is_reserved(name)) name += "_";
  return name;
}

std::string temporary_beside(const std::string& path) {
  std::random_device random;
  std::string name(prefix);
  for (int i = 0; i < 4; ++i) name += std::to_string(random());
  return folder_of(path) + "/" + name + std::string(suffix);
}

bool is_temporary(const std::string& name) {
  return name.starts_with(prefix) && name.ends_with(suffix);
}

}  // namespace turnwright::cli
