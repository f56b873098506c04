// SPDX-License-Identifier: MIT
#include "html/week_page.hpp"

#include "formatting.hpp"
#include "html/page_style.hpp"
#include "view/due_out.hpp"
#include "view/machine_sheet.hpp"
#include "view/week_people.hpp"

namespace turnwright {
namespace {

constexpr const char* week_style = R"css(
.setting { fill: var(--line); } .closed { fill: var(--raised); stroke: none; }
.quoted { fill: none; stroke: var(--ground); stroke-width: 2; pointer-events: none; }
rect.late { stroke: var(--warn); stroke-width: 3; } svg text.inbar { fill: var(--ground); }
table.load td { white-space: nowrap; } td.overloaded { color: var(--warn); font-weight: 600; }
.machine table { font-size: 13px; } .machine td:first-child { white-space: nowrap; } .machine td.text { max-width: 260px; } .machine p { color: var(--soft); }
.down { fill: var(--rule); stroke: var(--line); stroke-dasharray: 4 3; }
@media print { .machine table { font-size: 7pt; } .machine th, .machine td { padding-right: 5px; } ul { columns: 1; } .orders table { font-size: 7.5pt; } }
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
  if (const Message rest = late_not_tried(plan); !rest.empty()) page.note(rest);
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
  page.list(relieved_orders(week, problem, *plan.relief));
  page.list(proposed_changes(week, problem, plan.relief->relief));
}

// What is not in the plan, and what stands idle in it.
void listed(PageWriter& page, const char* heading, const Messages& messages) {
  if (messages.empty()) return;
  page.heading(2, heading);
  page.list(messages);
}

// What is posted beside each machine.
void lists(PageWriter& page, const Week& week, const WeekView& view,
           const std::vector<MachineSheet>& sheets) {
  page.heading(2, "weekpage.beside-machines");
  for (std::size_t m = 0; m < sheets.size(); ++m) {
    if (sheets[m].rows.empty()) continue;
    page.markup().open("section", {{"class", "machine"}});
    page.markup().put("h3", sheets[m].machine);
    if (!sheets[m].mounted.empty()) page.markup().put("p", sheets[m].mounted);
    page.table(sheet_table(view, sheets[m], page.words()), verbatim(week.machines[m].name));
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
    if (person.stints.empty() && person.away.empty())
      page.paragraph("paper.no-work");
    else
      page.table(person_table(week, person, words), verbatim(person.name));
    page.markup().close();
  }
}

}  // namespace

std::string week_page(const Week& week, const WeekProblem& problem,
                      const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                      const Words& words, WeekShown shown) {
  const WeekView view = view_of(week, problem, loads, plan, shown);
  PageWriter page(words);
  const Message title = title_of(week, view.shown);
  page.begin(words(title), std::string(page_style) + week_style);
  page.markup().open("main");
  page.heading(1, title);
  late_orders(page, week, view, plan);
  listed(page, "weekpage.refused", not_planned(problem));
  listed(page, "weekpage.short", short_orders(week, problem));
  why_late(page, view, plan);
  proposed(page, week, problem, plan);
  listed(page, "weekpage.changes", changes_of(plan));
  page.heading(2, "weekpage.hours-by-day");
  draw_hours(page, week, view);
  page.heading(2, "weekpage.timeline");
  draw_timeline(page, week, view);
  if (!view.beyond.empty()) page.paragraph(view.beyond);
  orders(page, week, view);
  listed(page, "weekpage.outside", outside_lines(week, view));
  listed(page, "weekpage.held", held_orders(week));
  listed(page, "weekpage.waiting", gap_lines(plan, view));
  listed(page, "weekpage.half-set-ups", view.half_set);
  listed(page, "weekpage.waits-begun", view.waits_begun);
  lists(page, week, view, machine_sheets(week, problem, plan.plan, view, words));
  people(page, week, view);
  page.markup().close();
  return page.end();
}

}  // namespace turnwright
