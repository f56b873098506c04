// SPDX-License-Identifier: MIT
#include "text/text_writer.hpp"

#include <algorithm>

#include "turnwright/document/reader.hpp"

namespace turnwright {
namespace {

constexpr std::size_t indent = 2, between = 2;

std::vector<std::size_t> widths_of(const Table& table, const Cells& headings) {
  std::vector<std::size_t> widths;
  for (const std::string& heading : headings) widths.push_back(characters(heading));
  for (const Table::Row& row : table.rows)
    for (std::size_t i = 0; i < std::min(row.cells.size(), widths.size()); ++i)
      widths[i] = std::max(widths[i], characters(row.cells[i]));
  return widths;
}

std::string row_text(const Table& table, const Cells& cells,
                     const std::vector<std::size_t>& widths) {
  std::string text;
  for (std::size_t i = 0; i < std::min(cells.size(), widths.size()); ++i)
    text += (i == 0 ? "" : std::string(between, ' ')) +
            padded(cells[i], widths[i], table.columns[i].align);
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

}  // namespace

std::string padded(std::string text, std::size_t width, Align align) {
  const std::size_t n = characters(text);
  if (n >= width) return text;
  const std::string room(width - n, ' ');
  return align == Align::right ? room + text : text + room;
}

void TextWriter::section(const Message& heading) {
  gap();
  out_ += words_.heading(heading) + "\n";
}

void TextWriter::gap() {
  if (!out_.empty() && !out_.ends_with("\n\n")) out_ += "\n";
}

void TextWriter::line(const Message& message, std::size_t depth) {
  written(words_(message), depth);
}

void TextWriter::lines(const Messages& messages, std::size_t depth) {
  for (const Message& message : messages) line(message, depth);
}

void TextWriter::written(const std::string& text, std::size_t depth) {
  out_ += std::string(indent * depth, ' ') + text + "\n";
}

void TextWriter::table(const Table& table, std::size_t depth) {
  Cells headings;
  for (const Column& column : table.columns) headings.push_back(words_.heading(column.heading));
  const std::vector<std::size_t> widths = widths_of(table, headings);
  if (const std::string head = row_text(table, headings, widths); !head.empty())
    written(head, depth);
  for (const Table::Row& row : table.rows) {
    written(row_text(table, row.cells, widths), depth);
    for (const std::string& below : row.below) written(below, depth + 2);
  }
}

}  // namespace turnwright
