// SPDX-License-Identifier: MIT
#include "html/week_page.hpp"

#include "formatting.hpp"
#include "html/page_style.hpp"

namespace turnwright {
namespace {

constexpr const char* week_style = R"css(
.late { fill: var(--k1); } .fits { fill: var(--k0); } .setting { fill: var(--k4); } .closed { fill: var(--raised); stroke: none; }
.quoted { fill: none; stroke: var(--ground); stroke-width: 2; pointer-events: none; }
.over { fill: var(--k1); } .there { fill: none; stroke: var(--ink); stroke-width: 1.2; }
svg.wide { max-width: none; } svg text.inbar { fill: var(--ground); }
)css";

void orders(PageWriter& page, const Week& week, const WeekView& view) {
  const Words& words = page.words();
  page.heading(2, "weekpage.orders");
  Table table;
  table.columns = {words_column("weekpage.order"), number_column("weekpage.pieces"),
                   words_column("weekpage.due"), words_column("weekpage.done"),
                   words_column("weekpage.late-head")};
  for (const OrderView& v : view.orders)
    table.add({v.quoted ? words({"weekpage.quoted-order", {{"order", v.name}}}) : words(v.name),
               words.whole(v.pieces), words(day_of(v.order->due)),
               v.fits ? words(moment_of(week, v.done)) : words("weekpage.not-in-calendar"),
               v.late && v.fits ? words(v.lateness) : ""});
  page.table(table, "weekpage.orders");
}

void late(PageWriter& page, const WeekView& view, const WeekPlan& plan) {
  if (plan.late.empty()) return;
  page.heading(2, "weekpage.late");
  for (const LateReason& reason : plan.late) {
    page.markup().put("h3", page.words()(view.orders[reason.lot].name));
    Messages list = reason.chain;
    for (const Message& trial : reason.trials)
      list.push_back({"weekpage.tried", {{"trial", trial}}});
    page.list(list);
  }
}

void proposed(PageWriter& page, const Week& week, const WeekProblem& problem,
              const WeekPlan& plan) {
  if (!plan.relief) return;
  page.heading(2, "weekpage.proposed");
  page.paragraph(relief_summary(*plan.relief));
  page.list(proposed_changes(week, problem, plan.relief->relief));
}

// What is posted beside each machine.
void lists(PageWriter& page, const Week& week, const WeekView& view) {
  const Words& words = page.words();
  page.heading(2, "weekpage.beside-machines");
  for (std::size_t m = 0; m < week.machines.size(); ++m) {
    page.markup().open("section", {{"style", "break-inside: avoid"}});
    page.markup().put("h3", words.name(week.machines[m].name));
    Table table;
    table.columns = {words_column("weekpage.work"), words_column("weekpage.setup-from"),
                     words_column("weekpage.runs-from"), words_column("weekpage.to")};
    for (const RunView& v : view.runs[m])
      table.add({words(v.name), words(moment_of(week, v.run->setup_from)),
                 words(moment_of(week, v.run->run_from)), words(moment_of(week, v.run->to))});
    page.table(table, verbatim(week.machines[m].name));
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
  page.heading(2, "weekpage.hours-by-day");
  draw_hours(page, week, view);
  page.heading(2, "weekpage.timeline");
  draw_timeline(page, week, view);
  orders(page, week, view);
  late(page, view, plan);
  proposed(page, week, problem, plan);
  lists(page, week, view);
  page.markup().close();
  return page.end();
}

}  // namespace turnwright
