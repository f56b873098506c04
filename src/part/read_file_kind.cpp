// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "pieces.hpp"
#include "turnwright/part/file_kind.hpp"

namespace turnwright {
namespace {

using Keys = std::vector<std::string>;

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view archive_mark = "PK\x03\x04";  // of a workbook
constexpr std::array part_keys{"part", "outside", "material", "bore from right", "bore from left"};
constexpr std::array request_keys{"request", "parts"};
constexpr std::array week_keys{"week", "orders"};
constexpr std::array shop_keys{"bands",
                               "book machines",
                               "book overheads",
                               "book people",
                               "book values",
                               "centre holes",
                               "chip credit",
                               "chips",
                               "circlips",
                               "clampings",
                               "corrections",
                               "cutting groups",
                               "deep holes",
                               "factors",
                               "fits",
                               "gauging",
                               "general tolerances",
                               "grades",
                               "handling",
                               "kinds of step",
                               "knurls",
                               "machines",
                               "materials",
                               "methods",
                               "outside work",
                               "policy",
                               "reaming stock",
                               "reliefs",
                               "setup",
                               "sources",
                               "stock conditions",
                               "stock handling",
                               "thread passes",
                               "thread run-outs",
                               "tools"};

template <class Known>
bool has_any(const Keys& keys, const Known& known) {
  return std::any_of(keys.begin(), keys.end(), [&](const std::string& key) {
    return std::find(known.begin(), known.end(), key) != known.end();
  });
}

std::string without_quotes(std::string_view text) {
  const bool quoted = text.size() > 1 && text.front() == text.back() &&
                      (text.front() == '"' || text.front() == '\'');
  return std::string(quoted ? text.substr(1, text.size() - 2) : text);
}

std::string_view first_line(std::string_view text) {
  std::string_view line = text.substr(0, text.find('\n'));
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

// The keys that begin in the first column: also of a text that is no YAML further down.
Keys keys_of_lines(std::string_view text) {
  Keys keys;
  while (!text.empty()) {
    const std::string_view line = first_line(text);
    const std::size_t colon = line.find(':');
    const bool ends_key =
        colon != std::string_view::npos && (colon + 1 == line.size() || line[colon + 1] == ' ');
    if (ends_key) keys.push_back(without_quotes(line.substr(0, colon)));
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  }
  return keys;
}

// Of a file in one pair of braces.
Keys keys_of_map(std::string_view text) {
  Keys keys;
  const auto document = read_document("", text);
  if (document)
    for (const Member& m : document->root.members) keys.push_back(m.key);
  return keys;
}

// A table of parts names them in a column.
bool is_list(std::string_view text) {
  const std::string_view line = first_line(text);
  for (const char separator : {',', ';', '\t'}) {
    const auto cells = split_at(line, separator);
    if (cells.size() > 1 && std::any_of(cells.begin(), cells.end(), [](const Piece& cell) {
          return without_quotes(cell.text) == "number";
        }))
      return true;
  }
  return false;
}

}  // namespace

const char* name_of(FileKind kind) {
  static constexpr std::array names{"part", "request", "week", "shop", "list", "other"};
  return names[static_cast<std::size_t>(kind)];
}

FileKind kind_of_file(std::string_view text) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  if (text.starts_with(archive_mark) || is_list(text)) return FileKind::list;
  const Keys keys = text.starts_with('{') ? keys_of_map(text) : keys_of_lines(text);
  if (has_any(keys, part_keys)) return FileKind::part;
  if (has_any(keys, request_keys)) return FileKind::request;
  if (has_any(keys, week_keys)) return FileKind::week;
  if (has_any(keys, shop_keys)) return FileKind::shop;
  return FileKind::other;
}

}  // namespace turnwright
