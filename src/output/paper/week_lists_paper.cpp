// SPDX-License-Identifier: MIT
// What is posted beside each machine, a page a machine.
#include "formatting.hpp"
#include "paper/blank.hpp"
#include "turnwright/output/week.hpp"
#include "view/week_view.hpp"

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
  for (const RunView& v : view.runs[machine]) {
    const OrderView& order = view.orders[v.lot];
    const paper::Type ink{.bold = v.late};
    table.add({{{words(v.name), "", {.bold = true}},
                {words(moment_of(week, v.run->setup_from))},
                {words(moment_of(week, v.run->run_from))},
                {words(moment_of(week, v.run->to))},
                {words(day_of(order.order->due))},
                {v.late && order.fits ? words(order.lateness) : "", "", ink}}});
  }
  return table;
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
  for (std::size_t m = 0; m < week.machines.size(); ++m) {
    if (m > 0) paper.blocks.emplace_back(paper::NewPage{});
    paper.blocks.emplace_back(paper::Text{
        words.name(week.machines[m].name), paper::Role::title, {.points = 22, .bold = true}});
    paper.blocks.emplace_back(
        paper::Text{title, paper::Role::text, {.points = 12, .ink = paper::Ink::grey}});
    if (view.runs[m].empty())
      paper.blocks.emplace_back(paper::Text{words("paper.no-work"), paper::Role::text, {}, 4});
    else
      paper.blocks.emplace_back(list_of(week, view, m, words));
  }
  return paper;
}

}  // namespace turnwright
