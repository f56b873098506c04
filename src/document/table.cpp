// SPDX-License-Identifier: MIT
// The only file that knows libcsv.
#include "turnwright/document/table.hpp"

#include <csv.h>

#include <algorithm>
#include <array>
#include <istream>
#include <new>

#include "turnwright/document/reader.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr int lines_of_a_head = 20;  // within which the row of column names stands
constexpr int end_of_file = std::istream::traits_type::eof();

// Apostrophes apart, which keep what follows from being worked out.
bool looks_like_formula(std::string_view text) {
  const std::size_t first = text.find_first_not_of('\'');
  return first != std::string_view::npos &&
         std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
}

// Of the first line that has any outside quotes: what stands above a head may be one cell.
char separator_of(std::string_view text) {
  std::array<std::ptrdiff_t, 3> counts{};
  constexpr std::string_view separators = ",;\t";
  bool quoted = false;
  for (const char c : text) {
    quoted = quoted != (c == '"');
    const std::size_t which = separators.find(c);
    if (which != std::string_view::npos && !quoted) ++counts.at(which);
    const auto most = std::max_element(counts.begin(), counts.end());
    if (c == '\n' && !quoted && *most > 0)
      return separators.at(static_cast<std::size_t>(most - counts.begin()));
  }
  const auto most = std::max_element(counts.begin(), counts.end());
  return separators.at(static_cast<std::size_t>(most - counts.begin()));
}

}  // namespace

class TableReader::Parser {
 public:
  Parser(std::string file, std::istream& in) : file_(std::move(file)), in_(in) { start(); }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
  ~Parser() { csv_free(&csv_); }

  const std::string& file() const { return file_; }

  std::optional<TableRow> next() {
    if (!begun_ && !begin()) return std::move(row_);
    for (int c = take(); c != end_of_file; c = take())
      if (put(static_cast<char>(c)))
        if (TableRow row = finished(); !empty(row)) return row;
    if (ended_) return std::nullopt;
    ended_ = true;
    csv_fini(&csv_, on_cell, on_row, this);
    if (row_done_) {
      TableRow row = finished();
      if (empty(row)) return std::nullopt;
      return row;
    }
    if (row_.text.empty()) return std::nullopt;
    fault("table.open-quote", "expected.closing-quote");
    return std::move(row_);
  }

 private:
  void start() {
    if (csv_init(&csv_, CSV_STRICT | CSV_STRICT_FINI) != 0) throw std::bad_alloc();
    csv_set_delim(&csv_, static_cast<unsigned char>(separator_));
  }
  // Its mark, its encoding, its separator. False when it is no text at all.
  bool begin() {
    begun_ = true;
    auto fill = [&](std::size_t most, int lines) {
      while (ahead_.size() < most && lines > 0) {
        const int c = in_.get();
        if (c == end_of_file) break;
        ahead_ += static_cast<char>(c);
        if (c == '\n') --lines;
      }
    };
    fill(2, 1);
    const bool utf16 = ahead_ == "\xFF\xFE" || ahead_ == "\xFE\xFF";
    if (utf16 || ahead_ == "PK") {
      row_.line = 1;
      ahead_.clear();
      ended_ = true;
      in_.setstate(std::ios::eofbit);
      row_.problems.push_back(
          {file_, {1, 1}, 1, utf16 ? "table.utf16" : "table.archive", "expected.csv", "", ""});
      return false;
    }
    fill(largest_row, lines_of_a_head);
    if (ahead_.starts_with("\xEF\xBB\xBF")) ahead_.erase(0, 3);
    separator_ = separator_of(ahead_);
    csv_set_delim(&csv_, static_cast<unsigned char>(separator_));
    return true;
  }
  int take() {
    if (ahead_at_ < ahead_.size()) return static_cast<unsigned char>(ahead_[ahead_at_++]);
    return in_.good() ? in_.get() : end_of_file;
  }
  // One byte at a time, so that every cell's place is known. True when a row is complete.
  bool put(char c) {
    const bool second_of_two = c == '\n' && last_ == '\r';
    last_ = c;
    const bool ends_line = (c == '\n' || c == '\r') && !second_of_two;
    const int line = line_;
    if (ends_line) ++line_;
    if (skipping_) {
      if (!ends_line) return false;
      skipping_ = false;
      row_done_ = true;
      return true;
    }
    if (row_.text.empty()) {
      if (c == '\n' || c == '\r') return false;
      row_.line = line;
      cell_start_ = placed_ = 0;
      place_ = {1, 1};
    }
    row_.text += c;
    if (row_.text.size() > largest_row) {
      fault("table.row-too-long", "expected.part-number-per-row");
      skip(ends_line);
    } else if (csv_parse(&csv_, &c, 1, on_cell, on_row, this) != 1) {
      fault("table.quote-inside-cell", "expected.quoted-cell");
      skip(ends_line);
    }
    return row_done_;
  }
  // The rest of a line that cannot be read.
  void skip(bool line_ended) {
    csv_free(&csv_);
    start();
    row_done_ = line_ended;
    skipping_ = !line_ended;
  }
  void fault(Message what, Message expected) {
    const std::size_t at = row_.text.rfind('\n');
    const auto shown = std::string_view(row_.text).substr(at == std::string::npos ? 0 : at + 1);
    row_.problems.push_back(
        {file_,
         {row_.line + static_cast<int>(std::count(row_.text.begin(), row_.text.end(), '\n')),
          static_cast<int>(std::max<std::size_t>(characters(shown), 1))},
         1,
         std::move(what),
         std::move(expected),
         "",
         ""});
  }
  static bool empty(const TableRow& row) {
    return row.problems.empty() && std::all_of(row.cells.begin(), row.cells.end(),
                                               [](const Cell& c) { return c.text.empty(); });
  }
  TableRow finished() {
    TableRow row = std::move(row_);
    row_ = TableRow{};
    row_done_ = false;
    while (!row.text.empty() && (row.text.back() == '\n' || row.text.back() == '\r'))
      row.text.pop_back();
    if (const std::size_t bad = bad_byte(row.text); bad != std::string_view::npos)
      row.problems.push_back({file_,
                              {row.line, static_cast<int>(characters(row.text.substr(0, bad))) + 1},
                              1,
                              "table.no-utf8",
                              "expected.saved-utf8",
                              "",
                              ""});
    else if (showable(without_line_ends(row.text), true) != without_line_ends(row.text))
      row.problems.push_back(
          {file_, {row.line, 1}, 1, "document.control-character", "expected.plain-text", "", ""});
    if (row.cells.size() > most_columns)
      row.problems.push_back({file_,
                              {row.line, row.cells[most_columns].at.column},
                              1,
                              "table.too-many-columns",
                              "expected.part-number-per-row",
                              "",
                              ""});
    return row;
  }
  // Cells of several lines may be saved with the line ends of any system.
  static std::string without_line_ends(std::string text) {
    std::erase(text, '\r');
    return text;
  }

  static void on_cell(void* text, std::size_t size, void* self) {
    static_cast<Parser*>(self)->cell({static_cast<const char*>(text), size});
  }
  static void on_row(int, void* self) { static_cast<Parser*>(self)->row_done_ = true; }
  // From the last cell on: a row of many cells is walked once.
  Position place_of(std::size_t offset) {
    for (; placed_ < offset; ++placed_) {
      const auto byte = static_cast<unsigned char>(row_.text[placed_]);
      if (byte == '\n')
        place_ = {place_.line + 1, 1};
      else if ((byte & 0xC0) != 0x80)
        ++place_.column;
    }
    return place_;
  }
  void cell(std::string_view text) {
    const std::string& raw = row_.text;
    std::size_t start = cell_start_;
    while (start < raw.size() && (raw[start] == ' ' || (raw[start] == '\t' && separator_ != '\t')))
      ++start;
    Cell found;
    found.text = text;
    found.quoted = start < raw.size() && raw[start] == '"';
    if (found.text.size() > 1 && found.text[0] == '\'' &&
        looks_like_formula(std::string_view(found.text).substr(1)))
      found.text.erase(0, 1);
    found.at = place_of(start);
    row_.cells.push_back(std::move(found));
    cell_start_ = raw.size();
  }

  std::string file_;
  std::istream& in_;
  csv_parser csv_{};
  char separator_ = ',', last_ = 0;
  bool begun_ = false, ended_ = false, skipping_ = false, row_done_ = false;
  std::string ahead_;
  std::size_t ahead_at_ = 0, cell_start_ = 0, placed_ = 0;
  int line_ = 1;
  Position place_{1, 1};  // of byte placed_ of the row
  TableRow row_;
};

TableReader::TableReader(std::string file, std::istream& in)
    : parser_(std::make_unique<Parser>(std::move(file), in)) {}
TableReader::~TableReader() = default;
std::optional<TableRow> TableReader::next() { return parser_->next(); }
const std::string& TableReader::file() const { return parser_->file(); }

Problems in_file(Problems problems, const TableRow& row) {
  for (Problem& p : problems) {
    if (row.in_sheet) {
      if (p.at.line > 0) p.file += ", cell " + cell_of(p.at.line, row.line);
      p.at = {0, 0};
      continue;
    }
    p.source_line = line_of(row.text, p.at.line);
    if (p.at.line > 0) p.at.line += row.line - 1;
  }
  return problems;
}

std::string cell_of(int column, int row) {
  std::string letters;
  for (int c = column; c > 0; c = (c - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (c - 1) % 26));
  return letters + std::to_string(row);
}

std::string table_cell(std::string_view text) {
  // A number stays one, below 0 too.
  std::string cell = looks_like_formula(text) && !read_number(text) ? "'" : "";
  cell += text;
  const bool edges = !cell.empty() && (cell.front() == ' ' || cell.back() == ' ');
  if (!edges && cell.find_first_of(",;\t\"\r\n") == std::string::npos) return cell;
  std::string quoted(2 * cell.size() + 2, '\0');
  quoted.resize(csv_write(quoted.data(), quoted.size(), cell.data(), cell.size()));
  return quoted;
}

}  // namespace turnwright
