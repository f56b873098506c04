// SPDX-License-Identifier: MIT
#pragma once
// What is posted beside a machine, as text, page and paper all have it, in the reader's words.
#include "table.hpp"
#include "turnwright/output/words.hpp"
#include "view/week_view.hpp"

namespace turnwright {

/// Work of a machine, or a time in which it is down.
struct SheetRow {
  const RunView* run = nullptr;  // null: it is down
  Span span;
  std::string work;  // "118 Op 10"; "down", with the reason
  std::string part, customer, pieces;
  std::string clamping, material, stock;  // the last two where it begins with them
  std::string tools;                      // that are to be loaded
  std::string what, load;                 // pieces of the part, tools, as sentences
  std::string setup_min;
  std::string from, runs_from, to, due, late;
};

struct MachineSheet {
  std::string machine;
  std::string mounted;  // tools that are in it already; "": none
  std::vector<SheetRow> rows;
  std::string beyond;  // what comes after the days that are shown; "": nothing
};
/// By machine of the week.
std::vector<MachineSheet> machine_sheets(const Week& week, const WeekProblem& problem,
                                         const Plan& plan, const WeekView& view,
                                         const Words& words);

/// Its rows of those days; what runs on from before is among them.
std::vector<const SheetRow*> rows_of(const MachineSheet& sheet, const DaysOfWeek& days);

/// The sheet as a table of a page.
Table sheet_table(const WeekView& view, const MachineSheet& sheet, const Words& words);
/// What a row says beside its times, a line each.
Cells sheet_lines(const SheetRow& row);
/// "down: new spindle bearings".
Message downtime_label(const Downtime& down);

}  // namespace turnwright
