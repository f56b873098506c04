// SPDX-License-Identifier: MIT
#pragma once
// The only place that knows the spreadsheet library: a book with checked calls, sheets whose cells
// are inputs, plain values or live formulas.
#include <xlsxwriter.h>

#include <deque>
#include <string>
#include <vector>

#include "turnwright/figure/recorded.hpp"

namespace turnwright {

struct Formats {
  lxw_format *title, *head, *label, *wrap, *text, *input, *input2, *money, *number, *number3,
      *percent, *whole, *bold_money, *warning, *note;
};

class Spreadsheet {
 public:
  Spreadsheet(const std::string& path, const std::vector<std::string>& sheets);
  ~Spreadsheet();
  Spreadsheet(const Spreadsheet&) = delete;
  Spreadsheet& operator=(const Spreadsheet&) = delete;

  lxw_worksheet* sheet(int i) { return sheets_[static_cast<std::size_t>(i)]; }
  lxw_workbook* raw() { return book_; }
  ExpressionGraph& record() { return record_; }
  const Formats& formats() const { return formats_; }
  const std::string& name(int i) const { return names_[static_cast<std::size_t>(i)]; }

  void text(int sheet, int row, int column, const std::string& text, lxw_format* format = nullptr);
  void value(int sheet, int row, int column, double number, lxw_format* format);
  /// An input cell (coloured); with a name it is a defined name of the book.
  template <Dim D>
  Quantity<D, Expression> input(int sheet, int row, int column, Quantity<D> q, const Unit& unit,
                                lxw_format* format, const std::string& name = "") {
    return Quantity<D, Expression>(input_si(sheet, row, column, q.si, unit, format, name));
  }
  /// A live formula with its cached value; later formulas refer to the cell.
  template <Dim D>
  Quantity<D, Expression> formula(int sheet, int row, int column, Quantity<D, Expression> q,
                                  const Unit& unit, lxw_format* format) {
    return Quantity<D, Expression>(formula_si(sheet, row, column, q.si, unit, format));
  }
  /// The sum of a column's cells from one row to another.
  template <Dim D>
  Quantity<D, Expression> sum(int sheet, int column, int from, int to, Quantity<D> value,
                              const Unit& unit, int on_sheet) {
    return Quantity<D, Expression>(sum_si(sheet, column, from, to, value.si, unit, on_sheet));
  }
  void widths(int sheet, const std::vector<double>& widths);
  /// Closes the book; throws CannotWrite.
  void close();

 private:
  Expression input_si(int sheet, int row, int column, double si, const Unit& unit,
                      lxw_format* format, const std::string& name);
  Expression formula_si(int sheet, int row, int column, Expression r, const Unit& unit,
                        lxw_format* format);
  Expression sum_si(int sheet, int column, int from, int to, double si, const Unit& unit,
                    int on_sheet);
  void check(lxw_error error);

  lxw_workbook* book_ = nullptr;
  std::vector<lxw_worksheet*> sheets_;
  std::vector<std::string> names_;
  ExpressionGraph record_;
  Formats formats_{};
};

/// "B7".
std::string cell_name(int row, int column);

}  // namespace turnwright
