// SPDX-License-Identifier: MIT
#pragma once
// A table before it is drawn: as text (text/text_writer.hpp) or as HTML (html/page_writer.hpp).
#include <string>
#include <utility>
#include <vector>

#include "turnwright/quantity/message.hpp"

namespace turnwright {

enum class Align { left, right };

struct Column {
  Message heading;  // may be empty
  Align align = Align::right;
};
/// Of words; of numbers.
inline Column words_column(Message heading = {}) { return {std::move(heading), Align::left}; }
inline Column number_column(Message heading) { return {std::move(heading), Align::right}; }

using Cells = std::vector<std::string>;

struct Table {
  struct Row {
    Cells cells;  // in the reader's words; fewer than columns: the rest is empty
    Cells below;  // lines under the row, in text only
    std::vector<std::size_t> strong = {};  // columns that stand out, on a page
  };
  std::vector<Column> columns;
  std::vector<Row> rows;

  void add(Cells cells, Cells below = {}) { rows.push_back({std::move(cells), std::move(below)}); }
};

}  // namespace turnwright
