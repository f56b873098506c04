// SPDX-License-Identifier: MIT
#include <xlsxwriter.h>

#include <algorithm>
#include <array>

#include "turnwright/output/price_table.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright {
namespace {

constexpr std::uint32_t head_fill = 0xDDE3E9;
constexpr std::array number_formats{"0", "0.0", "#,##0.00", "0.000", "0.0000"};

}  // namespace

class PriceBook::Sheet {
 public:
  explicit Sheet(const std::string& path) : path_(path) {
    lxw_workbook_options options{};
    options.constant_memory = LXW_TRUE;
    book_ = workbook_new_opt(path.c_str(), &options);
    if (book_ == nullptr) throw CannotWrite(path + ": cannot be written");
    lxw_doc_properties properties{};
    properties.created = 315532800;  // no clock: the same list gives the same bytes
    workbook_set_properties(book_, &properties);
    sheet_ = workbook_add_worksheet(book_, "Prices");
    if (sheet_ == nullptr) throw CannotWrite(path + ": a sheet cannot be made");
    for (const char* format : number_formats) formats_.push_back(made(format));
    text_ = made(nullptr);
    lxw_format* head = made(nullptr);
    format_set_bold(head);
    format_set_bg_color(head, head_fill);
    format_set_text_wrap(head);
    worksheet_set_row(sheet_, 0, 26, nullptr);
    worksheet_freeze_panes(sheet_, 1, 1);
    worksheet_repeat_rows(sheet_, 0, 0);
    worksheet_set_landscape(sheet_);
    worksheet_set_paper(sheet_, 9);
    worksheet_fit_to_pages(sheet_, 1, 0);
    worksheet_set_footer(sheet_, "&L&A&RPage &P of &N");
    const auto& columns = price_columns();
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const auto column = static_cast<lxw_col_t>(i);
      worksheet_set_column(sheet_, column, column, columns[i] == "not confirmed" ? 40 : 12,
                           nullptr);
    }
    for (std::size_t i = 0; i < columns.size(); ++i)
      check(worksheet_write_string(sheet_, 0, static_cast<lxw_col_t>(i), columns[i].c_str(), head));
  }
  Sheet(const Sheet&) = delete;
  Sheet& operator=(const Sheet&) = delete;
  ~Sheet() {
    if (book_ != nullptr) lxw_workbook_free(book_);
  }

  void add(const PriceRow& row) {
    ++row_;
    for (std::size_t i = 0; i < row.size(); ++i) {
      const PriceCell& cell = row[i];
      const auto column = static_cast<lxw_col_t>(i);
      const auto places =
          static_cast<std::size_t>(std::clamp<int>(cell.places, 0, number_formats.size() - 1));
      // A text is a text, whatever it begins with.
      if (cell.number)
        check(worksheet_write_number(sheet_, row_, column, *cell.number, formats_[places]));
      else if (!cell.text.empty())
        check(worksheet_write_string(sheet_, row_, column, cell.text.substr(0, 32000).c_str(),
                                     text_));
    }
  }
  void close() {
    worksheet_autofilter(sheet_, 0, 0, std::max<lxw_row_t>(row_, 1),
                         static_cast<lxw_col_t>(price_columns().size() - 1));
    lxw_workbook* closing = book_;
    book_ = nullptr;
    check(workbook_close(closing));
  }

 private:
  lxw_format* made(const char* number) {
    lxw_format* f = workbook_add_format(book_);
    if (number != nullptr) format_set_num_format(f, number);
    format_set_font_name(f, "Liberation Sans");
    format_set_font_size(f, 9);
    return f;
  }
  void check(lxw_error error) const {
    if (error != LXW_NO_ERROR)
      throw CannotWrite(path_ + ": cannot be written: " + lxw_strerror(error));
  }

  std::string path_;
  lxw_workbook* book_ = nullptr;
  lxw_worksheet* sheet_ = nullptr;
  std::vector<lxw_format*> formats_;
  lxw_format* text_ = nullptr;
  lxw_row_t row_ = 0;
};

PriceBook::PriceBook(const std::string& path) : sheet_(std::make_unique<Sheet>(path)) {}
PriceBook::~PriceBook() = default;
void PriceBook::add(const PriceRow& row) { sheet_->add(row); }
void PriceBook::close() { sheet_->close(); }

}  // namespace turnwright
