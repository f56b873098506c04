// SPDX-License-Identifier: MIT
// What the headings of a list mean, whatever it is a list of.
#include <algorithm>

#include "turnwright/document/reader.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {

std::string plain_heading(std::string_view text) {
  std::string plain;
  for (const char c : text.substr(0, text.find_first_of("([")))
    if (c >= 'A' && c <= 'Z')
      plain += static_cast<char>(c - 'A' + 'a');
    else if (std::string_view(".:_-/ \t\n\r").find(c) == std::string_view::npos)
      plain += c;
    else if (!plain.empty() && plain.back() != ' ')
      plain += ' ';
  while (plain.ends_with(' ')) plain.pop_back();
  for (const auto& [large, small] :
       {std::pair{"\u00c4", "\u00e4"}, {"\u00d6", "\u00f6"}, {"\u00dc", "\u00fc"}})
    for (std::size_t at = plain.find(large); at != std::string::npos; at = plain.find(large, at))
      plain.replace(at, std::string_view(large).size(), small);
  return plain;
}

std::string column_named(const std::string& heading, const std::vector<ListColumn>& columns,
                         const HeadingWords& words) {
  const auto is_column = [&](const std::string& name) {
    return std::any_of(columns.begin(), columns.end(),
                       [&](const ListColumn& c) { return c.name == name; });
  };
  if (is_column(heading)) return heading;
  const std::string plain = plain_heading(heading);
  for (const ListColumn& c : columns)
    if (plain == plain_heading(c.name)) return c.name;
  const auto word = words.find(plain);
  return word != words.end() && is_column(word->second) ? word->second : "";
}

std::set<std::string> columns_named(const TableRow& row, const std::vector<ListColumn>& columns,
                                    const HeadingWords& words) {
  std::set<std::string> found;
  for (const Cell& cell : row.cells)
    if (std::string name = column_named(cell.text, columns, words); !name.empty())
      found.insert(std::move(name));
  return found;
}

void require_columns(const std::vector<std::string>& columns,
                     const std::vector<std::string>& needed, ProblemList& problems) {
  for (const std::string& name : needed)
    if (std::find(columns.begin(), columns.end(), name) == columns.end())
      problems.add({1, 1}, 1, Message{"part.column-missing", {{"column", name}}},
                   Message{"part.wants-columns", {{"columns", verbatims(needed)}}});
}

}  // namespace turnwright
