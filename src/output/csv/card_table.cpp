// SPDX-License-Identifier: MIT
// The speed card as a table: a row a material, kind of work, tool and diameter; its columns are
// words of a file, in English in every language.
#include "table.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/output/bench.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

std::string line_of(const Cells& cells) {
  std::string line;
  for (const std::string& cell : cells) line += (line.empty() ? "" : ",") + table_cell(cell);
  return line + "\n";
}

}  // namespace

std::string card_table(const SpeedCard& card) {
  std::string out =
      "machine,material,work,tool,grade,diameter mm,spindle rev/min,exact rev/min,deviation,"
      "surface speed m/min,feed from mm/rev,feed to mm/rev,depth mm,source\n";
  for (const CardRow& row : card.rows)
    for (const CardCell& cell : row.cells)
      if (cell.possible)
        out += line_of({card.machine.name, row.material->name, name_of(row.work), row.tool->name,
                        row.tool->grade, readable(in(cell.diameter, unit::mm), 5),
                        readable(in(cell.spindle, unit::rev_per_min), 5),
                        readable(in(cell.exact, unit::rev_per_min), 5), fixed(cell.deviation, 3),
                        readable(in(row.surface_speed, unit::m_per_min), 4),
                        readable(in(row.feed_from, unit::mm_per_rev), 3),
                        readable(in(row.feed_to, unit::mm_per_rev), 3),
                        readable(in(row.depth, unit::mm), 3), row.source});
  return out;
}

}  // namespace turnwright
