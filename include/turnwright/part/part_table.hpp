// SPDX-License-Identifier: MIT
#pragma once
// Parts out of a table: a row a part, in each cell the words of the part file. A family is a part
// file with named sizes as <d1>; a row names it and gives the sizes in columns of their names.
#include <map>
#include <set>
#include <string>
#include <vector>

#include "turnwright/document/node.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/part/part.hpp"

namespace turnwright {

class ProblemList;

/// Headings that mean a column, as plain_heading writes them, beside the columns' own names.
using HeadingWords = std::map<std::string, std::string>;
/// Small letters, single blanks, without marks, and without a unit in brackets.
std::string plain_heading(std::string_view text);
/// The columns that a list may have: its name in a file, and what headings call it, parted by bars.
struct ListColumn {
  std::string name;
  Message headings;
};
std::vector<ListColumn> list_columns();

/// The column that a heading names, by its own name or by a word of the lists; "" for none.
std::string column_named(const std::string& heading, const std::vector<ListColumn>& columns,
                         const HeadingWords& words);
/// Those that the cells of a row name.
std::set<std::string> columns_named(const TableRow& row, const std::vector<ListColumn>& columns,
                                    const HeadingWords& words);
/// A problem for each column that is needed and is not there.
void require_columns(const std::vector<std::string>& columns,
                     const std::vector<std::string>& needed, ProblemList& problems);

/// How a customer's lists are laid out, from a file that is written once for him.
struct ListLayout {
  std::string sheet;      // of a workbook; empty: the first
  HeadingWords headings;  // as plain_heading writes them
  bool inch = false;      // sizes, where no row says its units
};
Checked<ListLayout> read_list_layout(std::string file, std::string_view text);

class PartTable {
 public:
  /// What sizes are in where neither a heading nor the row says it.
  void use_inches(bool inch) { inch_ = inch_ || inch; }
  /// What amounts in the rows may be written in.
  void use(Currencies currencies) { currencies_ = std::move(currencies); }
  /// The columns by the first row; all problems of it when one is unknown, missing or twice there.
  static Checked<PartTable> read_head(const std::string& file, const TableRow& head,
                                      const HeadingWords& words = {});
  /// Whether the row names columns: a part's number or family, and one more at least.
  static bool is_head(const TableRow& row, const HeadingWords& words);
  /// How these rows write decimals, from the cells that hold sizes; said in notes().
  void find_convention(const std::vector<TableRow>& rows);
  /// What of the list is not read, and how its numbers are.
  const Messages& notes() const { return notes_; }
  /// What tells two rows of one number apart: all that the part is, without quantities and notes.
  std::string identity(const TableRow& row) const;
  /// A family that rows name, read from its file; what is wrong with it is said of each such row.
  void add_family(const std::string& name, Checked<Document> family);
  bool knows_family(const std::string& name) const { return families_.contains(name); }
  /// The part of a row, or its problems, each with the column that it is in.
  Checked<Part> read(const TableRow& row) const;
  /// Problems of a row's part, in the file: what is wrong in a family's text stands at the row's
  /// family.
  Problems in_row(Problems problems, const TableRow& row) const;
  /// The text of a named column; empty when the table has none.
  std::string cell(const TableRow& row, std::string_view column) const;
  /// Of a row that is refused: what was wrong with it.
  static constexpr const char* problem_column = "problem";
  /// The columns but that of a problem.
  std::vector<std::string> columns() const;
  /// The texts of a row in these columns.
  std::vector<std::string> texts(const TableRow& row) const;

 private:
  using NamedCells = std::vector<std::pair<std::string, Cell>>;  // by their columns
  NamedCells read_cells(const TableRow& row, ProblemList& problems) const;
  Problems start_from_family(const NamedCells& cells, Node& root, ProblemList& problems) const;
  void check_quantity(const TableRow& row, const Node& root, ProblemList& problems) const;
  std::string as_written(const std::string& column, const Cell& cell) const;

  std::string file_;
  Currencies currencies_;
  std::vector<std::string> columns_;  // "" for one that is not read
  Messages notes_;
  bool has_commas_ = false;     // somewhere for decimals: "1.000" may be a thousand
  bool decimal_comma_ = false;  // and no point for decimals
  bool inch_ = false;
  std::map<std::string, Checked<Document>> families_;
};

}  // namespace turnwright
