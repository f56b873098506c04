// SPDX-License-Identifier: MIT
#pragma once
// Parts out of a table: a row a part, in each cell the words of the part file. A family is a part
// file with named sizes as <d1>; a row names it and gives the sizes in columns of their names.
#include <map>
#include <string>
#include <vector>

#include "turnwright/document/node.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/part/part.hpp"

namespace turnwright {

class PartTable {
 public:
  /// What amounts in the rows may be written in.
  void use(Currencies currencies) { currencies_ = std::move(currencies); }
  /// The columns by the first row; all problems of it when one is unknown, missing or twice there.
  static Checked<PartTable> read_head(const std::string& file, const TableRow& head);
  /// Every column there is.
  static std::vector<std::string> known_columns();
  /// A family that rows name, read from its file; what is wrong with it is said of each such row.
  void add_family(const std::string& name, Checked<Document> family);
  bool knows_family(const std::string& name) const { return families_.contains(name); }
  /// The part of a row, or its problems, each with the column that it is in.
  Checked<Part> read(const TableRow& row) const;
  /// The text of a named column; empty when the table has none.
  std::string cell(const TableRow& row, std::string_view column) const;
  /// Of a row that is refused: what was wrong with it.
  static constexpr const char* problem_column = "problem";
  /// The columns but that of a problem.
  std::vector<std::string> columns() const;
  /// The texts of a row in these columns.
  std::vector<std::string> texts(const TableRow& row) const;

 private:
  Problems start_from_family(const TableRow& row, Node& root, class ProblemList& problems) const;

  std::string file_;
  Currencies currencies_;
  std::vector<std::string> columns_;
  std::map<std::string, Checked<Document>> families_;
};

}  // namespace turnwright
