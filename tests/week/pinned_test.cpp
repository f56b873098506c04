// SPDX-License-Identifier: MIT
// Hours and lateness worked out by hand.
#include "instances.hpp"
#include "turnwright/week/capacity.hpp"
#include "turnwright/week/plan.hpp"
#include "turnwright/week/week.hpp"
#include "weeks.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Monday 7 December 2026 and the day after, one machine.
std::string week_with(const std::string& shifts, const std::string& of_machine,
                      const std::string& more = "") {
  return "week: {from: 2026-12-07, to: 2026-12-08}\nshifts: [" + shifts + "]\n" +
         "machines: [{machine: \"CNC lathe, medium\", shifts: " + of_machine + more + "}]\n" +
         "orders: [{order: 1, part: p.yaml, quantity: 1, due: 2026-12-08}]\n";
}
std::vector<std::pair<Minute, Minute>> open_of(const std::string& text) {
  const Week week = week_in(text);
  std::vector<std::pair<Minute, Minute>> spans;
  for (const Span& s : week.machines[0].open.open()) spans.emplace_back(s.from, s.to);
  return spans;
}
using Spans = std::vector<std::pair<Minute, Minute>>;
constexpr Minute h = 60, day = 24 * h;

}  // namespace

TEST_CASE("a night shift has its pause after midnight", "[week]") {
  // 22 to 6 with a pause from 2 to 2:30, on Monday and Tuesday; the calendar ends with Tuesday.
  CHECK(open_of(week_with(
            "{name: night, from: \"22:00\", to: \"06:00\", pauses: [\"02:00-02:30\"]}", "night")) ==
        Spans{{22 * h, day + 2 * h}, {day + 2 * h + 30, day + 6 * h}, {day + 22 * h, 2 * day}});
  // One before midnight stays there.
  CHECK(open_of(week_with(
            "{name: night, from: \"22:00\", to: \"06:00\", pauses: [\"23:00-23:30\"]}", "night")) ==
        Spans{{22 * h, 23 * h},
              {23 * h + 30, day + 6 * h},
              {day + 22 * h, day + 23 * h},
              {day + 23 * h + 30, 2 * day}});
}

TEST_CASE("a shift may end at 24:00, and the next begin there", "[week]") {
  CHECK(open_of(week_with("{name: late, from: \"14:00\", to: \"24:00\"}", "late")) ==
        Spans{{14 * h, day}, {day + 14 * h, 2 * day}});
  CHECK(read_clock("24:00") == 24 * h);
  CHECK_FALSE(
      read_week("week.yaml", week_with("{name: late, from: \"14:00\", to: \"24:05\"}", "late")));
}

TEST_CASE("shifts follow one another, overlapping ones are refused", "[week]") {
  const std::string early = "{name: early, from: \"06:00\", to: \"14:00\"}, ";
  CHECK(open_of(week_with(early + "{name: late, from: \"14:00\", to: \"22:00\"}",
                          "[early, late]")) == Spans{{6 * h, 22 * h}, {day + 6 * h, day + 22 * h}});
  const auto week =
      read_week("week.yaml",
                week_with(early + "{name: late, from: \"13:55\", to: \"22:00\"}", "[early, late]"));
  REQUIRE_FALSE(week);
  CHECK(week.problems()[0].what.id == "week.shift-overlaps");
}

TEST_CASE("a machine that is down is closed, to the end of the day named", "[week]") {
  const std::string early = "{name: early, from: \"06:00\", to: \"14:00\"}";
  CHECK(open_of(week_with(early, "early",
                          ", down: [{from: 2026-12-07 10:00, to: 2026-12-07 12:00}]")) ==
        Spans{{6 * h, 10 * h}, {12 * h, 14 * h}, {day + 6 * h, day + 14 * h}});
  CHECK(open_of(week_with(early, "early", ", down: [{from: 2026-12-07 10:00, to: 2026-12-07}]")) ==
        Spans{{6 * h, 10 * h}, {day + 6 * h, day + 14 * h}});
}

TEST_CASE("overtime goes on where the day ends, at the longest to midnight", "[week]") {
  PlanProblem p;
  p.machines.resize(1);
  p.machines[0].calendar = Calendar({{14 * h, 22 * h}, {day + 6 * h, day + 14 * h}});
  p.people.present.assign(2 * day / time_step, 0);
  p.people.setters = p.people.present;
  add_overtime(p, {0, 0, 180});
  CHECK(p.machines[0].calendar.open().front().to == day);  // two hours of the three
  CHECK(p.people.present[(24 * h - 5) / time_step] == 1000);
  CHECK(p.people.present[24 * h / time_step] == 0);
  add_overtime(p, {0, 1, 60});
  CHECK(p.machines[0].calendar.open().back().to == day + 15 * h);
}

TEST_CASE("three days late weigh six, and twice as much where the order does", "[week]") {
  // d + d^2/3.
  CHECK(convex_days(3 * day) == Approx(6));
  CHECK(convex_days(day) == Approx(4.0 / 3));
  PlanProblem p;
  PlannedLot lot;
  lot.due = day;
  lot.weight = 2;
  CHECK(lateness_of(p, lot, 4 * day) == Approx(12));
  CHECK(lateness_of(p, lot, day) == 0);
}

TEST_CASE("what does not fit is late by what is left of it, its run too", "[week]") {
  // Open for 100 of 400 minutes: done ten days and five times the other 300 after the calendar's
  // day: 11 days and 1500 minutes, due at 0.
  PlanProblem p;
  p.machines.resize(1);
  p.machines[0].calendar = Calendar(std::vector<Span>{{0, 100}});
  p.lots.resize(1);
  p.lots[0].due = 0;
  Choice c = plain(0, 350);
  c.setup = 50;
  add_operation(p, 0, {c});
  const Plan plan = Decoder(p).plan({{0}, {0}, 0});
  CHECK(plan.done[0] == never);
  CHECK(plan.lateness == Approx(convex_days(11 * day + 5 * 300)));
}
