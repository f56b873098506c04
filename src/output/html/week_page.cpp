// SPDX-License-Identifier: MIT
#include "html/week_page.hpp"

#include "formatting.hpp"
#include "html/page_style.hpp"
#include "view/due_out.hpp"
#include "view/week_people.hpp"

namespace turnwright {
namespace {

constexpr const char* week_style = R"css(
.setting { fill: var(--line); } .closed { fill: var(--raised); stroke: none; }
.quoted { fill: none; stroke: var(--ground); stroke-width: 2; pointer-events: none; }
rect.late { stroke: var(--warn); stroke-width: 3; } svg text.inbar { fill: var(--ground); }
table.load td { white-space: nowrap; } td.overloaded { color: var(--warn); font-weight: 600; }
@media print { ul { columns: 1; } .orders table { font-size: 7.5pt; } }
)css";

void orders(PageWriter& page, const Week& week, const WeekView& view) {
  page.heading(2, "weekpage.due-out");
  page.table(due_out_table(week, view, page.words()), "weekpage.due-out");
}

// What a planner looks at first: who is late, and what saves him.
void late_orders(PageWriter& page, const Week& week, const WeekView& view, const WeekPlan& plan) {
  const Words& words = page.words();
  if (plan.late.empty()) return page.paragraph("weekpage.none-late");
  page.heading(2, "weekpage.late-orders");
  Table table;
  table.columns = {words_column("weekpage.order"), words_column("weekpage.due"),
                   words_column("weekpage.done"), words_column("weekpage.late-head"),
                   words_column("weekpage.would-save")};
  for (const LateReason& reason : plan.late) {
    const OrderView& v = view.orders[reason.lot];
    table.add({words(v.name), words(day_of(v.order->due)),
               v.fits ? words(moment_of(week, v.done)) : words("weekpage.not-in-calendar"),
               v.fits ? words(v.lateness) : "", words.joined(reason.trials, "; ")});
  }
  page.table(table, "weekpage.late-orders");
}

void why_late(PageWriter& page, const WeekView& view, const WeekPlan& plan) {
  if (plan.late.empty()) return;
  page.begin_fold("weekpage.why-late");
  for (const LateReason& reason : plan.late) {
    page.markup().put("h3", page.words()(view.orders[reason.lot].name));
    page.list(reason.chain);
  }
  page.end_fold();
}

void proposed(PageWriter& page, const Week& week, const WeekProblem& problem,
              const WeekPlan& plan) {
  if (!plan.relief) return;
  page.heading(2, "weekpage.proposed");
  page.paragraph(relief_summary(*plan.relief));
  page.list(proposed_changes(week, problem, plan.relief->relief));
}

// What is not in the plan, and what stands idle in it.
void listed(PageWriter& page, const char* heading, const Messages& messages) {
  if (messages.empty()) return;
  page.heading(2, heading);
  page.list(messages);
}

// What is posted beside each machine.
void lists(PageWriter& page, const Week& week, const WeekView& view) {
  const Words& words = page.words();
  page.heading(2, "weekpage.beside-machines");
  for (std::size_t m = 0; m < week.machines.size(); ++m) {
    if (view.runs[m].empty()) continue;
    page.markup().open("section", {{"style", "break-inside: avoid"}});
    page.markup().put("h3", words.name(week.machines[m].name));
    Table table;
    table.columns = {words_column("weekpage.work"), words_column("weekpage.setup-from"),
                     words_column("weekpage.runs-from"), words_column("weekpage.to")};
    add_people_columns(view, table);
    for (const RunView& v : view.runs[m]) {
      table.add({words(v.name), words(moment_of(week, v.run->setup_from)),
                 words(moment_of(week, v.run->run_from)), words(moment_of(week, v.run->to))});
      add_people_cells(view, v, words, table.rows.back().cells);
    }
    page.table(table, verbatim(week.machines[m].name));
    page.markup().close();
  }
}

void people(PageWriter& page, const Week& week, const WeekView& view) {
  if (view.people.empty()) return;
  const Words& words = page.words();
  page.heading(2, "weekpage.people");
  for (const PersonView& person : view.people) {
    page.markup().open("section", {{"style", "break-inside: avoid"}});
    page.markup().put("h3", words.name(person.name));
    if (person.stints.empty())
      page.paragraph("paper.no-work");
    else
      page.table(person_table(week, person, words), verbatim(person.name));
    page.markup().close();
  }
}

}  // namespace

std::string week_page(const Week& week, const WeekProblem& problem,
                      const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                      const Words& words) {
  const WeekView view = view_of(week, problem, loads, plan);
  PageWriter page(words);
  const Message title{"weekpage.title", {{"from", week.from}, {"to", week.to}}};
  page.begin(words(title), std::string(page_style) + week_style);
  page.markup().open("main");
  page.heading(1, title);
  late_orders(page, week, view, plan);
  why_late(page, view, plan);
  proposed(page, week, problem, plan);
  page.heading(2, "weekpage.hours-by-day");
  draw_hours(page, week, view);
  page.heading(2, "weekpage.timeline");
  draw_timeline(page, week, view);
  orders(page, week, view);
  listed(page, "weekpage.outside", outside_lines(week, view));
  listed(page, "weekpage.held", held_orders(week));
  listed(page, "weekpage.waiting", plan.gaps);
  listed(page, "weekpage.half-set-ups", view.half_set);
  lists(page, week, view);
  people(page, week, view);
  page.markup().close();
  return page.end();
}

}  // namespace turnwright
