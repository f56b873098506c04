// SPDX-License-Identifier: MIT
// Two plans side by side: what a change of the week does.
#include <algorithm>
#include <cmath>
#include <set>

#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/week.hpp"

namespace turnwright {
namespace {

struct Side {
  const WeekSide& side;
  int late = 0;
  double days = 0;  // of all late ones that are done
  PlannedWork work;
  InWork in_work;
};
Side side_of(const WeekSide& side) {
  const PlanProblem& problem = side.problem.problem;
  Side s{side, 0, 0, planned_work(side.problem, side.plan.plan), in_work(problem, side.plan.plan)};
  for (std::size_t j = 0; j < problem.lots.size(); ++j) {
    const Minute done = side.plan.plan.done[j];
    const double late = days_late(problem.lots[j], done);
    s.late += late > 0 ? 1 : 0;
    s.days += done == never ? 0 : late;
  }
  return s;
}

// The sentence of when an order is done in one of the plans.
std::string done_in(const WeekSide& side, const std::string& name, const Words& words) {
  for (std::size_t j = 0; j < side.problem.orders.size(); ++j) {
    if (lot_name(side.week, side.problem, j) != name) continue;
    const Minute done = side.plan.plan.done[j];
    return done == never ? words("weekpage.not-in-calendar") : words(moment_of(side.week, done));
  }
  return words("weekpage.not-planned");
}
std::vector<std::string> names_of(const WeekSide& a, const WeekSide& b) {
  std::vector<std::string> names;
  std::set<std::string> known;
  for (const WeekSide* side : {&a, &b})
    for (std::size_t j = 0; j < side->problem.orders.size(); ++j) {
      std::string name = lot_name(side->week, side->problem, j);
      if (known.insert(name).second) names.push_back(std::move(name));
    }
  return names;
}

void sums(TextWriter& out, const Side& a, const Side& b) {
  const Words& words = out.words();
  Table table;
  // Names of files stay as they are, which headings do not.
  table.columns = {words_column(), number_column({}), number_column({})};
  table.add({"", words.name(a.side.name), words.name(b.side.name)});
  const auto row = [&](const char* name, auto told) { table.add({words(name), told(a), told(b)}); };
  row("weekpage.side-late", [&](const Side& s) { return words.whole(s.late); });
  row("weekpage.side-days", [&](const Side& s) { return words.fixed(s.days, 1); });
  row("weekpage.side-hours",
      [&](const Side& s) { return hours_text(s.work.planned.machine, words); });
  row("weekpage.side-setup", [&](const Side& s) {
    return hours_text(static_cast<double>(s.side.plan.plan.setup) * unit::min, words);
  });
  row("weekpage.side-cost",
      [&](const Side& s) { return words.fixed(in(s.work.planned.cost, unit::money), 0); });
  row("weekpage.side-in-work", [&](const Side& s) { return words.fixed(s.in_work.orders, 1); });
  row("weekpage.side-flow", [&](const Side& s) { return words.fixed(s.in_work.days_each, 1); });
  out.table(table);
}

void dates(TextWriter& out, const WeekSide& a, const WeekSide& b) {
  const Words& words = out.words();
  Table table;
  table.columns = {words_column(), words_column(), words_column()};
  table.add({words.heading("weekpage.order"), words.name(a.name), words.name(b.name)});
  for (const std::string& name : names_of(a, b)) {
    std::string one = done_in(a, name, words), other = done_in(b, name, words);
    if (one != other) table.add({words.name(name), std::move(one), std::move(other)});
  }
  out.section("weekpage.other-dates");
  if (table.rows.size() == 1) return out.line("weekpage.no-other-date");
  out.table(table);
}

}  // namespace

std::string weeks_text(const WeekSide& a, const WeekSide& b, const Words& words) {
  TextWriter out(words);
  out.section("weekpage.side-by-side");
  sums(out, side_of(a), side_of(b));
  dates(out, a, b);
  return out.take();
}

}  // namespace turnwright
