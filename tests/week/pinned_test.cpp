// SPDX-License-Identifier: MIT
// Hours and lateness worked out by hand.
#include "../../src/week/setup_items.hpp"
#include "instances.hpp"
#include "turnwright/week/capacity.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/hours.hpp"
#include "turnwright/week/plan_week.hpp"
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

TEST_CASE("of a night shift of the evening before the first day the rest is there", "[week]") {
  // The same hours on Tuesday, whether the week begins with Monday or with Tuesday; people too.
  const auto from = [](const std::string& first, const std::string& more = "") {
    return week_in("week: {from: " + first + ", to: 2026-12-08, now: 2026-12-08 01:00}\n" + more +
                   "shifts: [{name: night, from: \"22:00\", to: \"06:00\", "
                   "pauses: [\"02:00-02:30\"]}]\n"
                   "machines: [{machine: \"CNC lathe, medium\", shifts: night}]\n"
                   "people: [{name: Anna, shifts: [night], sets: yes}]\n"
                   "orders: [{order: 1, part: p.yaml, quantity: 1, due: 2026-12-08}]\n");
  };
  const auto spans = [](const Calendar& calendar, Minute first) {
    Spans all;
    for (const Span& s : calendar.open()) all.emplace_back(s.from - first, s.to - first);
    return all;
  };
  const Spans tuesday{{h, 2 * h}, {2 * h + 30, 6 * h}, {22 * h, day}};
  const Week monday = from("2026-12-07"), alone = from("2026-12-08");
  CHECK(spans(monday.machines[0].open, day) == tuesday);
  CHECK(spans(alone.machines[0].open, 0) == tuesday);
  CHECK(spans(alone.people[0].available, 0) == tuesday);
  // The evening before was a holiday, by its date or of every year.
  for (const std::string holiday : {"2026-12-07", "12-07"})
    CHECK(spans(from("2026-12-08", "holidays: [" + holiday + "]\n").machines[0].open, 0) ==
          Spans{{22 * h, day}});
}

TEST_CASE("a holiday on 29 February is one in the years that have it", "[week]") {
  const auto week_from = [](const std::string& from, const std::string& to,
                            const std::string& holiday) {
    return read_week("week.yaml",
                     "week: {from: " + from + ", to: " + to + "}\nholidays: [" + holiday +
                         "]\nshifts: [{name: early, from: \"06:00\", to: \"14:00\"}]\n"
                         "machines: [{machine: \"CNC lathe, medium\", shifts: early}]\n"
                         "orders: [{order: 1, part: p.yaml, quantity: 1, due: " +
                         to + "}]\n");
  };
  // The last of February 2028 is a Tuesday.
  const auto leap = week_from("2028-02-28", "2028-03-01", "02-29");
  REQUIRE(leap);
  CHECK(leap->working == std::vector<bool>{true, false, true});
  CHECK(week_from("2027-12-20", "2028-01-07", "02-29"));
  CHECK(week_from("2026-12-07", "2026-12-08", "02-29"));
  for (const std::string none : {"02-30", "2026-02-29", "13-01"})
    CHECK_FALSE(week_from("2026-12-07", "2026-12-08", none));
}

TEST_CASE("midnight is the end of the day before, also that before the first", "[week]") {
  const Week week = week_in(week_with("{name: early, from: \"06:00\", to: \"14:00\"}", "early"));
  CHECK(text_of(week.ending_on(1)) == "2026-12-07");
  CHECK(text_of(week.ending_on(0)) == "2026-12-06");
  CHECK(text_of(week.ending_on(-1)) == "2026-12-06");
  CHECK(text_of(week.ending_on(-day)) == "2026-12-05");
}

TEST_CASE("a shift may end at 24:00, and the next begin there", "[week]") {
  CHECK(open_of(week_with("{name: late, from: \"14:00\", to: \"24:00\"}", "late")) ==
        Spans{{14 * h, day}, {day + 14 * h, 2 * day}});
  CHECK(read_clock("24:00") == 24 * h);
  CHECK_FALSE(read_clock("24:01"));
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

TEST_CASE("what an order waits for, hour by hour", "[week]") {
  // From 1:00 on; the first order runs from 1:00 to 3:00. The second one's material is there at
  // 2:00, its fixture at 2:30, the machine at 3:00, it is pinned to 4:00 and set up at 5:00, of
  // which half an hour is closed; of 2:30 h there it works 2:00 h, and goes out for a day.
  PlanProblem p;
  p.now = h;
  p.machines.resize(1);
  p.machines[0].calendar = Calendar({{0, 4 * h + 10}, {4 * h + 40, 10 * day}});
  p.lots.resize(2);
  p.lots[0].release = h;
  p.lots[1].release = 2 * h;
  Choice c = plain(0, 90);
  c.setup = 30;
  add_operation(p, 0, {c});
  add_operation(p, 1, {c});
  add_operation(p, 1, {plain(0, h)});
  p.operations[1].ready = 2 * h + 30;
  p.operations[1].pinned = 4 * h;
  p.operations[1].days_after = 1;
  const Minute done = 7 * h + 30, back = back_after(p, done, 1);
  Plan plan;
  plan.runs = {{0, 0, 0, h, h + 30, 3 * h, 30},
               {1, 0, 0, 5 * h, 5 * h + 30, done, 30},
               {2, 0, 0, back, back, back + h, 0}};
  const std::vector<Waiting> lots = waiting_by_lot(p, plan);
  CHECK(lots[0].material + lots[0].machine + lots[0].pinned + lots[0].people + lots[0].outside ==
        0);
  CHECK(lots[1].material == Approx(1.5));
  CHECK(lots[1].machine == Approx(0.5));
  CHECK(lots[1].pinned == Approx(1));
  CHECK(lots[1].people == Approx(1));  // half an hour before, half an hour in between
  CHECK(lots[1].outside == Approx((back - done) / 60.0));
  CHECK(back > done);
  CHECK(waiting_of(p, plan).material == Approx(1.5));
}

TEST_CASE("hours required lie as late as the due date lets them", "[week]") {
  // Ten hours, one of them setup, due at the end of the second day of 8 h: eight and two. Anna
  // attends half of the run: 1 + 9/2 of the ten hours.
  const Week week = week_in(
      "week: {from: 2026-12-07, to: 2026-12-08}\n"
      "shifts: [{name: early, from: \"06:00\", to: \"14:00\"}]\n"
      "machines: [{machine: \"CNC lathe, medium\", shifts: early}]\n"
      "people: [{name: Anna, shifts: [early], sets: yes}]\n"
      "orders: [{order: 1, part: p.yaml, quantity: 1, due: 2026-12-08}]\n");
  WeekProblem wp;
  wp.problem.machines.resize(1);
  wp.problem.lots.resize(1);
  wp.problem.lots[0].due = 2 * day;
  wp.orders = {0};
  Choice c = plain(0, 9 * h);
  c.setup = h;
  c.attended = 500;
  add_operation(wp.problem, 0, {c});
  const std::vector<MachineLoad> loads = infinite_load(week, wp);
  REQUIRE(loads.size() == 2);
  CHECK(loads[0].available == std::vector<double>{8, 8});
  CHECK(loads[0].required[0] == Approx(2));
  CHECK(loads[0].required[1] == Approx(8));
  CHECK(loads[0].quoted == 0);
  CHECK_FALSE(loads[0].overloaded());
  CHECK(loads[1].people);
  CHECK(loads[1].available == std::vector<double>{8, 8});
  CHECK(loads[1].required[0] == Approx(1.1));
  CHECK(loads[1].required[1] == Approx(4.4));
  // A quote of three in ten counts so much; before the first day there is none: all is on it.
  Week asked = week;
  asked.orders[0].state = OrderState::quoted;
  asked.orders[0].probability = 0.3;
  wp.problem.lots[0].due = day;
  const std::vector<MachineLoad> early = infinite_load(asked, wp);
  CHECK(early[0].required[0] == Approx(3));
  CHECK(early[0].required[1] == 0);
  CHECK(early[0].quoted == Approx(3));
  CHECK(early[1].quoted == Approx(3 * 0.55));
}

TEST_CASE("tools to load are those that are neither mounted nor left by the work before",
          "[week]") {
  WeekProblem wp;
  wp.items = {{1, {MountedKind::tool, "drill", 0}},
              {2, {MountedKind::tool, "tap", 0}},
              {3, {MountedKind::soft_jaws, "", 0}}};
  wp.problem.machines.resize(1);
  wp.problem.machines[0].mounted = {1};
  wp.problem.lots.resize(1);
  Choice both = plain(0, h), tap = plain(0, h), bare = plain(0, h);
  both.items = {{1, 5}, {2, 5}, {3, 10}};
  tap.items = {{2, 5}};
  bare.items = {{2, 0}};  // all of it is set up already
  Choice minute = bare;
  minute.setup = 1;
  for (const Choice& c : {both, tap, bare, minute}) add_operation(wp.problem, 0, {c});
  const PlannedRun run{0, 0, 0, 0, 0, h, 0}, after{1, 0, 0, 0, 0, h, 0}, last{2, 0, 0, 0, 0, h, 0},
      slight{3, 0, 0, 0, 0, h, 0};
  using Names = std::vector<std::string>;
  CHECK(tools_to_load(wp, run, {}) == Names{"tap"});
  CHECK(tools_to_load(wp, run, {&after, &after}) == Names{"drill"});
  CHECK(tools_to_load(wp, run, {&last, &last}) == Names{"drill"});
  // A quote that may not come leaves none.
  CHECK(tools_to_load(wp, run, {&after, nullptr}) == Names{"drill", "tap"});
  wp.problem.lots[0].quoted = true;
  CHECK(tools_to_load(wp, run, {&after, nullptr}) == Names{"drill"});
  CHECK(tools_to_load(wp, last, {}).empty());
  CHECK(tools_to_load(wp, slight, {}) == Names{"tap"});
}

TEST_CASE("a setup is split into what stays mounted, what is new and the rest", "[week]") {
  // 60 minutes: 15 for program and proving of a new part, 6 for the jaws, 12 for three tools, of
  // which one is always in the turret and another is drawn by the work alone: 4 each.
  Quote quote;
  quote.times.operations.resize(1);
  OperationTime& time = quote.times.operations[0];
  time.setup = 60.0 * unit::min;
  const auto add = [&](ElementId id, double minutes, int count) {
    ElementTime e;
    e.id = id;
    e.machine = minutes * unit::min;
    e.count = count;
    time.setup_elements.push_back(e);
  };
  add(ElementId::setup_program, 10, 0);
  add(ElementId::setup_proving, 5, 0);
  add(ElementId::setup_jaws, 6, 0);
  add(ElementId::setup_tools, 12, 3);
  quote.route.machine.mounted_tools = {"turning"};
  quote.route.operations.resize(1);
  quote.route.operations[0].steps.resize(2);
  quote.route.operations[0].steps[0].tool = "turning";
  quote.route.operations[0].steps[1].tool = "tap";
  const SetupSplit split = split_setup(quote, 0);
  CHECK(split.first == Approx(15));
  CHECK(split.rest == Approx(27));
  REQUIRE(split.items.size() == 2);
  CHECK(split.items[0].item.kind == MountedKind::hard_jaws);
  CHECK(split.items[0].minutes == 6);
  CHECK(split.items[1].item.name == "tap");
  CHECK(split.items[1].minutes == 4);
}
