// SPDX-License-Identifier: MIT
// Why an order is late: the cause that binds, down to the first one.
#include <algorithm>

#include "instances.hpp"
#include "weeks.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// A week with so many machines, each open all the time, and its orders: "1" is the first lot.
struct MadeWeekPlan {
  Week week;
  WeekProblem problem;
  WeekPlan plan;
};
MadeWeekPlan planned(PlanProblem p) {
  MadeWeekPlan out;
  out.week.from = *read_date("2026-12-07");
  out.week.to = *read_date("2026-12-31");
  out.week.working.assign(25, true);
  out.week.machines.resize(p.machines.size());
  for (PlannedMachine& machine : p.machines) machine.calendar = Calendar({{0, 25 * minutes_a_day}});
  for (std::size_t j = 0; j < p.lots.size(); ++j) {
    out.week.orders.emplace_back();
    out.week.orders.back().number = std::to_string(j + 1);
    out.problem.orders.push_back(j);
    out.problem.batches.push_back(0);
  }
  for (const PlannedOperation& operation : p.operations)
    out.problem.names.push_back({static_cast<std::size_t>(operation.lot), 10});
  out.problem.band.assign(p.operations.size(), 0.1);
  out.problem.problem = std::move(p);
  out.plan = plan_week(out.week, out.problem, 50, 1);
  CHECK(out.plan.faults.empty());
  return out;
}
const Messages& chain_of(const MadeWeekPlan& planned, std::size_t lot) {
  const auto& late = planned.plan.late;
  const auto found = std::find_if(late.begin(), late.end(),
                                  [&](const LateReason& reason) { return reason.lot == lot; });
  REQUIRE(found != late.end());
  return found->chain;
}

}  // namespace

TEST_CASE("an order that is back from another firm after its machine is free waited for that",
          "[week]") {
  PlanProblem p;
  p.machines.resize(1);
  p.lots.resize(2);
  add_operation(p, 0, {plain(0, 60)});
  p.operations.back().days_after = 3;
  add_operation(p, 0, {plain(0, 60)});
  p.lots[0].due = minutes_a_day;
  // On the machine while the first is away.
  add_operation(p, 1, {plain(0, 600)});
  p.lots[1].due = 2 * minutes_a_day;
  const MadeWeekPlan week = planned(p);
  CHECK(chain_of(week, 0).front().id == "week.begins-after-outside");
}

TEST_CASE("a long chain is told by its beginning and its first cause", "[week]") {
  constexpr std::size_t orders = 15;
  PlanProblem p;
  p.machines.resize(1);
  p.lots.resize(orders);
  for (int j = 0; j < static_cast<int>(orders); ++j) {
    add_operation(p, j, {plain(0, 300)});
    p.lots[static_cast<std::size_t>(j)].due = 60 * (j + 1);
  }
  const MadeWeekPlan week = planned(p);
  const Messages& last = chain_of(week, orders - 1);
  REQUIRE(last.size() == 10);
  CHECK(last[7].id == "week.begins-after-machine");
  CHECK(english(last[8]) == "and so on, through 6 more operations, down to the first cause:");
  CHECK(last[9].id == "week.begins-freely");
  // One that is told whole.
  CHECK(chain_of(week, 9).size() == 10);
  CHECK(chain_of(week, 9)[8].id == "week.begins-after-machine");
}

TEST_CASE("somebody who is busy is so until he ends, whatever the pauses", "[week]") {
  // Ann sets up and attends all; Bea does what is left when she comes at ten.
  const Week week = week_in(
      "week: {from: 2026-12-07, to: 2026-12-31, now: 2026-12-07 06:00}\n"
      "shifts: [{name: early, from: \"06:00\", to: \"14:00\", pauses: [12:00-12:30]}, "
      "{name: noon, from: \"10:00\", to: \"18:00\"}, "
      "{name: day, from: \"06:00\", to: \"18:00\"}]\n"
      "machines: [{machine: \"CNC lathe, medium\", called: A, shifts: [early]}, "
      "{machine: \"CNC lathe, medium\", called: B, shifts: [day]}]\n"
      "people:\n- {name: Ann, shifts: [early], machines: all, sets: yes}\n"
      "- {name: Bea, shifts: [noon], machines: B, sets: yes}\n"
      "orders:\n"
      "- {order: 1, part: p30.yaml, quantity: 380, due: 2026-12-07, machine: A, state: running}\n"
      "- {order: 2, part: p40.yaml, quantity: 300, due: 2026-12-07, machine: B}\n");
  const PlannedWeek plan = planned_week(week, {shipped_shop(), part_by_name, nullptr, 1});
  Minute ends = 0, pauses = 0;
  for (const Stint& stint : plan.plan.plan.stints)
    if (stint.hand == 0 && plan.problem.names[static_cast<std::size_t>(stint.operation)].order == 0)
      (stint.to == 12 * 60 ? pauses : ends) = stint.to;
  REQUIRE(pauses == 12 * 60);
  std::string until;
  for (const LateReason& reason : plan.plan.late)
    for (const Message& link : reason.chain)
      if (link.id == "week.begins-when-set-up-by") until = english(link);
  INFO(until);
  CHECK(until.find("Ann is busy with 1 Op 10 until " + english(moment_of(week, ends))) !=
        std::string::npos);
}
