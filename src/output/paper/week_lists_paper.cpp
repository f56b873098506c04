// SPDX-License-Identifier: MIT
// What is posted beside each machine, a page a machine and week; what each person does.
#include "formatting.hpp"
#include "paper/blank.hpp"
#include "turnwright/output/week.hpp"
#include "view/due_out.hpp"
#include "view/machine_sheet.hpp"
#include "view/week_people.hpp"

namespace turnwright {
namespace {

paper::Table head_of_sheet(const WeekView& view, const MachineSheet& sheet, const Words& words) {
  paper::Table table{sheet.machine};
  table.points = 9;
  const auto word = [&](const char* id, bool wide = false) {
    table.columns.push_back(words_of(words.heading(id), wide));
  };
  const auto number = [&](const char* id) {
    table.columns.push_back(numbers_of(words.heading(id)));
  };
  word("weekpage.work");
  word("weekpage.part");
  number("weekpage.pieces");
  word("weekpage.clamping");
  word("weekpage.material");
  word("weekpage.tools-to-load", true);
  number("weekpage.setup-min");
  word("weekpage.setup-from");
  word("weekpage.runs-from");
  word("weekpage.to");
  word("weekpage.due");
  if (!view.people.empty()) word("weekpage.sets-up");
  if (!view.people.empty()) word("weekpage.attends");
  return table;
}

// Broken before its last word at most: "Mon 7 Dec", "06:00".
std::string kept_together(std::string text, bool breaks) {
  const std::size_t last = breaks ? text.rfind(' ') : std::string::npos;
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (text[i] == ' ' && i != last)
      out += "\xc2\xa0";
    else
      out += text[i];
  return out;
}
std::string moment(const std::string& text) { return kept_together(text, true); }

// Over all that it says nothing of.
paper::Row downtime_row(const SheetRow& row) {
  constexpr std::size_t columns_before_times = 7;
  paper::Cell work{row.work, "", {.bold = true}};
  work.span = columns_before_times;
  return {{std::move(work), {moment(row.from)}, {""}, {moment(row.to)}}};
}

paper::Row row_of(const WeekView& view, const SheetRow& row, const Words& words) {
  if (row.run == nullptr) return downtime_row(row);
  const paper::Type bold{.bold = true};
  const auto below = [](std::string text, std::string under) {
    return paper::Cell{std::move(text), std::move(under)};
  };
  paper::Row cells{{{kept_together(row.work, false), row.customer, bold},
                    {row.part},
                    {row.pieces},
                    {row.clamping},
                    below(row.material, row.stock),
                    {row.tools, "", bold},
                    {row.setup_min},
                    {moment(row.from)},
                    {moment(row.runs_from)},
                    {moment(row.to)},
                    {kept_together(row.due, false), row.late, {.bold = !row.late.empty()}}}};
  if (view.people.empty()) return cells;
  cells.cells.push_back({names_text(row.run->people.sets, words)});
  cells.cells.push_back({names_text(row.run->people.runs, words)});
  return cells;
}

// A table of the screen on paper; its column `wide` takes the room that is over.
paper::Table on_paper(const Table& made, std::string label, std::size_t wide, const Words& words) {
  paper::Table table{std::move(label)};
  for (const Column& column : made.columns) {
    const bool stretches = table.columns.size() == wide;
    std::string heading = words.heading(column.heading);
    table.columns.push_back(column.align == Align::right ? numbers_of(std::move(heading))
                                                         : words_of(std::move(heading), stretches));
  }
  for (const Table::Row& row : made.rows) {
    paper::Row cells;
    for (const std::string& cell : row.cells) cells.cells.push_back({cell});
    table.add(std::move(cells));
  }
  return table;
}

void add_head(paper::Paper& paper, const std::string& name, const std::string& title) {
  if (!paper.blocks.empty()) paper.blocks.emplace_back(paper::NewPage{});
  paper.blocks.emplace_back(paper::Text{name, paper::Role::title, {.points = 22, .bold = true}});
  paper.blocks.emplace_back(
      paper::Text{title, paper::Role::text, {.points = 12, .ink = paper::Ink::grey}});
}

// A sheet for who or what its list is for.
void add_sheet(paper::Paper& paper, const std::string& name, const std::string& title,
               const paper::Table& list, const Words& words) {
  add_head(paper, name, title);
  if (list.groups.empty())
    paper.blocks.emplace_back(paper::Text{words("paper.no-work"), paper::Role::text, {}, 4});
  else
    paper.blocks.emplace_back(list);
}

// A sheet a calendar week in which there is something to do; one, where there is nothing at all.
void add_machine(paper::Paper& paper, const Week& week, const WeekView& view,
                 const MachineSheet& sheet, const Words& words) {
  if (sheet.rows.empty())
    return add_sheet(paper, sheet.machine, words.heading(title_of(week, view.shown)), {}, words);
  for (const DaysOfWeek& days : calendar_weeks(week, view.shown)) {
    paper::Table list = head_of_sheet(view, sheet, words);
    for (const SheetRow* row : rows_of(sheet, days)) list.add(row_of(view, *row, words));
    if (list.groups.empty()) continue;
    add_head(paper, sheet.machine, words.heading(title_of(week, days)));
    if (!sheet.mounted.empty()) paper.blocks.emplace_back(paper::Text{sheet.mounted});
    paper.blocks.emplace_back(std::move(list));
  }
  if (!sheet.beyond.empty())
    paper.blocks.emplace_back(paper::Text{sheet.beyond, paper::Role::text, {}, 3});
}

// Under the orders.
void add_lines(paper::Paper& paper, const char* heading, const Messages& lines,
               const Words& words) {
  if (lines.empty()) return;
  paper.blocks.emplace_back(heading_text(words.heading(heading)));
  for (const Message& line : lines) paper.blocks.emplace_back(paper::Text{words(line)});
}

}  // namespace

paper::Paper week_lists_paper(const Week& week, const WeekProblem& problem,
                              const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                              const Words& words, WeekShown shown) {
  const WeekView view = view_of(week, problem, loads, plan, shown);
  const std::string title = words.heading(title_of(week, view.shown));
  paper::Paper paper = blank_paper(title, words);
  paper.date = text_of(week.from);
  paper.points = 10;
  paper.landscape = true;
  paper.foot = title;
  for (const MachineSheet& sheet : machine_sheets(week, problem, plan.plan, view, words))
    add_machine(paper, week, view, sheet, words);
  for (const PersonView& person : view.people)
    add_sheet(paper, words.name(person.name), title,
              on_paper(person_table(week, person, words), words.name(person.name), 2, words),
              words);
  const std::string due_out = words.heading("weekpage.due-out");
  add_sheet(paper, due_out, title, on_paper(due_out_table(week, view, words), due_out, 1, words),
            words);
  add_lines(paper, "weekpage.outside", outside_lines(week, view), words);
  add_lines(paper, "weekpage.refused", not_planned(problem), words);
  add_lines(paper, "weekpage.changes", changes_of(plan), words);
  add_lines(paper, "weekpage.held", held_orders(week), words);
  add_lines(paper, "weekpage.short", short_orders(week, problem), words);
  return paper;
}

}  // namespace turnwright
