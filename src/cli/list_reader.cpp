// SPDX-License-Identifier: MIT
#include "list_reader.hpp"

#include "inputs.hpp"
#include "paths.hpp"

namespace turnwright::cli {

ListReader::ListReader(const Session& session, const std::string& path, const std::string& sheet) {
  if (is_standard_input(path)) {
    reader_ =
        std::make_unique<TableReader>(session.words("cli.standard-input"), session.streams.in);
    return;
  }
  file_.emplace(path);
  if (format_of(path) == FileFormat::workbook) {
    auto book = std::make_unique<WorkbookReader>(path, sheet);
    sheet_ = book.get();
    reader_ = std::move(book);
  } else {
    reader_ = std::make_unique<TableReader>(path, file_->stream());
  }
}

std::vector<TableRow> ListReader::chunk(std::size_t size) {
  std::vector<TableRow> rows;
  while (rows.size() < size) {
    auto row = reader_->next();
    if (!row) break;
    rows.push_back(std::move(*row));
  }
  return rows;
}

Messages ListReader::other_sheets() const {
  return sheet_ == nullptr ? Messages() : verbatims(sheet_->other_sheets());
}

HeadingWords heading_words(const std::vector<ListColumn>& columns) {
  HeadingWords headings;
  for (const Language language : {Language::en, Language::de}) {
    const Words words(language);
    for (const ListColumn& column : columns) {
      const std::string text = words(column.headings);
      for (std::size_t at = 0; at != std::string::npos;) {
        const std::size_t bar = text.find('|', at);
        headings.emplace(plain_heading(text.substr(at, bar - at)), column.name);
        at = bar == std::string::npos ? bar : bar + 1;
      }
    }
  }
  return headings;
}

HeadRow head_of(RowReader& rows, const std::function<bool(const TableRow&)>& is_head) {
  constexpr std::size_t most_above = 20;
  HeadRow first{rows.next(), 0};
  if (!first.row || is_head(*first.row)) return first;
  for (std::size_t above = 1; above <= most_above; ++above) {
    auto row = rows.next();
    if (!row) break;
    if (is_head(*row)) return {std::move(row), above};
  }
  return first;
}

std::string rejected_path(const std::string& output) {
  return output.empty() ? "" : output.substr(0, output.rfind('.')) + ".again.csv";
}

std::string one_line(const Session& session, const Problems& problems) {
  std::string text;
  for (const Problem& p : problems)
    text += (text.empty() ? "" : " | ") + problem_words(p, session.words);
  return text;
}

}  // namespace turnwright::cli
