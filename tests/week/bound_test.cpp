// SPDX-License-Identifier: MIT
#include "turnwright/week/bound.hpp"

#include <algorithm>

#include "../support.hpp"
#include "made_problems.hpp"
#include "turnwright/week/capacity.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/search.hpp"

using namespace turnwright;
using namespace turnwright::test;
using Cause = LatenessBound::Cause;

namespace {

// Shifts of eight hours, a machine that is down for a day, now and then a machine that is always
// there for half a day; one or two people, one of whom sets up.
void add_shop(Draws& draws, PlanProblem& p) {
  const int days = 9, machines = draws.whole(1, 3);
  for (int m = 0; m < machines; ++m) {
    std::vector<Span> open;
    const int down = draws.whole(0, 12), from = 5 * draws.whole(60, 90);
    for (int d = 0; d < days; ++d)
      if (d != down) open.push_back({d * minutes_a_day + from, d * minutes_a_day + from + 480});
    PlannedMachine machine;
    machine.calendar = Calendar(open);
    machine.mounted = {draws.whole(0, 3)};
    p.machines.push_back(std::move(machine));
  }
  for (int d = 0; d <= days; ++d)
    p.back_on.push_back(d < days && d % 7 < 5 ? (d + 1) * minutes_a_day : never);
  for (int d = 5; d < 7; ++d) p.back_on[static_cast<std::size_t>(d)] = 8 * minutes_a_day;
  if (draws.whole(0, 2) == 0) return;
  p.people.present.assign(days * minutes_a_day / time_step, 0);
  const int there = draws.whole(1, 2);
  for (int d = 0; d < days; ++d)
    for (int t = 72; t < 180; ++t)
      p.people.present[static_cast<std::size_t>(d * minutes_a_day / time_step + t)] =
          1000 * (t % 24 < 3 ? 1 : there);
  p.people.setters = p.people.present;
  for (int& n : p.people.setters) n = std::min(n, 1000);
}

Choice random_choice(Draws& draws, int machine) {
  Choice c;
  c.machine = machine;
  c.run = 5 * draws.whole(1, 120);
  c.setup = 5 * draws.whole(0, 4);
  c.proving = 5 * draws.whole(0, 6);
  c.attended = 100 * draws.whole(0, 10);
  for (int key = 0; key < 4; ++key)
    if (draws.whole(0, 1) == 0) c.items.push_back({key, 5 * draws.whole(0, 8)});
  return c;
}

// So many operations in orders of one or two, some in two batches; small enough to try every list.
PlanProblem small_problem(Draws& draws, int operations) {
  PlanProblem p;
  add_shop(draws, p);
  p.jobs = 3;
  p.score = draws.whole(0, 3) == 0 ? Score::weighted_tardiness : Score::convex_lateness;
  while (static_cast<int>(p.operations.size()) < operations) {
    PlannedLot lot;
    lot.release = draws.whole(0, 2) * minutes_a_day / 2;
    lot.due = draws.whole(-2, 4) * minutes_a_day;
    lot.weight = draws.whole(1, 3);
    for (int k = draws.whole(1, 2); k > 0; --k) {
      PlannedOperation o;
      o.lot = static_cast<int>(p.lots.size());
      o.job = draws.whole(-1, 2);
      o.days_after = draws.whole(0, 4) == 0 ? draws.whole(1, 2) : 0;
      o.transfer = draws.whole(0, 3) == 0 ? 0.25 : 1;
      o.ready = draws.whole(0, 4) == 0 ? 5 * draws.whole(0, 500) : 0;
      const int count = static_cast<int>(p.machines.size()), first = draws.whole(0, count - 1);
      for (int c = 0; c < std::min(count, draws.whole(1, 2)); ++c)
        o.choices.push_back(random_choice(draws, (first + c) % count));
      lot.operations.push_back(static_cast<int>(p.operations.size()));
      p.operations.push_back(std::move(o));
    }
    p.lots.push_back(std::move(lot));
  }
  if (draws.whole(0, 2) == 0) split_lot(p, 0, 2);
  return p;
}

// The least lateness of all lists, on all machines.
double least_of_all(const PlanProblem& problem) {
  Decoder decoder(problem);
  DispatchOrder order;
  for (std::size_t j = 0; j < problem.lots.size(); ++j)
    order.lots.insert(order.lots.end(), problem.lots[j].operations.size(), static_cast<int>(j));
  order.choices.assign(problem.operations.size(), 0);
  double least = 1e300;
  const auto next_choices = [&] {
    for (std::size_t o = 0; o < order.choices.size(); ++o) {
      if (++order.choices[o] < static_cast<int>(problem.operations[o].choices.size())) return true;
      order.choices[o] = 0;
    }
    return false;
  };
  do {
    std::sort(order.lots.begin(), order.lots.end());
    do least = std::min(least, decoder.plan(order).lateness);
    while (std::next_permutation(order.lots.begin(), order.lots.end()));
  } while (next_choices());
  return least;
}

// On one machine that is open for a shift a day: so many orders of a shift each, all due at once.
PlanProblem shift_each(int orders, Minute due) {
  PlanProblem p;
  std::vector<Span> open;
  for (int d = 0; d < 30; ++d) open.push_back({d * minutes_a_day + 360, d * minutes_a_day + 840});
  p.machines.resize(1);
  p.machines[0].calendar = Calendar(open);
  for (int j = 0; j < orders; ++j) {
    PlannedLot lot;
    lot.due = due;
    lot.operations = {j};
    PlannedOperation o;
    o.lot = j;
    Choice c;
    c.run = 480;
    o.choices = {c};
    p.operations.push_back(o);
    p.lots.push_back(lot);
  }
  return p;
}

}  // namespace

TEST_CASE("no list of a small problem is below the bound", "[week][property]") {
  Draws draws(411);
  int above_alone = 0, near = 0, late = 0;
  for (int i = 0; i < 400; ++i) {
    const PlanProblem problem = small_problem(draws, i % 20 == 0 ? 6 : 4);
    if (problem.operations.size() > 6) continue;
    const double least = least_of_all(problem);
    if (least <= 0) continue;
    ++late;
    // Whatever plan is at hand, a good one or a poor one.
    for (const double found : {least, 3 * least, 1e6}) {
      CAPTURE(i, found);
      const LatenessBound bound = lateness_bound(problem, found);
      CHECK(bound.least <= least * (1 + 1e-9) + 1e-9);
      CHECK(bound.least >= least_lateness(problem) - 1e-9);
    }
    const double bound = lateness_bound(problem, least).least;
    above_alone += bound > least_lateness(problem) + 0.01 ? 1 : 0;
    near += bound >= 0.75 * least ? 1 : 0;
  }
  CHECK(late > 250);
  CHECK(above_alone > 60);
  CHECK(near > late / 2);
}

TEST_CASE("no plan that is found is below the bound", "[week][property][long]") {
  for (std::uint64_t draw = 1; draw <= 16; ++draw) {
    MadeWeek week{.orders = 12 + static_cast<int>(draw), .days = 28, .draw = draw};
    week.people = 0.7 + 0.05 * static_cast<double>(draw % 12);
    week.machines = draw % 3 == 0 ? 1.1 : 0.6;
    PlanProblem problem = made_problem(week);
    for (PlannedLot& lot : problem.lots) lot.due -= static_cast<int>(draw % 4) * 5 * minutes_a_day;
    const Plan plan = Decoder(problem).plan(
        search_on(problem, first_lists(problem), {.moves = 500, .threads = 2}));
    REQUIRE(faults_of(problem, plan).empty());
    CAPTURE(draw);
    CHECK(lateness_bound(problem, plan.lateness).least <= plan.lateness * (1 + 1e-9));
    CHECK(lateness_bound(problem, 4 * plan.lateness + 10).least <= plan.lateness * (1 + 1e-9));
  }
}

TEST_CASE("the bound of orders on one machine is near, and names the machine", "[week]") {
  const PlanProblem problem = shift_each(8, 0);
  // One a day, each done at 14:00: 0.583, 1.583 … days late.
  double known = 0;
  for (int d = 0; d < 8; ++d) known += convex_days(d * minutes_a_day + 840);
  const LatenessBound bound = lateness_bound(problem, known);
  CHECK(bound.least <= known);
  CHECK(bound.least > 0.9 * known);
  CHECK(tells(bound, known));
  CHECK(bound.cause == Cause::machine);
  CHECK(bound.machine == 0);
}

TEST_CASE("one person between two machines decides, and one who sets up", "[week]") {
  PlanProblem problem = shift_each(6, 0);
  problem.machines.push_back(problem.machines[0]);
  for (PlannedOperation& o : problem.operations) {
    o.choices.push_back(o.choices[0]);
    o.choices[1].machine = 1;
    for (Choice& c : o.choices) c.attended = 1000;
  }
  problem.people.present.assign(30 * minutes_a_day / time_step, 1000);
  problem.people.setters = problem.people.present;
  double known = 0;
  for (int d = 0; d < 6; ++d) known += convex_days(d * minutes_a_day + 840);
  CHECK(lateness_bound(problem, known).cause == Cause::people);
  CHECK(lateness_bound(problem, known).least > 0.9 * known);

  // Two people, of whom one sets up, and nothing but setting up to do.
  for (PlannedOperation& o : problem.operations)
    for (Choice& c : o.choices) c.setup = 475, c.run = 5;
  for (int& n : problem.people.present) n = 2000;
  CHECK(lateness_bound(problem, known).cause == Cause::setters);
}

TEST_CASE("orders with room are as late as each alone, whatever plan is at hand", "[week]") {
  const PlanProblem problem = shift_each(1, 0);
  const double alone = least_lateness(problem);
  CHECK(lateness_bound(problem, alone).least == alone);
  CHECK(lateness_bound(problem, 100).least >= alone - 1e-6);
  CHECK(lateness_bound(problem, 100).cause == Cause::each_lot);
  CHECK_FALSE(tells({0.7, Cause::people, -1}, 1));
  CHECK(tells({0.8, Cause::people, -1}, 1));
  CHECK_FALSE(tells({0, Cause::each_lot, -1}, 0));

  PlanProblem lasts = problem;
  lasts.score = Score::makespan;
  CHECK(lateness_bound(lasts, 100).least == 0);
}
