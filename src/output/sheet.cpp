// SPDX-License-Identifier: MIT
#include "sheet.hpp"

#include <cmath>

#include "turnwright/document/table.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright {
namespace {

lxw_row_t row_of(int row) { return static_cast<lxw_row_t>(row); }
lxw_col_t column_of(int column) { return static_cast<lxw_col_t>(column); }

lxw_format* format(lxw_workbook* book, const char* number, bool bold, std::uint32_t fill) {
  lxw_format* f = workbook_add_format(book);
  if (number != nullptr) format_set_num_format(f, number);
  if (bold) format_set_bold(f);
  if (fill != 0) {
    format_set_bg_color(f, fill);
    format_set_border(f, LXW_BORDER_HAIR);
  }
  format_set_font_name(f, "Liberation Sans");
  format_set_font_size(f, 9);
  return f;
}

constexpr std::uint32_t input_fill = 0xFFF3CC, head_fill = 0xDDE3E9;

}  // namespace

std::string cell_name(int row, int column) { return cell_of(column + 1, row + 1); }

Spreadsheet::Spreadsheet(const std::string& path, const std::vector<std::string>& sheets)
    : names_(sheets), record_(sheets) {
  book_ = workbook_new(path.c_str());
  if (book_ == nullptr) throw CannotWrite(path + ": cannot be written");
  lxw_doc_properties properties{};
  // No clock: the same quote gives the same bytes.
  properties.created = 315532800;
  workbook_set_properties(book_, &properties);
  for (const std::string& name : sheets) {
    lxw_worksheet* s = workbook_add_worksheet(book_, name.c_str());
    if (s == nullptr) throw CannotWrite(path + ": a sheet cannot be made");
    sheets_.push_back(s);
  }
  auto make = [&](const char* number, bool bold, std::uint32_t fill) {
    return format(book_, number, bold, fill);
  };
  formats_.title = make(nullptr, true, 0);
  format_set_font_size(formats_.title, 14);
  formats_.head = make(nullptr, true, head_fill);
  format_set_text_wrap(formats_.head);
  format_set_align(formats_.head, LXW_ALIGN_VERTICAL_TOP);
  formats_.label = make(nullptr, true, 0);
  formats_.text = make(nullptr, false, 0);
  formats_.wrap = make(nullptr, false, 0);
  format_set_text_wrap(formats_.wrap);
  format_set_align(formats_.wrap, LXW_ALIGN_VERTICAL_TOP);
  formats_.note = make(nullptr, false, 0);
  format_set_italic(formats_.note);
  format_set_font_color(formats_.note, 0x555555);
  formats_.input = make("0.###", false, input_fill);
  formats_.input2 = make("#,##0.00", false, input_fill);
  formats_.money = make("#,##0.00", false, 0);
  formats_.bold_money = make("#,##0.00", true, 0);
  formats_.number = make("0.00", false, 0);
  formats_.number3 = make("0.000", false, 0);
  formats_.percent = make("0 %", false, 0);
  formats_.whole = make("0", false, 0);
  formats_.warning = make(nullptr, true, 0);
  format_set_font_color(formats_.warning, 0xA02020);
}

Spreadsheet::~Spreadsheet() {
  if (book_ != nullptr) lxw_workbook_free(book_);
}

void Spreadsheet::check(lxw_error error) {
  if (error != LXW_NO_ERROR)
    throw CannotWrite(std::string("the workbook cannot be written: ") + lxw_strerror(error));
}

void Spreadsheet::text(int sheet, int row, int column, const std::string& text,
                       lxw_format* format) {
  // 32,767 characters is the cell's limit.
  const std::string fits = text.size() > 32000 ? text.substr(0, 32000) : text;
  check(worksheet_write_string(sheets_[static_cast<std::size_t>(sheet)], row_of(row),
                               column_of(column), fits.c_str(),
                               format == nullptr ? formats_.text : format));
}

void Spreadsheet::value(int sheet, int row, int column, double number, lxw_format* format) {
  if (!std::isfinite(number)) {
    text(sheet, row, column, "unlimited");
    return;
  }
  check(worksheet_write_number(sheets_[static_cast<std::size_t>(sheet)], row_of(row),
                               column_of(column), number, format));
}

Expression Spreadsheet::input_si(int sheet, int row, int column, double si, const Unit& unit,
                                 lxw_format* format, const std::string& name) {
  value(sheet, row, column, shown(si, unit), format);
  if (name.empty()) return record_.leaf(cell_name(row, column), si, unit, sheet);
  std::string letters;
  for (const char c : cell_name(0, column))
    if (c >= 'A') letters += c;
  std::string target = "=" + names_[static_cast<std::size_t>(sheet)];
  target += "!$" + letters + "$" + std::to_string(row + 1);
  check(workbook_define_name(book_, name.c_str(), target.c_str()));
  return record_.leaf(name, si, unit, -1);
}

Expression Spreadsheet::formula_si(int sheet, int row, int column, Expression r, const Unit& unit,
                                   lxw_format* format) {
  const std::string text = a1(record_, r, unit, sheet);
  const double cached = shown(r.value, unit);
  if (!std::isfinite(cached)) throw CannotWrite("a formula without a finite value: " + text);
  if (text.size() > 8000) throw CannotWrite("a formula longer than a cell holds");
  check(worksheet_write_formula_num(sheets_[static_cast<std::size_t>(sheet)], row_of(row),
                                    column_of(column), text.c_str(), format, cached));
  if (r.record == nullptr) return record_.leaf(cell_name(row, column), r.value, unit, sheet);
  record_.place(r, cell_name(row, column), unit, sheet);
  return r;
}

Expression Spreadsheet::sum_si(int sheet, int column, int from, int to, double si, const Unit& unit,
                               int on_sheet) {
  const std::string prefix = sheet == on_sheet ? "" : names_[static_cast<std::size_t>(sheet)] + "!";
  return record_.call("SUM(" + prefix + cell_name(from, column) + ":" + cell_name(to, column) + ")",
                      si, unit);
}

void Spreadsheet::widths(int sheet, const std::vector<double>& widths) {
  for (std::size_t i = 0; i < widths.size(); ++i)
    check(worksheet_set_column(sheets_[static_cast<std::size_t>(sheet)], static_cast<lxw_col_t>(i),
                               static_cast<lxw_col_t>(i), widths[i], nullptr));
}

void Spreadsheet::close() {
  lxw_workbook* closing = book_;
  book_ = nullptr;
  check(workbook_close(closing));
}

}  // namespace turnwright
