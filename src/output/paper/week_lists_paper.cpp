// SPDX-License-Identifier: MIT
// What is posted beside each machine, a page a machine.
#include "formatting.hpp"
#include "paper/blank.hpp"
#include "turnwright/output/week.hpp"
#include "view/due_out.hpp"
#include "view/week_people.hpp"

namespace turnwright {
namespace {

paper::Table list_of(const Week& week, const WeekView& view, std::size_t machine,
                     const Words& words) {
  paper::Table table{words.name(week.machines[machine].name)};
  table.columns = {words_of(words.heading("weekpage.work"), true),
                   words_of(words.heading("weekpage.setup-from")),
                   words_of(words.heading("weekpage.runs-from")),
                   words_of(words.heading("weekpage.to")),
                   words_of(words.heading("weekpage.due")),
                   words_of(words.heading("weekpage.late-head"))};
  const bool by_name = !view.people.empty();
  if (by_name) {
    table.columns.push_back(words_of(words.heading("weekpage.sets-up")));
    table.columns.push_back(words_of(words.heading("weekpage.attends")));
  }
  for (const RunView& v : view.runs[machine]) {
    const OrderView& order = view.orders[v.lot];
    const paper::Type ink{.bold = v.late};
    paper::Row row{{{words(v.name), "", {.bold = true}},
                    {words(moment_of(week, v.run->setup_from))},
                    {words(moment_of(week, v.run->run_from))},
                    {words(moment_of(week, v.run->to))},
                    {words(day_of(order.order->due))},
                    {v.late && order.fits ? words(order.lateness) : "", "", ink}}};
    if (by_name) {
      row.cells.push_back({names_text(v.people.sets, words)});
      row.cells.push_back({names_text(v.people.runs, words)});
    }
    table.add(std::move(row));
  }
  return table;
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

// A sheet for who or what its list is for.
void add_sheet(paper::Paper& paper, const std::string& name, const std::string& title,
               const paper::Table& list, const Words& words) {
  if (!paper.blocks.empty()) paper.blocks.emplace_back(paper::NewPage{});
  paper.blocks.emplace_back(paper::Text{name, paper::Role::title, {.points = 22, .bold = true}});
  paper.blocks.emplace_back(
      paper::Text{title, paper::Role::text, {.points = 12, .ink = paper::Ink::grey}});
  if (list.groups.empty())
    paper.blocks.emplace_back(paper::Text{words("paper.no-work"), paper::Role::text, {}, 4});
  else
    paper.blocks.emplace_back(list);
}

}  // namespace

paper::Paper week_lists_paper(const Week& week, const WeekProblem& problem,
                              const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                              const Words& words) {
  const WeekView view = view_of(week, problem, loads, plan);
  const std::string title =
      words.heading({"weekpage.title", {{"from", week.from}, {"to", week.to}}});
  paper::Paper paper = blank_paper(title, words);
  paper.date = text_of(week.from);
  paper.points = 10;
  paper.foot = title;
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    add_sheet(paper, words.name(week.machines[m].name), title, list_of(week, view, m, words),
              words);
  for (const PersonView& person : view.people)
    add_sheet(paper, words.name(person.name), title,
              on_paper(person_table(week, person, words), words.name(person.name), 2, words),
              words);
  const std::string due_out = words.heading("weekpage.due-out");
  add_sheet(paper, due_out, title, on_paper(due_out_table(week, view, words), due_out, 1, words),
            words);
  if (!view.outside.empty()) {
    paper.blocks.emplace_back(heading_text(words.heading("weekpage.outside")));
    for (const Message& line : outside_lines(week, view))
      paper.blocks.emplace_back(paper::Text{words(line)});
  }
  return paper;
}

}  // namespace turnwright
