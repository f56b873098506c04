// SPDX-License-Identifier: MIT
// What a plan is made for: money beside dates, running work where it runs, the same job again
// without its setup, and no change where nothing has changed.
#include <algorithm>
#include <sstream>

#include "turnwright/document/table.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/route_orders.hpp"
#include "weeks.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Invented: two lathes of a kind and a manual one, and parts by name.
std::string week_text(const std::vector<std::string>& orders, const std::string& more = "") {
  std::string text =
      "week: {from: 2026-12-07, to: 2026-12-31, now: 2026-12-07 06:00}\n"
      "shifts: [{name: early, from: \"06:00\", to: \"14:00\"}]\n"
      "machines: [{machine: \"CNC lathe, medium\", called: A, shifts: [early]" +
      more +
      "}, {machine: \"CNC lathe, medium\", called: B, shifts: [early]}, "
      "{machine: \"geared lathe, medium\", called: G, shifts: [early]}]\norders:\n";
  for (const std::string& order : orders) text += "- {" + order + "}\n";
  return text;
}
Week week_of(const std::vector<std::string>& orders, const std::string& more = "") {
  return week_in(week_text(orders, more));
}
PlannedWeek planned(const Week& week, const std::vector<PostedRun>* posted = nullptr,
                    const Shop& shop = shipped_shop()) {
  PlannedWeek plan = planned_week(week, {shop, part_by_name, posted, 2});
  INFO(problems_text(plan.problems));
  REQUIRE(plan.problems.empty());
  CHECK(plan.plan.faults.empty());
  return plan;
}
std::string table_of(const Week& week, const PlannedWeek& plan) {
  return week_table(week, plan.problem, plan.plan);
}
std::vector<PostedRun> posted_of(const Week& week, const std::string& table) {
  std::istringstream in(table);
  TableReader reader("plan.csv", in);
  auto posted = read_posted(week, reader);
  REQUIRE(posted);
  return *posted;
}
const PlannedRun& first_run(const PlannedWeek& plan, const Week& week, const std::string& order) {
  for (const PlannedRun& run : plan.plan.plan.runs) {
    const OperationName& n = plan.problem.names[static_cast<std::size_t>(run.operation)];
    if (week.orders[n.order].number == order) return run;
  }
  FAIL("no run of " << order);
  return plan.plan.plan.runs.front();
}

const std::vector<std::string> orders{"order: 1, part: p30.yaml, quantity: 40, due: 2026-12-09",
                                      "order: 2, part: p40.yaml, quantity: 60, due: 2026-12-10",
                                      "order: 3, part: p30.yaml, quantity: 30, due: 2026-12-11",
                                      "order: 4, part: p50.yaml, quantity: 25, due: 2026-12-09",
                                      "order: 5, part: p40.yaml, quantity: 20, due: 2026-12-14",
                                      "order: 6, part: p60.yaml, quantity: 15, due: 2026-12-08"};

}  // namespace

TEST_CASE("the order of the lines of a week changes nothing", "[week]") {
  const Week week = week_of(orders);
  const std::string table = table_of(week, planned(week));
  std::vector<std::string> other(orders.rbegin(), orders.rend());
  const Week turned = week_of(other);
  CHECK(table_of(turned, planned(turned)) == table);
  std::rotate(other.begin(), other.begin() + 2, other.end());
  const Week again = week_of(other);
  CHECK(table_of(again, planned(again)) == table);
}

TEST_CASE("planned again with nothing new, the posted plan comes back", "[week]") {
  const Week week = week_of(orders);
  const PlannedWeek plan = planned(week);
  const std::vector<PostedRun> posted = posted_of(week, table_of(week, plan));
  const PlannedWeek again = planned(week, &posted);
  CHECK(again.plan.changes->empty());
  CHECK(table_of(week, again) == table_of(week, plan));
}

TEST_CASE("the same job right behind pays no setup, and a new part is proved once", "[week]") {
  const Week week =
      week_of({"order: 1, part: p30.yaml, quantity: 40, due: 2026-12-09, machine: A",
               "order: 2, part: p30.yaml, quantity: 30, due: 2026-12-10, machine: A"});
  const PlannedWeek plan = planned(week);
  Decoder decoder(plan.problem.problem);
  // Whoever comes first proves it, on whichever machine; behind it there is nothing to set up.
  const auto& operations = plan.problem.problem.operations;
  REQUIRE(operations[0].choices.front().proving > 0);
  decoder.begin();
  CHECK(decoder.dispatch(0, 0).setup == whole_setup(operations[0].choices.front()));
  CHECK(decoder.dispatch(1, 0).setup == 0);
  decoder.begin();
  CHECK(decoder.dispatch(1, 0).setup == whole_setup(operations[0].choices.front()));
  CHECK(decoder.dispatch(0, 0).setup == 0);
  // Between them something else: set up again, not proved again.
  const Week three =
      week_of({"order: 1, part: p30.yaml, quantity: 4, due: 2026-12-09, machine: A",
               "order: 2, part: p40.yaml, quantity: 4, due: 2026-12-10, machine: A",
               "order: 3, part: p30.yaml, quantity: 4, due: 2026-12-11, machine: A"});
  const PlannedWeek other = planned(three);
  Decoder between(other.problem.problem);
  between.begin();
  const Minute first = between.dispatch(0, 0).setup;
  between.dispatch(1, 0);
  const Minute again = between.dispatch(2, 0).setup;
  CHECK(again > 0);
  CHECK(again <= first - other.problem.problem.operations[0].choices.front().proving);
}

TEST_CASE("what runs stays on its machine and comes first there", "[week]") {
  std::vector<std::string> with = orders;
  with.emplace_back(
      "order: 7, part: p45.yaml, quantity: 50, due: 2026-12-30, state: running, machine: B, done: "
      "5");
  const Week week = week_of(with);
  const PlannedWeek plan = planned(week);
  const PlannedRun& run = first_run(plan, week, "7");
  CHECK(week.machine(run.machine).name == "B");
  CHECK(run.setup == 0);
  CHECK(runs_on(plan.plan.plan, run.machine).front()->operation == run.operation);
  // The checker finds work that is put before it.
  Plan damaged = plan.plan.plan;
  PlanProblem problem = plan.problem.problem;
  for (PlannedRun& other : damaged.runs)
    if (other.machine == run.machine && other.operation != run.operation) {
      problem.operations[static_cast<std::size_t>(other.operation)].runs = true;
      break;
    }
  const Messages faults = faults_of(problem, damaged);
  CHECK(std::none_of(faults.begin(), faults.end(),
                     [](const Message& f) { return f.id == "week.fault-machine-taken"; }));
  problem.operations[static_cast<std::size_t>(run.operation)].runs = false;
  const Messages found = faults_of(problem, damaged);
  CHECK(std::any_of(found.begin(), found.end(),
                    [](const Message& f) { return f.id == "week.fault-runs-already"; }));
  // Its machine breaks down for longer than a day: it goes to another, and is set up there.
  const Week broken = week_of(
      {"order: 7, part: p45.yaml, quantity: 50, due: 2026-12-30, state: running, machine: A"},
      ", down: [{from: 2026-12-07, to: 2026-12-11}]");
  const PlannedWeek moved = planned(broken);
  const PlannedRun& other_lathe = first_run(moved, broken, "7");
  CHECK(broken.machine(other_lathe.machine).name != "A");
  CHECK(other_lathe.setup > 0);
}

TEST_CASE("where dates allow it the plan takes the machine that costs less", "[week]") {
  std::vector<std::string> easy;
  for (const std::string& order : orders)
    easy.push_back(order.substr(0, order.find("due:")) + "due: 2026-12-30");
  const Week week = week_of(easy);
  const PlannedWeek plan = planned(week);
  CHECK(plan.plan.plan.lateness == 0);
  const PlannedWork work = planned_work(plan.problem, plan.plan.plan);
  // Nothing is dearer than by itself where it costs least: to set up is shared.
  CHECK(work.planned.cost.si <= work.quoted.cost.si * (1 + 1e-9));
  Shop careless = shipped_shop();
  careless.policy.day_late = Amount(0.0);
  const PlannedWeek by_date = planned(week, nullptr, careless);
  // By dates alone work goes wherever a machine is free: to the manual lathe, for more hours.
  CHECK(work.planned.machine < planned_work(by_date.problem, by_date.plan.plan).planned.machine);
}

TEST_CASE("an order is bound to a machine of the week, else said with the nearest", "[week]") {
  const auto week =
      read_week("week.yaml",
                week_text({"order: 1, part: p30.yaml, quantity: 4, due: 2026-12-09, machine: C"}));
  REQUIRE_FALSE(week);
  REQUIRE(week.problems().size() == 1);
  CHECK(week.problems().front().what.id == "week.not-of-the-week");
  const Week bound =
      week_of({"order: 1, part: p30.yaml, quantity: 4, due: 2026-12-09, machine: G"});
  const PlannedWeek plan = planned(bound);
  for (const PlannedRun& run : plan.plan.plan.runs) CHECK(bound.machine(run.machine).name == "G");
}

TEST_CASE("what a week says that cannot be is a problem", "[week]") {
  const auto first_problem = [](const std::string& order) {
    const auto week = read_week("week.yaml", week_text({order}));
    REQUIRE_FALSE(week);
    return week.problems().front().what.id;
  };
  CHECK(first_problem("order: 1, part: p30.yaml, quantity: 20, due: 2026-12-09, state: running, "
                      "done: 50") == "week.done-of");
  const Week week =
      week_of({"order: 1, part: p30.yaml, quantity: 20, due: 2026-12-09, finished: [10, 99]"});
  const PlannedWeek plan = planned_week(week, Planning{shipped_shop(), part_by_name, nullptr, 1});
  REQUIRE(plan.problems.size() == 1);
  CHECK(plan.problems.front().what.id == "week.finished-unknown");
  const auto twice = read_week(
      "week.yaml", week_text({"order: 1, part: p30.yaml, quantity: 4, due: 2026-12-09"}) +
                       "people: [{name: Ann, shifts: [early]}, {name: Ann, shifts: [early]}]\n");
  REQUIRE_FALSE(twice);
  CHECK(twice.problems().front().what.id == "week.person-twice");
}

TEST_CASE("a week in which nothing can be done says so at its place", "[week]") {
  const std::string text = week_text({"order: 1, part: p30.yaml, quantity: 4, due: 2026-12-09"});
  const auto problem = [](std::string week, const std::string& from, const std::string& to) {
    week.replace(week.find(from), from.size(), to);
    const auto read = read_week("week.yaml", week);
    REQUIRE_FALSE(read);
    REQUIRE(read.problems().size() == 1);
    return read.problems().front().what.id;
  };
  CHECK(problem(text, "now: 2026-12-07", "now: 2027-01-07") == "week.now-after");
  CHECK(problem(text, "shifts: [{", "people: [{name: A, shifts: [early]}]\nshifts: [{") ==
        "week.nobody-sets");
  std::string holidays = "holidays: [";
  for (int day = 7; day <= 31; ++day)
    holidays += (day > 7 ? ", 2026-12-" : "2026-12-") + std::string(day < 10 ? "0" : "") +
                std::to_string(day);
  CHECK(problem(text, "shifts: [{", holidays + "]\nshifts: [{") == "week.never-open");
}

TEST_CASE("another firm's work is followed by the order's own outside work", "[week]") {
  PlanProblem p;
  p.machines.resize(1);
  p.machines[0].calendar = Calendar({{0, 25 * minutes_a_day}});
  p.lots.resize(1);
  p.lots[0].due = minutes_a_day;
  PlannedOperation operation;
  operation.choices.push_back({});
  operation.choices[0].run = 20 * 60;
  operation.days_after = 3;
  p.operations.push_back(operation);
  p.lots[0].operations = {0};
  Week week;
  week.from = *read_date("2026-12-07");
  week.to = *read_date("2026-12-31");
  week.working.assign(25, true);
  week.relief.subcontracted = 90.0 * unit::money_per_h;
  week.relief.days = 5;
  WeekProblem wp;
  wp.problem = p;
  wp.names = {{0, 10}};
  wp.orders = {0};
  wp.batches = {0};
  wp.band = {0.1};
  week.orders.resize(1);
  week.machines.resize(1);
  const WeekPlan plan = plan_week(week, wp, 100, 1);
  REQUIRE(plan.late.size() == 1);
  const Messages& trials = plan.late.front().trials;
  bool said = false;
  for (const Message& trial : trials)
    said = said || english(trial).find("7 days") != std::string::npos;
  CHECK(said);
}
