// SPDX-License-Identifier: MIT
#include <sstream>

#include "turnwright/estimate/band.hpp"
#include "turnwright/week/promise.hpp"
#include "weeks.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::string file_with(const std::string& machine, const std::string& order = "",
                      const std::string& more = "") {
  return "week: {from: 2026-12-07, to: 2026-12-31, now: 2026-12-07 06:00}\n"
         "shifts: [{name: early, from: \"06:00\", to: \"14:00\"}]\n"
         "machines: [" +
         machine + "]\n" + more + "orders: [{order: 131, part: p.yaml, quantity: 20" +
         (order.empty() ? ", due: 2026-12-18" : order) + "}]\n";
}
const std::string medium = "{machine: \"CNC lathe, medium\", shifts: [early]}";
const std::string two_of_it =
    medium + ", {machine: \"CNC lathe, medium\", called: the other, shifts: [early]}";

// The only problem of a week file.
Problem problem_of(const std::string& text) {
  const auto week = read_week("week.yaml", text);
  REQUIRE_FALSE(week);
  INFO(problems_text(week.problems()));
  REQUIRE(week.problems().size() == 1);
  return week.problems().front();
}
PartReader reader_of(const std::string& text) {
  return [text](const Week&, const WeekOrder&) { return read_part("p.yaml", text); };
}

}  // namespace

TEST_CASE("a date beyond reason is a problem at its place", "[week]") {
  struct Case {
    std::string text;
    int line, column;
  };
  const std::string far = "9999-12-31";
  for (const Case& c :
       {Case{file_with(medium, ", due: " + far), 4, 56},
        Case{file_with(medium, ", due: 2026-12-18, release: " + far), 4, 77},
        Case{file_with("{machine: \"CNC lathe, medium\", shifts: [early], down: [{from: "
                       "2026-12-08, to: " +
                       far + "}]}"),
             3, 90},
        Case{"week: {from: 2026-12-07, to: 2026-12-31, now: " + far +
                 "}\nshifts: [{name: early, from: \"06:00\", to: \"14:00\"}]\nmachines: [" +
                 medium + "]\n",
             1, 47},
        Case{"week: {from: 2026-12-07, to: " + far + "}\nshifts: []\nmachines: []\n", 1, 30},
        Case{"week: {from: 0001-01-01, to: 2026-12-31}\nshifts: []\nmachines: []\n", 1, 14}}) {
    const Problem problem = problem_of(c.text);
    INFO(problem_text(problem, Words()));
    CHECK(problem.at.line == c.line);
    CHECK(problem.at.column == c.column);
    CHECK(problem.what.id == "week.far-day");
    CHECK(english(problem.expected) == "a day from 1970 to 2200");
    CHECK_FALSE(problem.source_line.empty());
  }
  const Week week = week_in(file_with(medium));
  const auto moment = [&](const char* text) { return read_moment(text, week.from); };
  for (const char* text : {"2026-12-08T06:30:00", "2026-12-08 06:30"})
    CHECK(moment(text) == minutes_a_day + 390);
  CHECK(moment("2026-12-07T24:00") == minutes_a_day);
  for (const char* none :
       {"9999-12-31T00:00:00", "2026-12-08", "2026-12-08T24:59", "2026-12-08T06:30Z",
        "2026-12-08T06:30+02:00", "2026-12-08T06:30:61", "2026-12-08T06:30 nonsense"})
    CHECK_FALSE(moment(none));
  CHECK(has_zone("2026-12-08T06:30Z"));
  CHECK(has_zone("2026-12-08T06:30:00+02:00"));
  CHECK_FALSE(has_zone("2026-12-08T06:30:00"));
}

TEST_CASE("hours beyond every plan are refused before they are counted", "[week]") {
  CHECK(problem_of("week: {from: 2026-12-07, to: 2026-12-31, frozen: 1e12 h}\n").what.id ==
        "week.frozen-out-of-range");
  CHECK(problem_of(file_with(medium, "", "overtime: {most: 1e12 h, price: 40 EUR/h}\n")).what.id ==
        "week.overtime-out-of-range");
}

TEST_CASE("what is mounted is read by kind, and compared by value", "[week]") {
  const Week week = week_in(
      file_with("{machine: \"CNC lathe, medium\", shifts: [early], mounted: [tool centre drill, "
                "\"jaws, soft\", soft jaws bored to 40.5, bar 35]}"));
  const std::vector<MountedItem> expected{
      {MountedKind::tool, "centre drill", 0},
      {MountedKind::soft_jaws, "", 0},
      mounted_item(MountedKind::bored_jaws, 40.5 * unit::mm),
      mounted_item(MountedKind::bar, 0.1 * unit::mm * 350)};  // 35.000000000000004
  CHECK(week.machines.front().mounted == expected);
  for (const char* wrong : {"drill 8", "tool", "bar", "bar wide", "soft jaws bored to",
                            "soft jaws bored to -3", "\"jaws, brass\""})
    CHECK(problem_of(file_with("{machine: \"CNC lathe, medium\", shifts: [early], mounted: [" +
                               std::string(wrong) + "]}"))
              .expected.id == "week.a-mounted-item");
}

TEST_CASE("moments and lateness are said as people say them", "[week]") {
  const Week week = week_in(file_with(medium));
  CHECK(english(moment_of(week, 14 * 60 + 30)) == "Mon 7 Dec 14:30");
  CHECK(english(moment_of(week, minutes_a_day)) == "Mon 7 Dec 24:00");
  // A plan that was posted a week ago.
  CHECK(english(moment_of(week, -30)) == "Sun 6 Dec 23:30");
  CHECK(iso_text(week, -minutes_a_day) == "2026-12-06T00:00:00");
  CHECK(english(beginning_of(week, minutes_a_day)) == "Tue 8 Dec");
  CHECK(iso_text(week, minutes_a_day + 65) == "2026-12-08T01:05:00");
  CHECK(Words(Language::de)(moment_of(week, 14 * 60 + 30)) == "Mo, 7. Dez. 14:30");
  PlannedLot lot;
  lot.due = 1000;
  CHECK(english(late_by(lot, 1000)) == "on time");
  CHECK(english(late_by(lot, 1060)) == "late by 1 hour");
  CHECK(english(late_by(lot, 1000 + 5 * 60 + 30)) == "late by 5.5 hours");
  CHECK(english(late_by(lot, 1000 + minutes_a_day)) == "late by 1 day");
  CHECK(english(late_by(lot, 1000 + 2000 * minutes_a_day)) == "late by 2,000 days");
  CHECK(english(late_by(lot, never)) == "does not fit into the calendar");
}

TEST_CASE("a machine that the shop has not is named with its line", "[week]") {
  const Week week = week_in(file_with("{machine: \"CNC lathe, medum\", shifts: [early]}"));
  const Problems problems = unknown_machines(week, shipped_shop());
  REQUIRE(problems.size() == 1);
  CHECK(problems.front().source_line ==
        "machines: [{machine: \"CNC lathe, medum\", shifts: [early]}]");
  CHECK(problems.front().at.line == 3);
  CHECK(problems.front().suggestion == "CNC lathe, medium");
  CHECK(unknown_machines(week_in(file_with(two_of_it)), shipped_shop()).empty());
}

TEST_CASE("an order that no machine makes is refused once by each, and by its name", "[week]") {
  const Week week = week_in(file_with(two_of_it));
  const std::string part =
      "part: {number: L-1}\nmaterial: C45\nstock: {round: 65}\noutside: [60 x3000]\n";
  const RoutedOrders routed = route_orders(week, shipped_shop(), reader_of(part));
  CHECK(routed.routes.empty());
  REQUIRE(routed.problems.size() == 1);
  const Problem& problem = routed.problems.front();
  CHECK(problem.at.line == 4);
  CHECK(problem.source_line.find("p.yaml") != std::string::npos);
  const std::string text = english(problem.what);
  INFO(text);
  const std::size_t first = text.find("CNC lathe, medium");
  REQUIRE(first != std::string::npos);
  CHECK(text.find("CNC lathe, medium", first + 1) == std::string::npos);
}

TEST_CASE("orders become a plan, and a quote a date", "[week]") {
  const Shop& shop = shipped_shop();
  const Week week = week_in(file_with(two_of_it));
  const PartReader part = reader_of(shaft());
  const PlannedWeek planned = planned_week(week, {shop, part});
  INFO(problems_text(planned.problems));
  CHECK(planned.orders == 1);
  CHECK(planned.plan.faults.empty());
  CHECK(planned.holds());
  CHECK(english(work_name(week, planned.problem, 0)) == "131 Op 10");
  // As it is posted, nothing changes.
  std::ostringstream table;
  table << "machine,order,operation,setup from\n";
  for (const PlannedRun& run : planned.plan.plan.runs)
    table << table_cell(week.machine(run.machine).name) << ",131,"
          << planned.problem.names[static_cast<std::size_t>(run.operation)].operation << ","
          << iso_text(week, run.setup_from) << "\n";
  std::istringstream in(table.str());
  TableReader reader("plan.csv", in);
  const auto posted = read_posted(week, reader);
  REQUIRE(posted);
  const Planning again{shop, part, &*posted, 1};
  CHECK(planned_week(week, again).plan.changes->empty());
  const Week asked = with_asked(week, "q.yaml", 10);
  const auto promise = promise_for(asked, again);
  REQUIRE(promise);
  CHECK(promise->p80 != never);
  CHECK(english(promise->chain.front()).find("the quote Op ") == 0);
  CHECK(delivery_of(asked, *promise).id == "week.delivery");
}

TEST_CASE("lines that are none of a posted plan are problems with their places", "[week]") {
  const Week week = week_in(file_with(medium));
  std::istringstream in(
      "machine,order,operation,setup from\nA,7,10,2026-12-08T06:30:00\nnonsense\n"
      "A,7,10,9999-12-31T06:30:00\nA,7,1e30,2026-12-08T06:30:00\nA,7,10.5,2026-12-08T06:30:00\n");
  TableReader reader("plan.csv", in);
  const auto posted = read_posted(week, reader);
  REQUIRE_FALSE(posted);
  REQUIRE(posted.problems().size() == 4);
  CHECK(posted.problems().front().at.line == 3);
  CHECK(posted.problems().front().source_line == "nonsense");
}

TEST_CASE("a posted plan is read by its headings, and has places for every order", "[week]") {
  const Week week = week_in(file_with(medium));
  const auto posted_of = [&](const std::string& text) {
    std::istringstream in(text);
    TableReader reader("plan.csv", in);
    return read_posted(week, reader);
  };
  const auto posted = posted_of(
      "place,setup from,operation,order,machine\n10001,2026-12-08T06:30:00,10,7,A\n"
      "40000,2026-12-08T07:30:00,20,7,A\n");
  REQUIRE(posted);
  REQUIRE(posted->size() == 2);
  CHECK((*posted)[0].place == 10001);
  CHECK((*posted)[1].place == 40000);
  CHECK((*posted)[1].machine == "A");
  CHECK((*posted)[1].operation == 20);
  // Without headings its first line would be lost in silence.
  const auto bare = posted_of("A,7,10,2026-12-08T06:30:00\nA,7,20,2026-12-08T07:30:00\n");
  REQUIRE_FALSE(bare);
  CHECK(bare.problems().front().what.id == "actuals.no-column");
}

TEST_CASE("an importance and a price of a day late are numbers to compare by", "[week]") {
  const auto problem = [](const std::string& of_order) {
    return problem_of(file_with(medium, ", due: 2026-12-18, " + of_order)).what.id;
  };
  for (const char* wrong : {"0", "-1", "1e18", "1e-9"})
    CHECK(problem("importance: " + std::string(wrong)) == "week.importance-of");
  for (const char* wrong : {"0 EUR", "1e24 EUR"})
    CHECK(problem("day late: " + std::string(wrong)) == "week.day-late-out-of-range");
}

TEST_CASE("a promise is as wide as all rows that are times", "[week]") {
  auto row = [](BandRowId id, double amount, double band) {
    return BandRow{id, Amount(amount), band, Basis::typical};
  };
  // A part whose time the estimator gave: those rows are times like others.
  CHECK(time_band({row(BandRowId::given_times, 80, 0.1), row(BandRowId::setup_times, 20, 0.6)}) ==
        Approx(0.2));
  CHECK(time_band({row(BandRowId::cutting_speeds_and_feeds, 50, 0.3),
                   row(BandRowId::handling_times, 50, 0.1), row(BandRowId::inserts, 900, 0.9),
                   row(BandRowId::material_price, 900, 0.9),
                   row(BandRowId::other_work, 900, 0.9)}) == Approx(0.2));
  CHECK(time_band({row(BandRowId::inserts, 10, 0.9)}) == 0);
  CHECK(time_band({}) == 0);
}
