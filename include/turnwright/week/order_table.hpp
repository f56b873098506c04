// SPDX-License-Identifier: MIT
#pragma once
// Orders out of a table: a row an order, in each cell the words of the week file.
#include <string>
#include <unordered_set>
#include <vector>

#include "turnwright/document/table.hpp"
#include "turnwright/part/part_table.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {

inline constexpr std::size_t most_orders = 10'000;  // in the plan of a shop
/// Those that the week has by now.
using OrderNumbers = std::unordered_set<std::string>;

/// The columns that a list of orders may have.
std::vector<ListColumn> order_columns();
/// Words for the state of an order, as `plain_heading` writes them, beside those of a week file.
std::vector<ListColumn> order_states();

/// Words of lists in the reader's languages.
struct OrderWords {
  HeadingWords headings, states;
};

class OrderTable {
 public:
  /// Whether the row names columns: an order, and one more at least.
  static bool is_head(const TableRow& row, const OrderWords& words);
  /// The columns by their headings; all problems of them.
  static Checked<OrderTable> read_head(const std::string& file, const TableRow& head,
                                       const OrderWords& words);
  /// What of the list is not read.
  const Messages& notes() const { return notes_; }
  /// Adds the order of a row to the week, and its number to those that are taken; its problems,
  /// where it has any. A row without an order in work (`state: done`) adds none.
  Problems add(const TableRow& row, Week& week, OrderNumbers& taken) const;
  /// The columns, and the texts of a row in them, as a list that can be read again.
  std::vector<std::string> columns() const;
  std::vector<std::string> texts(const TableRow& row) const;

 private:
  std::string file_;
  std::vector<std::string> columns_;  // "" for one that is not read
  OrderWords words_;
  Messages notes_;
};

}  // namespace turnwright
