// SPDX-License-Identifier: MIT
#include "xlsx/spreadsheet.hpp"

#include <xlsxwriter.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <unordered_set>

#include "turnwright/document/table.hpp"
#include "turnwright/output/workbook.hpp"
#include "xlsx/book_counts.hpp"
#include "xlsx/quiet.hpp"
#include "xlsx/sheet_names.hpp"

namespace turnwright {
namespace {

constexpr std::size_t longest_text = 32000, longest_formula = 8000;  // of a cell, in bytes
constexpr std::uint32_t input_fill = 0xFFF3CC, head_fill = 0xDDE3E9, grey = 0x555555,
                        red = 0xA02020;
// No clock: the same quote gives the same bytes.
constexpr std::time_t created = 315532800;
constexpr double chart_title_size = 10;
constexpr std::uint8_t paper_letter = 1, paper_a4 = 9;

lxw_row_t row_of(int row) { return static_cast<lxw_row_t>(row); }
lxw_col_t column_of(int column) { return static_cast<lxw_col_t>(column); }

struct LookFormat {
  Look look;
  const char* number = nullptr;
  bool bold = false;
  std::uint32_t fill = 0, colour = 0;
  bool wrap = false, italic = false;
  int size = 9;
  bool right = false;
};
constexpr std::array look_formats{
    LookFormat{Look::text},
    LookFormat{Look::title, nullptr, true, 0, 0, false, false, 14},
    LookFormat{Look::head, nullptr, true, head_fill, 0, true},
    LookFormat{Look::head_right, nullptr, true, head_fill, 0, true, false, 9, true},
    LookFormat{Look::label, nullptr, true},
    LookFormat{Look::wrap, nullptr, false, 0, 0, true},
    LookFormat{Look::note, nullptr, false, 0, grey, false, true},
    LookFormat{Look::warning, nullptr, true, 0, red},
    LookFormat{Look::input, "0.###", false, input_fill},
    LookFormat{Look::input_money, "#,##0.00", false, input_fill},
    LookFormat{Look::whole, "0"},
    LookFormat{Look::number1, "0.0"},
    LookFormat{Look::number, "0.00"},
    LookFormat{Look::number3, "0.000"},
    LookFormat{Look::number4, "0.0000"},
    LookFormat{Look::percent, "0 %"},
    LookFormat{Look::money, "#,##0.00"},
    LookFormat{Look::bold_money, "#,##0.00", true},
    LookFormat{Look::big, "#,##0.00", true, 0, 0, false, false, 12},
    LookFormat{Look::big_whole, "#,##0", true, 0, 0, false, false, 12},
    LookFormat{Look::input_percent, "0.0 %", false, input_fill},
    LookFormat{Look::day, "ddd d mmm yyyy"},
    LookFormat{Look::moment, "ddd d mmm hh:mm"}};

// Everywhere, or a font of the same widths (Liberation Sans).
void set_font(lxw_format* format, double size) {
  format_set_font_name(format, "Arial");
  format_set_font_size(format, size);
}

lxw_format* add_format(lxw_workbook* book, const LookFormat& look) {
  lxw_format* f = workbook_add_format(book);
  set_font(f, look.size);
  if (look.number != nullptr) format_set_num_format(f, look.number);
  if (look.bold) format_set_bold(f);
  if (look.italic) format_set_italic(f);
  if (look.colour != 0) format_set_font_color(f, look.colour);
  if (look.fill != 0) {
    format_set_bg_color(f, look.fill);
    if (look.fill == input_fill) format_set_border(f, LXW_BORDER_HAIR);
  }
  if (look.right) format_set_align(f, LXW_ALIGN_RIGHT);
  format_set_align(f, LXW_ALIGN_VERTICAL_CENTER);
  if (look.wrap) format_set_text_wrap(f);
  return f;
}

// What a cell holds of a text, never a part of a character.
std::string fitting(const std::string& text) {
  if (text.size() <= longest_text) return text;
  std::size_t end = longest_text;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return text.substr(0, end);
}

std::vector<std::string> references(const std::vector<std::string>& names) {
  std::vector<std::string> list;
  list.reserve(names.size());
  for (const std::string& name : names) list.push_back(reference_of(name));
  return list;
}

std::string column_letters(int column) {
  std::string letters = cell_name(0, column);
  letters.pop_back();  // the 1 of its row
  return letters;
}

}  // namespace

// The library's book with what was written into it.
struct Spreadsheet::Library {
  std::string path;
  bool streamed = false;
  lxw_workbook* book = nullptr;
  std::vector<lxw_worksheet*> sheets;
  std::array<lxw_format*, look_formats.size()> formats{};
  BookCounts counts;
  std::unordered_set<std::string> strings;

  Library(const std::string& file, Storage storage)
      : path(file), streamed(storage == Storage::streamed) {
    lxw_workbook_options options{};
    options.constant_memory = streamed ? LXW_TRUE : LXW_FALSE;
    book = workbook_new_opt(path.c_str(), &options);
    if (book == nullptr) fail();
    lxw_doc_properties properties{};
    properties.created = created;
    workbook_set_properties(book, &properties);
    // The first is the book's own: widths of columns are counted in its digits, 7 pixels each.
    set_font(STAILQ_FIRST(book->formats), 10);
    for (const LookFormat& look : look_formats)
      formats[static_cast<std::size_t>(look.look)] = add_format(book, look);
  }
  Library(const Library&) = delete;
  Library& operator=(const Library&) = delete;
  ~Library() {
    if (book != nullptr) lxw_workbook_free(book);
  }

  [[noreturn]] void fail() const { throw CannotWrite({"xlsx.cannot-write", {{"path", path}}}); }
  void check(lxw_error error) const {
    if (error != LXW_NO_ERROR) fail();
  }
  void add_sheet(const std::string& name) {
    lxw_worksheet* added = workbook_add_worksheet(book, name.c_str());
    if (added == nullptr) fail();
    sheets.push_back(added);
    counts.sheets.emplace_back();
  }
  lxw_worksheet* sheet(int i) const { return sheets[static_cast<std::size_t>(i)]; }
  SheetCounts& count(int i) { return counts.sheets[static_cast<std::size_t>(i)]; }
  lxw_format* format(Look look) const { return formats[static_cast<std::size_t>(look)]; }
  void count_text(int i, const std::string& text, std::size_t cells) {
    count(i).cells += cells;
    ++count(i).texts;
    // In a streamed book each cell has its own.
    if (!streamed && strings.insert(text).second) ++counts.strings;
  }
};

std::string cell_name(int row, int column) { return cell_of(column + 1, row + 1); }

Spreadsheet::Spreadsheet(const std::string& path, const std::vector<std::string>& sheets,
                         Storage storage)
    : path_(path),
      names_(sheet_names(sheets)),
      record_(references(names_)),
      library_(std::make_unique<Library>(path, storage)) {
  for (const std::string& name : names_) library_->add_sheet(name);
}

Spreadsheet::~Spreadsheet() = default;

void Spreadsheet::text(int sheet, int row, int column, const std::string& text, Look look) {
  if (text.empty()) return;
  const std::string fits = fitting(text);
  library_->check(worksheet_write_string(library_->sheet(sheet), row_of(row), column_of(column),
                                         fits.c_str(), library_->format(look)));
  library_->count_text(sheet, fits, 1);
}

void Spreadsheet::blank(int sheet, int row, int column, Look look) {
  library_->check(worksheet_write_blank(library_->sheet(sheet), row_of(row), column_of(column),
                                        library_->format(look)));
  ++library_->count(sheet).cells;
}

void Spreadsheet::wide_text(int sheet, int row, int from, int to, const std::string& text,
                            Look look) {
  if (text.empty()) return;
  const std::string fits = fitting(text);
  library_->check(worksheet_merge_range(library_->sheet(sheet), row_of(row), column_of(from),
                                        row_of(row), column_of(to), fits.c_str(),
                                        library_->format(look)));
  library_->count_text(sheet, fits, static_cast<std::size_t>(to - from + 1));
}

void Spreadsheet::value(int sheet, int row, int column, double number, Look look) {
  if (!std::isfinite(number)) {
    text(sheet, row, column, "∞");
    return;
  }
  library_->check(worksheet_write_number(library_->sheet(sheet), row_of(row), column_of(column),
                                         number, library_->format(look)));
  ++library_->count(sheet).cells;
}

Expression Spreadsheet::input_si(int sheet, int row, int column, double si, const Unit& unit,
                                 Look look, const std::string& name) {
  value(sheet, row, column, shown(si, unit), look);
  if (name.empty()) return record_.leaf(cell_name(row, column), si, unit, sheet);
  const std::string target = "=" + record_.sheets()[static_cast<std::size_t>(sheet)] + "!$" +
                             column_letters(column) + "$" + std::to_string(row + 1);
  library_->check(workbook_define_name(library_->book, name.c_str(), target.c_str()));
  return record_.leaf(name, si, unit, -1);
}

void Spreadsheet::plain_formula(int sheet, int row, int column, const std::string& formula,
                                double value, Look look) {
  if (!std::isfinite(value) || formula.size() > longest_formula) library_->fail();
  library_->check(worksheet_write_formula_num(library_->sheet(sheet), row_of(row),
                                              column_of(column), formula.c_str(),
                                              library_->format(look), value));
  ++library_->count(sheet).cells;
  ++library_->count(sheet).formulas;
}

Expression Spreadsheet::formula_si(int sheet, int row, int column, Expression r, const Unit& unit,
                                   Look look) {
  plain_formula(sheet, row, column, a1(record_, r, unit, sheet), shown(r.value, unit), look);
  if (r.record == nullptr) return record_.leaf(cell_name(row, column), r.value, unit, sheet);
  record_.place(r, cell_name(row, column), unit, sheet);
  return r;
}

Expression Spreadsheet::sum_si(int sheet, int column, int from, int to, double si, const Unit& unit,
                               int on_sheet) {
  const std::string prefix =
      sheet == on_sheet ? "" : record_.sheets()[static_cast<std::size_t>(sheet)] + "!";
  return record_.call("SUM(" + prefix + cell_name(from, column) + ":" + cell_name(to, column) + ")",
                      si, unit);
}

void Spreadsheet::warn_above(int sheet, int row, int column, const std::string& formula) {
  lxw_conditional_format rule{};
  std::string value = formula;
  rule.type = LXW_CONDITIONAL_TYPE_CELL;
  rule.criteria = LXW_CONDITIONAL_CRITERIA_GREATER_THAN;
  rule.value_string = value.data();
  rule.format = library_->format(Look::warning);
  library_->check(worksheet_conditional_format_cell(library_->sheet(sheet), row_of(row),
                                                    column_of(column), &rule));
}

void Spreadsheet::colour_where(const CellRange& cells, const std::string& text, unsigned colour) {
  lxw_format* format = workbook_add_format(library_->book);
  format_set_bg_color(format, colour);
  lxw_conditional_format rule{};
  std::string value = "\"" + text + "\"";
  rule.type = LXW_CONDITIONAL_TYPE_CELL;
  rule.criteria = LXW_CONDITIONAL_CRITERIA_EQUAL_TO;
  rule.value_string = value.data();
  rule.format = format;
  library_->check(worksheet_conditional_format_range(
      library_->sheet(cells.sheet), row_of(cells.first_row), column_of(cells.first_column),
      row_of(cells.last_row), column_of(cells.last_column), &rule));
}

void Spreadsheet::chart(int sheet, int row, int column, const ColumnChart& wanted) {
  lxw_chart* chart = workbook_add_chart(library_->book, LXW_CHART_COLUMN);
  for (const auto& [name, name_cell, x, y] : wanted.series) {
    lxw_chart_series* series = chart_add_series(chart, nullptr, nullptr);
    chart_series_set_categories(series, names_[static_cast<std::size_t>(x.sheet)].c_str(),
                                row_of(x.first_row), column_of(x.first_column), row_of(x.last_row),
                                column_of(x.last_column));
    chart_series_set_values(series, names_[static_cast<std::size_t>(y.sheet)].c_str(),
                            row_of(y.first_row), column_of(y.first_column), row_of(y.last_row),
                            column_of(y.last_column));
    if (name_cell)
      chart_series_set_name_range(series,
                                  names_[static_cast<std::size_t>(name_cell->sheet)].c_str(),
                                  row_of(name_cell->first_row), column_of(name_cell->first_column));
    else
      chart_series_set_name(series, name.c_str());
    ++library_->counts.series;
  }
  chart_title_set_name(chart, wanted.title.c_str());
  lxw_chart_font small{};
  small.size = chart_title_size;
  small.bold = LXW_TRUE;
  chart_title_set_name_font(chart, &small);
  if (!wanted.x_axis.empty()) chart_axis_set_name(chart->x_axis, wanted.x_axis.c_str());
  chart_axis_set_name(chart->y_axis, wanted.y_axis.c_str());
  if (!wanted.legend) chart_legend_set_position(chart, LXW_CHART_LEGEND_NONE);
  const ColumnChart standard;
  lxw_chart_options size{};
  size.x_scale = wanted.width / standard.width;
  size.y_scale = wanted.height / standard.height;
  library_->check(worksheet_insert_chart_opt(library_->sheet(sheet), row_of(row), column_of(column),
                                             chart, &size));
}

void Spreadsheet::picture(int sheet, int row, int column, const std::string& png, double scale,
                          const std::string& what) {
  lxw_image_options options{};
  std::string description = what;
  options.x_scale = scale;
  options.y_scale = scale;
  options.description = description.data();
  options.object_position = LXW_OBJECT_MOVE_DONT_SIZE;
  const Quiet quiet;
  library_->check(worksheet_insert_image_buffer_opt(
      library_->sheet(sheet), row_of(row), column_of(column),
      reinterpret_cast<const unsigned char*>(png.data()), png.size(), &options));
  library_->counts.picture_bytes += png.size();
}

void Spreadsheet::widths(int sheet, const std::vector<double>& widths) {
  for (int i = 0; i < static_cast<int>(widths.size()); ++i)
    width(sheet, i, i, widths[static_cast<std::size_t>(i)]);
}

void Spreadsheet::width(int sheet, int first_column, int last_column, double width) {
  library_->check(worksheet_set_column(library_->sheet(sheet), column_of(first_column),
                                       column_of(last_column), width, nullptr));
}

void Spreadsheet::group(int sheet, int from, const std::vector<double>& widths) {
  lxw_row_col_options group{};
  group.level = 1;
  for (int i = from; i < static_cast<int>(widths.size()); ++i)
    library_->check(worksheet_set_column_opt(library_->sheet(sheet), column_of(i), column_of(i),
                                             widths[static_cast<std::size_t>(i)], nullptr, &group));
}

void Spreadsheet::height(int sheet, int row, double points) {
  library_->check(worksheet_set_row(library_->sheet(sheet), row_of(row), points, nullptr));
}

void Spreadsheet::filter(const CellRange& cells) {
  library_->check(worksheet_autofilter(library_->sheet(cells.sheet), row_of(cells.first_row),
                                       column_of(cells.first_column), row_of(cells.last_row),
                                       column_of(cells.last_column)));
}

void Spreadsheet::page(int sheet, const PageSetup& setup) {
  lxw_worksheet* s = library_->sheet(sheet);
  worksheet_set_paper(s, setup.letter ? paper_letter : paper_a4);
  worksheet_fit_to_pages(s, 1, setup.one_page ? 1 : 0);
  if (setup.landscape) worksheet_set_landscape(s);
  if (setup.repeated_row >= 0)
    library_->check(
        worksheet_repeat_rows(s, row_of(setup.repeated_row), row_of(setup.repeated_row)));
  if (setup.freeze)
    worksheet_freeze_panes(s, row_of(setup.repeated_row + 1), column_of(setup.frozen_columns));
  if (setup.printed_columns > 0)
    library_->check(
        worksheet_print_area(s, 0, 0, row_of(setup.rows), column_of(setup.printed_columns - 1)));
  if (!setup.grid) worksheet_gridlines(s, LXW_HIDE_ALL_GRIDLINES);
  if (setup.footer.empty()) return;
  library_->check(worksheet_set_footer(s, ("&L&A&R" + setup.footer).c_str()));
}

void Spreadsheet::show(int sheet) { worksheet_activate(library_->sheet(sheet)); }

void Spreadsheet::close() {
  lxw_workbook* closing = library_->book;
  library_->book = nullptr;  // the library frees it, whatever happens
  {
    const Quiet quiet;
    library_->check(workbook_close(closing));
  }
  if (counts_of(path_) != library_->counts) throw CannotWrite({"xlsx.damaged", {{"path", path_}}});
}

}  // namespace turnwright
