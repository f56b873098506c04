// SPDX-License-Identifier: MIT
// People by name: who does what, checked; groups of machines; shifts that are worked once.
#include <algorithm>

#include "turnwright/week/check.hpp"
#include "weeks.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Invented: two lathes of a kind and a manual one, an early and a late shift.
std::string text_of_week(const std::string& people, const std::string& orders) {
  return "week: {from: 2026-12-07, to: 2026-12-31, now: 2026-12-07 06:00}\n"
         "shifts: [{name: early, from: \"06:00\", to: \"14:00\"}, "
         "{name: late, from: \"14:00\", to: \"22:00\"}, "
         "{name: once, days: [2026-12-12, 2026-12-25], from: \"06:00\", to: \"12:00\"}]\n"
         "holidays: [12-25]\n"
         "machines: [{machine: \"CNC lathe, medium\", called: A, shifts: [early, late, once]}, "
         "{machine: \"CNC lathe, medium\", called: B, shifts: [early, late]}, "
         "{machine: \"geared lathe, medium\", called: G, shifts: [early]}]\n"
         "groups: [{name: CNC, machines: [A, B]}]\n"
         "people:\n" +
         people + "orders:\n" + orders;
}
const std::string three =
    "- {name: Ann, shifts: [early], machines: all, sets: [CNC]}\n"
    "- {name: Ben, shifts: [late], machines: CNC, sets: yes}\n"
    "- {name: Cid, shifts: [early], machines: [A, G], sets: no}\n";
const std::string two =
    "- {order: 1, part: p30.yaml, quantity: 90, due: 2026-12-09}\n"
    "- {order: 2, part: p40.yaml, quantity: 160, due: 2026-12-10}\n";

PlannedWeek planned(const Week& week) {
  PlannedWeek plan = planned_week(week, {shipped_shop(), part_by_name, nullptr, 2});
  INFO(problems_text(plan.problems));
  CHECK(plan.problems.empty());
  CHECK(plan.plan.faults.empty());
  return plan;
}
bool finds(const PlanProblem& problem, const Plan& damaged, const std::string& id) {
  const Messages faults = faults_of(problem, damaged);
  return std::any_of(faults.begin(), faults.end(), [&](const Message& f) { return f.id == id; });
}
std::string refusal(const std::string& people, const std::string& orders) {
  const auto week = read_week("week.yaml", text_of_week(people, orders));
  if (!week) return week.problems().front().what.id;
  const PlannedWeek plan = planned_week(*week, {shipped_shop(), part_by_name, nullptr, 1});
  REQUIRE_FALSE(plan.problems.empty());
  return plan.problems.front().what.id;
}

}  // namespace

TEST_CASE("who does what is worked out, and the checker sees when it cannot be", "[week]") {
  const Week week = week_in(text_of_week(three, two));
  REQUIRE(week.people_by_name());
  const PlannedWeek plan = planned(week);
  const PlanProblem& problem = plan.problem.problem;
  const Plan& good = plan.plan.plan;
  REQUIRE(good.stints.size() > 4);
  const auto damaged = [&](auto damage) {
    Plan other = good;
    damage(other.stints);
    return other;
  };
  CHECK(finds(problem, damaged([](auto& all) { all.pop_back(); }), "week.fault-people"));
  CHECK(finds(problem, damaged([](auto& all) { all.push_back(all.front()); }),
              "week.fault-two-things"));
  CHECK(finds(problem, damaged([](auto& all) { all.front().hand = 7; }), "week.fault-nobody"));
  // Cid sets nothing up, and Ben comes at two.
  const auto set = std::find_if(good.stints.begin(), good.stints.end(),
                                [](const Stint& s) { return s.sets && s.hand == 0; });
  REQUIRE(set != good.stints.end());
  const auto at = set - good.stints.begin();
  CHECK(finds(problem, damaged([&](auto& all) { all[at].hand = 2; }), "week.fault-unable"));
  CHECK(finds(problem, damaged([&](auto& all) { all[at].hand = 1; }), "week.fault-absent"));
  CHECK(finds(problem, damaged([&](auto& all) {
                all[at].from += minutes_a_day;
                all[at].to += minutes_a_day;
              }),
              "week.fault-other-time"));
}

TEST_CASE("whoever can do least runs, and those who set up are free again", "[week]") {
  const std::string both =
      "- {name: Ann, shifts: [early], machines: all, sets: yes}\n"
      "- {name: Cid, shifts: [early], machines: [A, B], sets: no}\n";
  const Week week = week_in(text_of_week(
      both, "- {order: 1, part: p30.yaml, quantity: 90, due: 2026-12-09, machine: A}\n"));
  const PlannedWeek plan = planned(week);
  for (const Stint& stint : plan.plan.plan.stints) CHECK(stint.hand == (stint.sets ? 0 : 1));
}

TEST_CASE("a setup that is half done when the shift ends is ended by somebody who can", "[week]") {
  // Ann is there until two, and the order is released shortly before.
  const Week week =
      week_in(text_of_week(three,
                           "- {order: 1, part: p30.yaml, quantity: 9, due: 2026-12-09, machine: A, "
                           "release: 2026-12-07 13:40}\n"));
  const PlannedWeek plan = planned(week);
  std::vector<Stint> sets;
  for (const Stint& stint : plan.plan.plan.stints)
    if (stint.sets && stint.operation == plan.plan.plan.stints.front().operation)
      sets.push_back(stint);
  REQUIRE(sets.size() == 2);
  CHECK(sets[0].hand == 0);
  CHECK(sets[0].to == 14 * 60);
  CHECK(sets[1].hand == 1);
  CHECK(sets[1].from == 14 * 60);
}

TEST_CASE("a machine that nobody sets up takes no order, and one bound to it says why", "[week]") {
  const Week week = week_in(text_of_week(three, two));
  const PlannedWeek plan = planned(week);
  for (const PlannedRun& run : plan.plan.plan.runs) CHECK(week.machine(run.machine).name != "G");
  CHECK(
      refusal(three, "- {order: 1, part: p30.yaml, quantity: 9, due: 2026-12-09, machine: G}\n") ==
      "week.no-machine");
  // Nobody of whom the week says more than whether he sets: as before.
  const Week pool = week_in(text_of_week("- {name: Ann, shifts: [early], sets: yes}\n", two));
  CHECK_FALSE(pool.people_by_name());
  CHECK(planned(pool).plan.plan.stints.empty());
}

TEST_CASE("somebody is away, and what only he can do waits", "[week]") {
  const std::string away =
      "- {name: Ann, shifts: [early], machines: all, sets: yes, "
      "away: {from: 2026-12-07, to: 2026-12-09}}\n"
      "- {name: Cid, shifts: [early], machines: all, sets: no}\n";
  const Week week =
      week_in(text_of_week(away, "- {order: 1, part: p30.yaml, quantity: 9, due: 2026-12-09}\n"));
  const PlannedWeek plan = planned(week);
  CHECK(plan.plan.plan.runs.front().setup_from == 3 * minutes_a_day + 6 * 60);
}

TEST_CASE("a late order says that nobody was free, and with what they were busy", "[week]") {
  // Two machines are free and open; one person sets up and attends both.
  const std::string orders =
      "- {order: 1, part: p30.yaml, quantity: 300, due: 2026-12-07, machine: A}\n"
      "- {order: 2, part: p40.yaml, quantity: 300, due: 2026-12-07, machine: B}\n";
  const auto late = [&](const std::string& people) {
    const PlannedWeek plan = planned(week_in(text_of_week(people, orders)));
    Messages links;
    for (const LateReason& reason : plan.plan.late)
      links.insert(links.end(), reason.chain.begin(), reason.chain.end());
    return links;
  };
  const auto with = [](const Messages& links, const std::string& id) {
    return std::find_if(links.begin(), links.end(), [&](const Message& m) { return m.id == id; });
  };
  const Messages named = late("- {name: Ann, shifts: [early], machines: all, sets: yes}\n");
  const auto link = with(named, "week.begins-when-set-up-by");
  REQUIRE(link != named.end());
  const auto& people = std::get<Messages>(link->places.back().value);
  REQUIRE(people.size() == 1);
  CHECK(people.front().id == "week.busy-with");
  CHECK(std::get<std::string>(people.front().places.front().value) == "Ann");
  // The chain goes on with what she was busy with.
  CHECK(std::next(link) != named.end());
  const Messages pool = late("- {name: Ann, shifts: [early], sets: yes}\n");
  CHECK(with(pool, "week.begins-when-set-up") != pool.end());
  // With one for each machine nobody waits for people.
  const Messages enough = late(
      "- {name: Ann, shifts: [early, late], machines: A, sets: yes}\n"
      "- {name: Ben, shifts: [early, late], machines: B, sets: yes}\n");
  for (const Message& m : enough) {
    CHECK(m.id != "week.begins-when-set-up-by");
    CHECK(m.id != "week.left-for-people-by");
  }
}

TEST_CASE("what an order waits for adds up over its operations and over all orders", "[week]") {
  const PlannedWeek plan = planned(week_in(
      text_of_week("- {name: Ann, shifts: [early], machines: all, sets: yes}\n",
                   "- {order: 1, part: p30.yaml, quantity: 40, due: 2026-12-08, machine: A}\n"
                   "- {order: 2, part: p40.yaml, quantity: 40, due: 2026-12-07, machine: B, "
                   "release: 2026-12-07 08:00}\n")));
  const PlanProblem& problem = plan.problem.problem;
  const std::vector<Waiting> lots = waiting_by_lot(problem, plan.plan.plan);
  const Waiting all = waiting_of(problem, plan.plan.plan);
  REQUIRE(lots.size() == 2);
  CHECK(lots[0].people + lots[1].people == Approx(all.people));
  CHECK(lots[0].machine + lots[1].machine == Approx(all.machine));
  CHECK(all.people > 1);
  CHECK(lots[0].material == 0);
  CHECK(lots[1].material == Approx(2));
}

TEST_CASE("a group stands for its machines wherever a machine is named", "[week]") {
  const std::string order = "- {order: 1, part: p30.yaml, quantity: 9, due: 2026-12-09, ";
  const std::string all = "- {name: Ann, shifts: [early, late], machines: all, sets: yes}\n";
  const auto machines = [&](const std::string& wish) {
    const Week week = week_in(text_of_week(all, order + wish + "}\n"));
    std::vector<std::string> names;
    for (const PlannedRun& run : planned(week).plan.plan.runs)
      names.push_back(week.machine(run.machine).name);
    return names;
  };
  CHECK(machines("not on: CNC") == std::vector<std::string>{"G", "G"});
  for (const std::string& name : machines("machine: CNC")) CHECK(name != "G");
  const auto second =
      machines("not on: [{operation: 20, machine: CNC}, {operation: 10, machine: [A, G]}]");
  CHECK(second == std::vector<std::string>{"B", "G"});
  CHECK(machines("pin: [{operation: 10, machine: CNC}, {operation: 20, machine: G}]").back() ==
        "G");
  CHECK(refusal(all, order + "machine: CNC, not on: CNC}\n") == "week.machine-forbidden");
  CHECK(refusal(all, order + "not on: {operation: 10, machine: all}}\n") ==
        "week.machine-forbidden");
  CHECK(refusal(all, order + "not on: {operation: 70, machine: A}}\n") == "week.operation-unknown");
  CHECK(refusal(all, order + "machine: CNC, state: running}\n") == "week.runs-on-group");
  CHECK(refusal(all, order + "machine: CNCs}\n") == "week.not-of-the-week");
}

TEST_CASE("a shift is worked once, on a holiday too", "[week]") {
  const Week week = week_in(text_of_week(three, two));
  const Calendar& open = week.machines.front().open;
  CHECK(open.between(5 * minutes_a_day, 6 * minutes_a_day) == 6 * 60);
  CHECK(open.between(12 * minutes_a_day, 13 * minutes_a_day) == 0);  // the Saturday after
  CHECK(open.between(18 * minutes_a_day, 19 * minutes_a_day) == 6 * 60);
}

TEST_CASE("overtime is somebody's who sets the machine up and is there last", "[week]") {
  const Week week = week_in(text_of_week(three, two));
  const PlannedWeek plan = planned(week);
  PlanProblem more = plan.problem.problem;
  const auto there = [&](int hand, Minute t) {
    return more.people.named[static_cast<std::size_t>(hand)]
               .present[static_cast<std::size_t>(t / time_step)] != 0;
  };
  add_overtime(more, {2, 0, 120});  // nobody sets G up
  CHECK_FALSE(there(0, 14 * 60));
  add_overtime(more, {1, 0, 60});
  CHECK(there(1, 22 * 60));
  CHECK_FALSE(there(1, 23 * 60));
}

TEST_CASE("an operation waits for what it needs, and a day late has its own price", "[week]") {
  const std::string all = "- {name: Ann, shifts: [early, late], machines: all, sets: yes}\n";
  const Week week = week_in(
      text_of_week(all,
                   "- {order: 1, part: p30.yaml, quantity: 9, due: 2026-12-08, day late: 800 EUR, "
                   "material: {operation: 20, from: 2026-12-09 10:00}}\n"));
  const PlannedWeek plan = planned(week);
  const PlannedRun& second = plan.plan.plan.runs.back();
  CHECK(second.setup_from >= 2 * minutes_a_day + 10 * 60);
  REQUIRE(plan.plan.late.size() == 1);
  CHECK(plan.plan.late.front().chain.front().id == "week.begins-when-there");
  CHECK(plan.problem.problem.lots.front().weight ==
        Approx(800 / in(shipped_shop().policy.day_late, unit::money)));
  Plan early = plan.plan.plan;
  early.runs.back().setup_from -= minutes_a_day;
  CHECK(finds(plan.problem.problem, early, "week.fault-material"));
}
