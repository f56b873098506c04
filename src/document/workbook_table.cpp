// SPDX-License-Identifier: MIT
// The only file that reads archives and their XML as input.
#include "turnwright/document/workbook_table.hpp"

#include <minizip/unzip.h>

#include <algorithm>
#include <cstring>
#include <map>
#include <pugixml.hpp>
#include <vector>

#include "turnwright/document/sheet_day.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

struct CloseZip {
  void operator()(void* zip) const { unzClose(zip); }
};

// "BC12" -> 55, or 0 when it is no cell.
int column_of(std::string_view cell) {
  int column = 0;
  for (const char c : cell) {
    if (c < 'A' || c > 'Z') break;
    column = column * 26 + (c - 'A' + 1);
    if (column > 20000) return 0;
  }
  return column;
}
// "C12" or "C12:D14" -> 12, or 0.
int row_of(std::string_view cell) {
  cell = cell.substr(0, cell.find(':'));
  const std::size_t digits = cell.find_first_of("0123456789");
  if (digits == std::string_view::npos || cell.size() - digits > 7) return 0;
  int row = 0;
  for (const char c : cell.substr(digits)) {
    if (c < '0' || c > '9') return 0;
    row = row * 10 + (c - '0');
  }
  return row;
}

bool is(const pugi::xml_node& node, const char* name) {
  const char* local = std::strrchr(node.name(), ':');
  return std::strcmp(local == nullptr ? node.name() : local + 1, name) == 0;
}
pugi::xml_node child(const pugi::xml_node& node, const char* name) {
  return node.find_child([&](const pugi::xml_node& n) { return is(n, name); });
}

// The text of a string item: of its runs too, of its readings (rPh) not.
std::string string_of(const pugi::xml_node& item) {
  std::string text;
  for (const pugi::xml_node& node : item.children()) {
    if (is(node, "t")) text += node.text().get();
    if (is(node, "r")) text += child(node, "t").text().get();
  }
  return text;
}

// Of each style of cells, whether its number format shows days.
std::vector<bool> styles_of_days(const pugi::xml_node& root) {
  std::map<int, std::string> codes;
  for (const pugi::xml_node& format : child(root, "numFmts").children())
    codes[format.attribute("numFmtId").as_int()] = format.attribute("formatCode").value();
  std::vector<bool> days;
  for (const pugi::xml_node& style : child(root, "cellXfs").children())
    if (is(style, "xf")) {
      const int id = style.attribute("numFmtId").as_int();
      days.push_back(shows_day(id, codes.contains(id) ? codes[id] : ""));
    }
  return days;
}

}  // namespace

class WorkbookReader::Sheet {
 public:
  Sheet(const std::string& path, std::string name) : file_(path), name_(std::move(name)) { open(); }

  // A part of the archive; the XML lies in its bytes.
  struct Part {
    std::string bytes;
    pugi::xml_document xml;
  };

  void open() {
    const std::unique_ptr<void, CloseZip> zip(unzOpen(file_.c_str()));
    if (zip == nullptr) return fault("table.no-workbook", "expected.xlsx-or-csv");
    Part book, links;
    if (!load(zip.get(), "xl/workbook.xml", book) ||
        !load(zip.get(), "xl/_rels/workbook.xml.rels", links))
      return fault("table.no-workbook", "expected.xlsx-or-csv");
    const pugi::xml_node sheet = chosen(child(book.xml.document_element(), "sheets"));
    if (!faults_.empty()) return;
    from_1904_ = child(book.xml.document_element(), "workbookPr").attribute("date1904").as_bool();
    std::string sheet_path, strings_path, styles_path;
    for (const pugi::xml_node& link : links.xml.document_element().children()) {
      const std::string type = link.attribute("Type").value();
      const std::string given = link.attribute("Target").value();
      const std::string target = given.starts_with("/") ? given.substr(1) : "xl/" + given;
      if (type.ends_with("/sharedStrings")) strings_path = target;
      if (type.ends_with("/styles")) styles_path = target;
      for (const pugi::xml_attribute& a : sheet.attributes())
        if (std::string_view(a.name()).ends_with(":id") &&
            std::strcmp(a.value(), link.attribute("Id").value()) == 0)
          sheet_path = target;
    }
    if (!strings_path.empty()) {
      Part strings;  // goes before the sheet comes
      if (!load(zip.get(), strings_path, strings)) return fault_if_none();
      for (const pugi::xml_node& item : strings.xml.document_element().children())
        if (is(item, "si")) strings_.push_back(string_of(item));
    }
    if (!styles_path.empty()) {
      Part styles;
      if (!load(zip.get(), styles_path, styles)) return fault_if_none();
      day_styles_ = styles_of_days(styles.xml.document_element());
    }
    if (!load(zip.get(), sheet_path, document_)) return fault_if_none();
    const pugi::xml_node root = document_.xml.document_element();
    row_ = child(root, "sheetData").first_child();
    for (const pugi::xml_node& merged : child(root, "mergeCells").children())
      merged_.emplace_back(merged.attribute("ref").value());
  }

  const std::string& file() const { return file_; }
  int formulas() const { return formulas_; }
  int hidden() const { return hidden_; }
  const std::vector<std::string>& others() const { return others_; }

  std::optional<TableRow> next() {
    if (!faults_.empty()) {
      TableRow row;
      row.line = 1;
      row.problems = std::move(faults_);
      faults_.clear();
      row_ = pugi::xml_node();
      return row;
    }
    for (; row_; row_ = row_.next_sibling()) {
      if (!is(row_, "row")) continue;
      TableRow row = read(row_);
      const bool empty =
          row.problems.empty() && std::all_of(row.cells.begin(), row.cells.end(),
                                              [](const Cell& c) { return c.text.empty(); });
      if (empty) continue;
      if (row_.attribute("hidden").as_bool()) ++hidden_;
      if (first_) merged_head(row);
      first_ = false;
      row_ = row_.next_sibling();
      return row;
    }
    return std::nullopt;
  }

 private:
  // The sheet of the name, or the first; the others are kept to be named.
  pugi::xml_node chosen(const pugi::xml_node& sheets) {
    pugi::xml_node found;
    for (const pugi::xml_node& sheet : sheets.children()) {
      if (!is(sheet, "sheet")) continue;
      const std::string name = sheet.attribute("name").value();
      if (!found && (name_.empty() || name == name_))
        found = sheet;
      else
        others_.push_back(name);
    }
    if (found || name_.empty()) return found;
    fault({"table.no-sheet", {{"sheet", name_}}}, one_of(others_));
    return found;
  }
  void fault(Message what, Message expected) {
    faults_.push_back({file_, {0, 0}, 1, std::move(what), std::move(expected), "", ""});
  }
  void fault_if_none() {
    if (faults_.empty()) fault("table.broken-workbook", "expected.xlsx");
  }
  // What the archive says of sizes is not believed: reading stops at the bound.
  bool load(unzFile zip, const std::string& name, Part& into) {
    if (name.empty() || unzLocateFile(zip, name.c_str(), 1) != UNZ_OK ||
        unzOpenCurrentFile(zip) != UNZ_OK)
      return false;
    std::vector<char> buffer(1 << 16);
    int n = 0;
    while ((n = unzReadCurrentFile(zip, buffer.data(), static_cast<unsigned>(buffer.size()))) > 0) {
      const std::string_view read(buffer.data(), static_cast<std::size_t>(n));
      into.bytes += read;
      unpacked_ += read.size();
      marks_ += static_cast<std::size_t>(
          std::count_if(read.begin(), read.end(), [](char c) { return c == '<' || c == '='; }));
      if (unpacked_ <= largest_workbook && marks_ <= most_marks) continue;
      unzCloseCurrentFile(zip);
      fault({"table.unpacks-too-large", {{"part", name}}}, "expected.smaller-workbook");
      return false;
    }
    if (unzCloseCurrentFile(zip) != UNZ_OK || n < 0) return false;
    return static_cast<bool>(into.xml.load_buffer_inplace(
        into.bytes.data(), into.bytes.size(), pugi::parse_default | pugi::parse_ws_pcdata));
  }
  TableRow read(const pugi::xml_node& node) {
    TableRow row;
    row.in_sheet = true;
    row.line = node.attribute("r").as_int(last_ + 1);
    last_ = row.line;
    int column = 0;
    for (const pugi::xml_node& c : node.children()) {
      if (!is(c, "c")) continue;
      const int named = column_of(c.attribute("r").value());
      column = named > 0 ? named : column + 1;
      if (column > most_columns) {
        wrong(row, most_columns, "table.too-many-columns", "expected.part-number-per-row");
        break;
      }
      while (static_cast<int>(row.cells.size()) < column)
        row.cells.push_back({"", false, {static_cast<int>(row.cells.size()) + 1, 1}});
      take(c, row, column);
      const std::string& text = row.cells.back().text;
      if (showable(text, true) != text)
        wrong(row, column, "document.control-character", "expected.plain-text");
    }
    return row;
  }
  void wrong(TableRow& row, int column, Message what, Message expected) {
    Problem p;
    p.file = file_ + ", cell " + cell_of(column, row.line);
    p.what = std::move(what);
    p.expected = std::move(expected);
    row.problems.push_back(std::move(p));
  }
  // The last cell of the row, by its kind.
  void take(const pugi::xml_node& c, TableRow& row, int column) {
    Cell& cell = row.cells.back();
    const std::string type = c.attribute("t").value();
    const std::string saved = saved_value(c, row, column);
    if (type == "e") wrong(row, column, {"table.error-value", {{"text", saved}}}, "expected.value");
    if (type == "inlineStr")
      cell.text = string_of(child(c, "is"));
    else if (type == "b")
      cell.text = saved == "1" ? "yes" : "no";
    else if (type == "s")
      cell.text = shared_text(saved, row, column);
    else if (type == "d")
      cell.text = saved.substr(0, saved.find("T00:00")), cell.holds = CellHolds::day;
    else if (type == "str" || type == "e" || !read_number(saved))
      cell.text = saved;
    else
      take_number(*read_number(saved), style_of(c), cell);
  }
  std::string saved_value(const pugi::xml_node& c, TableRow& row, int column) {
    std::string text = child(c, "v").text().get();
    if (child(c, "f") && text.empty())
      wrong(row, column, "table.formula-without-value", "expected.value");
    else if (child(c, "f"))
      ++formulas_;
    return text;
  }
  std::string shared_text(const std::string& index, TableRow& row, int column) {
    const double number = read_number(index).value_or(-1);
    const bool there = number >= 0 && number < static_cast<double>(strings_.size());
    if (!there) wrong(row, column, "table.missing-text", "expected.value");
    return there ? strings_[static_cast<std::size_t>(number)] : "";
  }
  static std::size_t style_of(const pugi::xml_node& c) { return c.attribute("s").as_uint(); }
  // A number as a person would type it: 0.1, not 0.10000000000000001.
  void take_number(double number, std::size_t style, Cell& cell) const {
    const bool day = style < day_styles_.size() && day_styles_[style];
    cell.holds = day ? CellHolds::day : CellHolds::number;
    cell.text = day ? day_of_sheet(number, from_1904_) : readable(number, 15);
  }
  void merged_head(TableRow& row) {
    for (const std::string& ref : merged_)
      if (row_of(ref) == row.line)
        wrong(row, std::max(column_of(ref), 1), {"table.merged-head", {{"cells", ref}}},
              "expected.name-per-cell");
  }

  std::string file_, name_;
  Problems faults_;
  std::vector<std::string> strings_, merged_, others_;
  std::vector<bool> day_styles_;  // by index: numbers are shown as days
  Part document_;
  pugi::xml_node row_;
  std::size_t unpacked_ = 0, marks_ = 0;
  int last_ = 0, formulas_ = 0, hidden_ = 0;
  bool first_ = true, from_1904_ = false;
};

WorkbookReader::WorkbookReader(const std::string& path, std::string sheet)
    : sheet_(std::make_unique<Sheet>(path, std::move(sheet))) {}
WorkbookReader::~WorkbookReader() = default;
std::optional<TableRow> WorkbookReader::next() { return sheet_->next(); }
const std::string& WorkbookReader::file() const { return sheet_->file(); }
int WorkbookReader::formulas() const { return sheet_->formulas(); }
int WorkbookReader::hidden() const { return sheet_->hidden(); }
std::vector<std::string> WorkbookReader::other_sheets() const { return sheet_->others(); }

}  // namespace turnwright
