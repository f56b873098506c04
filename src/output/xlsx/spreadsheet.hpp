// SPDX-License-Identifier: MIT
#pragma once
// A workbook of inputs, plain values and live formulas. Its source is the only place that knows the
// spreadsheet library. What is written is counted, and the closed file must hold as much.
// Sheets, rows and columns count from 0.
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "turnwright/figure/recorded.hpp"

namespace turnwright {

/// How a cell looks. Inputs are coloured; `number3` has three decimals.
enum class Look {
  text,
  title,
  head,
  head_right,  // over numbers
  label,
  wrap,
  note,
  warning,
  input,
  input_money,
  whole,
  number1,
  number,
  number3,
  number4,
  percent,
  money,
  bold_money,
  big,        // a price that is read first
  big_whole,  // and the quantity beside it
  input_percent,
  day,    // a number of days since 1899-12-30, as spreadsheet programs count them
  moment  // the same with the time of the day
};

/// Cells of a sheet, both ends included.
struct CellRange {
  int sheet = 0, first_row = 0, first_column = 0, last_row = 0, last_column = 0;
};

struct ColumnChart {
  struct Series {
    std::string name;                    // or the cell that has it
    std::optional<CellRange> name_cell;  // one cell
    CellRange categories, values;
  };
  std::string title, x_axis, y_axis;
  std::vector<Series> series;
  bool legend = true;
  double width = 480, height = 288;  // in pixels
};

struct PageSetup {
  bool letter = false, landscape = true;
  bool one_page = false;              // else as many as it takes, one wide
  int repeated_row = -1;              // on every page
  bool freeze = false;                // what stands above the end of the repeated row
  int frozen_columns = 0;             // beside it
  int printed_columns = 0, rows = 0;  // only these are on paper, the rest is grouped; 0: all
  bool grid = true;
  std::string footer;  // at the right, "&P" and "&N" are page and pages; none when empty
};

class Spreadsheet {
 public:
  /// `streamed`: cells go to disk row by row, so that memory does not grow with them.
  enum class Storage { whole, streamed };
  /// Names of sheets are made such as programs take. Throws CannotWrite, as everything here.
  Spreadsheet(const std::string& path, const std::vector<std::string>& sheets,
              Storage storage = Storage::whole);
  ~Spreadsheet();
  Spreadsheet(const Spreadsheet&) = delete;
  Spreadsheet& operator=(const Spreadsheet&) = delete;

  ExpressionGraph& record() { return record_; }

  /// A text stays a text, whatever it begins with; nothing is written for an empty one.
  void text(int sheet, int row, int column, const std::string& text, Look look = Look::text);
  /// A cell with a look and nothing in it.
  void blank(int sheet, int row, int column, Look look);
  /// A text over several cells of a row.
  void wide_text(int sheet, int row, int from, int to, const std::string& text, Look look);
  void value(int sheet, int row, int column, double number, Look look);
  /// An input cell; with a name it is a defined name of the book.
  template <Dim D>
  Quantity<D, Expression> input(int sheet, int row, int column, Quantity<D> q, const Unit& unit,
                                Look look, const std::string& name = "") {
    return Quantity<D, Expression>(input_si(sheet, row, column, q.si, unit, look, name));
  }
  /// A live formula with its cached value; later formulas refer to the cell.
  template <Dim D>
  Quantity<D, Expression> formula(int sheet, int row, int column, Quantity<D, Expression> q,
                                  const Unit& unit, Look look) {
    return Quantity<D, Expression>(formula_si(sheet, row, column, q.si, unit, look));
  }
  /// A formula as it stands in the cell, "=" included, with its value.
  void plain_formula(int sheet, int row, int column, const std::string& formula, double value,
                     Look look);
  /// The sum of a column's cells from one row to another.
  template <Dim D>
  Quantity<D, Expression> sum(int sheet, int column, int from, int to, Quantity<D> value,
                              const Unit& unit, int on_sheet) {
    return Quantity<D, Expression>(sum_si(sheet, column, from, to, value.si, unit, on_sheet));
  }

  /// Stands out where it is more than the formula says ("=B7*1.001").
  void warn_above(int sheet, int row, int column, const std::string& formula);
  /// A ground where the cell holds the text.
  void colour_where(const CellRange& cells, const std::string& text, unsigned colour);
  void chart(int sheet, int row, int column, const ColumnChart& chart);
  /// A PNG, so many times as large as it is; `what` is read where it cannot be seen.
  void picture(int sheet, int row, int column, const std::string& png, double scale,
               const std::string& what);
  void widths(int sheet, const std::vector<double>& widths);
  void width(int sheet, int first_column, int last_column, double width);
  /// Columns from one on can be folded away together.
  void group(int sheet, int from, const std::vector<double>& widths);
  void height(int sheet, int row, double points);
  void filter(const CellRange& cells);
  void page(int sheet, const PageSetup& setup);
  void show(int sheet);

  /// Closes the book and reads it back.
  void close();

 private:
  struct Library;
  Expression input_si(int sheet, int row, int column, double si, const Unit& unit, Look look,
                      const std::string& name);
  Expression formula_si(int sheet, int row, int column, Expression r, const Unit& unit, Look look);
  Expression sum_si(int sheet, int column, int from, int to, double si, const Unit& unit,
                    int on_sheet);

  std::string path_;
  std::vector<std::string> names_;
  ExpressionGraph record_;
  std::unique_ptr<Library> library_;
};

/// "B7".
std::string cell_name(int row, int column);

}  // namespace turnwright
