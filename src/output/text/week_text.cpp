// SPDX-License-Identifier: MIT
// The week for the planner: hours, plan, orders, what is late and why.
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/week.hpp"
#include "view/due_out.hpp"
#include "view/machine_sheet.hpp"
#include "view/week_people.hpp"
#include "view/week_view.hpp"

namespace turnwright {
namespace {

struct Written {
  const Week& week;
  const WeekProblem& problem;
  const WeekPlan& plan;
  const WeekView& view;
};

std::string hours(double value, const Words& words) { return words.fixed(value, 1); }

Messages notes_of(const LoadView& v, const Words& words) {
  Messages notes;
  if (v.overloaded())
    notes.push_back(
        {"weekpage.overloaded-by", {{"hours", hours(v.required - v.available, words)}}});
  if (!v.days.empty()) {
    Messages days;
    for (const OverloadedDay& d : v.days)
      days.push_back({"weekpage.overloaded-day",
                      {{"day", day_of(d.day)},
                       {"required", hours(d.required, words)},
                       {"available", hours(d.available, words)}}});
    notes.push_back({"weekpage.overloaded-on", {{"days", words.joined(days, ", ")}}});
  }
  if (v.quoted)
    notes.push_back({"weekpage.hours-of-quotes", {{"hours", hours(v.load->quoted, words)}}});
  return notes;
}

void loads(TextWriter& out, const Written& w) {
  const Words& words = out.words();
  const auto day = [&](int n) { return days_after(w.week.from, n); };
  out.section(
      {"weekpage.hours", {{"from", day(w.view.shown.first)}, {"to", day(w.view.shown.last)}}});
  Table table;
  table.columns = {words_column(), number_column("weekpage.required"),
                   number_column("weekpage.available"), number_column("weekpage.share"),
                   number_column("weekpage.planned-hours")};
  for (const LoadView& v : w.view.loads) {
    Cells below;
    for (const Message& note : notes_of(v, words)) below.push_back(words(note));
    table.add({words(v.load->title()), hours(v.required, words), hours(v.available, words),
               v.available > 0 ? percent_text(v.share, words) : "-", hours(v.planned, words)},
              std::move(below));
  }
  out.table(table);
}

// With `full` what each needs stands under it.
void runs(TextWriter& out, const Written& w, const MachineSheet& sheet, bool full) {
  const Words& words = out.words();
  out.written(sheet.machine);
  if (full && !sheet.mounted.empty()) out.written("  " + sheet.mounted);
  Table table;
  table.columns = {words_column("weekpage.work"), words_column("weekpage.setup-from"),
                   number_column("weekpage.setup-min"), words_column("weekpage.runs-from"),
                   words_column("weekpage.to")};
  add_people_columns(w.view, table);
  for (const SheetRow& row : sheet.rows) {
    Cells cells{row.work, row.from, row.setup_min, row.runs_from, row.to};
    if (row.run != nullptr) add_people_cells(w.view, *row.run, words, cells);
    table.add(std::move(cells), full ? sheet_lines(row) : Cells());
  }
  if (!table.rows.empty()) out.table(table, 2);
}

// What each person does.
void people(TextWriter& out, const Written& w) {
  if (w.view.people.empty()) return;
  const Words& words = out.words();
  out.section("weekpage.people");
  for (const PersonView& person : w.view.people) {
    out.written(words.name(person.name));
    if (person.stints.empty() && person.away.empty())
      out.line("paper.no-work", 2);
    else
      out.table(person_table(w.week, person, words), 2);
  }
}

void orders(TextWriter& out, const Written& w) {
  out.section("weekpage.due-out");
  out.table(due_out_table(w.week, w.view, out.words()));
}

// What a planner looks at first: who is late, and what saves him.
void late_orders(TextWriter& out, const Written& w) {
  if (w.plan.late.empty()) return out.section("weekpage.none-late");
  const Words& words = out.words();
  out.section("weekpage.late-orders");
  Table table;
  table.columns = {words_column("weekpage.order"), words_column("weekpage.due"),
                   words_column("weekpage.done"), words_column("weekpage.late-head")};
  for (const LateReason& reason : w.plan.late) {
    const OrderView& v = w.view.orders[reason.lot];
    Cells below;
    for (const Message& trial : reason.trials)
      below.push_back(words({"weekpage.tried", {{"trial", trial}}}));
    table.add({words(v.name), words(day_of(v.order->due)),
               v.fits ? words(moment_of(w.week, v.done)) : words("weekpage.not-in-calendar"),
               v.fits ? words(v.lateness) : ""},
              std::move(below));
  }
  out.table(table);
  if (const Message rest = late_not_tried(w.plan); !rest.empty()) out.line(rest);
}

void why_late(TextWriter& out, const Written& w) {
  if (w.plan.late.empty()) return;
  out.section("weekpage.why-late");
  for (const LateReason& reason : w.plan.late) {
    out.line(w.view.orders[reason.lot].name);
    out.lines(reason.chain, 2);
  }
}

void relief(TextWriter& out, const Written& w) {
  if (!w.plan.relief) return;
  out.section("weekpage.proposed");
  out.line(relief_summary(*w.plan.relief));
  out.lines(relieved_orders(w.week, w.problem, *w.plan.relief), 2);
  out.lines(proposed_changes(w.week, w.problem, w.plan.relief->relief), 2);
}

void list(TextWriter& out, const Message& heading, const Messages& messages) {
  if (messages.empty()) return;
  out.section(heading);
  out.lines(messages);
}

// Hours that orders wait, by cause; what nobody waits for is not said.
void waits(TextWriter& out, const Waiting& waiting) {
  const Words& words = out.words();
  Messages causes;
  const auto add = [&](const char* cause, double value) {
    if (const std::string told = hours(value, words); told != hours(0, words))
      causes.push_back({cause, {{"hours", told}}});
  };
  add("weekpage.wait-machines", waiting.machine);
  add("weekpage.wait-pinned", waiting.pinned);
  add("weekpage.wait-people", waiting.people);
  add("weekpage.wait-material", waiting.material);
  add("weekpage.wait-outside", waiting.outside);
  if (!causes.empty()) out.line({"weekpage.waiting-by", {{"causes", words.joined(causes, ", ")}}});
}

// What keeps every plan as late as the bound.
Message cause_of(const Written& w) {
  switch (w.plan.bound.cause) {
    case LatenessBound::Cause::people:
      return {"weekpage.bound-by-people"};
    case LatenessBound::Cause::setters:
      return {"weekpage.bound-by-setters"};
    case LatenessBound::Cause::machine:
      return {"weekpage.bound-by-machine",
              {{"machine", w.week.machine(w.plan.bound.machine).name}}};
    default:
      return {"weekpage.bound-alone"};
  }
}

void score(TextWriter& out, const Written& w) {
  const Words& words = out.words();
  out.section("weekpage.score");
  out.line({"weekpage.lateness", {{"lateness", words.fixed(w.plan.plan.lateness, 2)}}});
  if (tells(w.plan.bound, w.plan.plan.lateness))
    out.line({"weekpage.bound",
              {{"bound", words.fixed(w.plan.bound.least, 2)}, {"cause", cause_of(w)}}});
}

}  // namespace

std::string week_text(const Week& week, const WeekProblem& problem,
                      const std::vector<MachineLoad>& load, const WeekPlan& plan,
                      const Words& words, const TextOptions& options, WeekShown shown) {
  const WeekView view = view_of(week, problem, load, plan, shown);
  const Written w{week, problem, plan, view};
  TextWriter out(words);
  late_orders(out, w);
  list(out, "weekpage.refused", not_planned(problem));
  list(out, "weekpage.short", short_orders(week, problem));
  relief(out, w);
  list(out, "weekpage.changes", changes_of(plan));
  out.section("weekpage.plan");
  for (const MachineSheet& sheet : machine_sheets(week, problem, plan.plan, view, words))
    runs(out, w, sheet, options.full);
  if (!view.beyond.empty()) out.line(view.beyond);
  list(out, "weekpage.half-set-ups", view.half_set);
  list(out, "weekpage.waits-begun", view.waits_begun);
  people(out, w);
  orders(out, w);
  list(out, "weekpage.outside", outside_lines(week, view));
  list(out, "weekpage.held", held_orders(week));
  why_late(out, w);
  list(out, "weekpage.waiting", gap_lines(plan, view));
  loads(out, w);
  out.section(view.beyond.empty() ? "weekpage.summary" : "weekpage.summary-beyond");
  out.line({"weekpage.setup-in-all", {{"hours", hours_text(view.setup, words)}}});
  out.line({"weekpage.in-work",
            {{"orders", words.fixed(view.in_work.orders, 1)},
             {"days", words.fixed(view.in_work.days_each, 1)}}});
  waits(out, waiting_of(problem.problem, plan.plan));
  if (view.work.planned.cost.si > 0) out.line(work_summary(view.work, words));
  if (options.why) score(out, w);
  list(out, "weekpage.faults", plan.faults);
  return out.take();
}

}  // namespace turnwright
