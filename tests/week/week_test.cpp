// SPDX-License-Identifier: MIT
#include <algorithm>
#include <atomic>
#include <set>
#include <stdexcept>

#include "../support.hpp"
#include "instances.hpp"
#include "turnwright/quantity/in_parallel.hpp"
#include "turnwright/week/capacity.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/plan_week.hpp"
#include "turnwright/week/promise.hpp"
#include "turnwright/week/search.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::vector<Span> random_spans(Draws& draws, int most) {
  std::vector<Span> spans;
  for (int i = draws.whole(0, most); i > 0; --i) {
    const int from = draws.whole(0, 400);
    spans.push_back({from, from + draws.whole(1, 60)});
  }
  return joined(spans);
}
bool holds(const std::vector<Span>& spans, int t) {
  return std::any_of(spans.begin(), spans.end(),
                     [t](const Span& s) { return s.from <= t && t < s.to; });
}

// Invented: some machines with calendars, some people, orders with two or three operations.
PlanProblem random_problem(Draws& draws, int jobs, bool people) {
  PlanProblem p;
  const int days = 8, machines = draws.whole(2, 4);
  for (int m = 0; m < machines; ++m) {
    PlannedMachine machine;
    std::vector<Span> open;
    for (int d = 0; d < days; ++d)
      open.push_back({d * minutes_a_day + 360, d * minutes_a_day + (m % 2 == 0 ? 840 : 1320)});
    machine.calendar = Calendar(open);
    machine.mounted = {draws.whole(0, 3)};
    p.machines.push_back(machine);
  }
  if (people) {
    p.people.present.assign(days * minutes_a_day / time_step, 0);
    p.people.setters = p.people.present;
    for (int d = 0; d < days; ++d)
      for (int t = 72; t < 264; ++t) {
        const auto i = static_cast<std::size_t>(d * minutes_a_day / time_step + t);
        p.people.present[i] = t < 168 ? 3000 : 1000;
        p.people.setters[i] = t < 168 ? 2000 : 1000;
      }
  }
  for (int d = 0; d <= days; ++d) p.back_on.push_back(d < days ? (d + 1) * minutes_a_day : never);
  p.lots.resize(static_cast<std::size_t>(jobs));
  for (int j = 0; j < jobs; ++j) {
    PlannedLot& lot = p.lots[static_cast<std::size_t>(j)];
    lot.release = draws.whole(0, 2) * minutes_a_day;
    lot.due = lot.release + draws.whole(1, 5) * minutes_a_day;
    lot.weight = draws.whole(1, 3);
    lot.quoted = j % 4 == 3;
    for (int k = draws.whole(1, 3); k > 0; --k) {
      std::vector<Choice> choices;
      for (int m = 0; m < machines; ++m) {
        if (!choices.empty() && draws.whole(0, 1) == 0) continue;
        Choice c = plain(m, 5 * draws.whole(2, 40));
        c.setup = 5 * draws.whole(0, 6);
        c.attended = draws.whole(2, 10) * 100;
        for (int key = 0; key < 4; ++key)
          if (draws.whole(0, 1) == 0) c.items.push_back({key, 5 * draws.whole(0, 5)});
        choices.push_back(std::move(c));
      }
      add_operation(p, j, std::move(choices));
      p.operations.back().days_after = draws.whole(0, 3) == 0 ? draws.whole(1, 2) : 0;
      p.operations.back().transfer = draws.whole(0, 2) == 0 ? draws.whole(1, 9) / 10.0 : 1;
    }
  }
  return p;
}

}  // namespace

TEST_CASE("spans and calendars agree with counting minute by minute", "[week][property]") {
  Draws draws(7);
  for (int i = 0; i < 300; ++i) {
    const auto a = random_spans(draws, 8), b = random_spans(draws, 8);
    const auto less = without(a, b), both = in_both(a, b);
    const Calendar calendar(a);
    for (int t = 0; t < 470; ++t) {
      if (holds(less, t) != (holds(a, t) && !holds(b, t))) FAIL("without, at " << t);
      if (holds(both, t) != (holds(a, t) && holds(b, t))) FAIL("in_both, at " << t);
    }
    const int from = draws.whole(0, 450), work = draws.whole(1, 120);
    int t = from, left = work;
    for (; t < 470 && left > 0; ++t) left -= holds(a, t) ? 1 : 0;
    CHECK(calendar.after(from, work) == (left > 0 ? never : t));
    int open = 0;
    for (int k = from; k < from + work; ++k) open += holds(a, k) ? 1 : 0;
    CHECK(calendar.between(from, from + work) == open);
  }
}

TEST_CASE("Easter by Meeus's rule falls on the days that were kept", "[week][evidence]") {
  // Dates of the almanacs; the first three are the examples of Meeus, Astronomical Algorithms,
  // ch. 8.
  for (const auto& [year, date] : {std::pair{1991, "1991-03-31"},
                                   {1992, "1992-04-19"},
                                   {1993, "1993-04-11"},
                                   {2000, "2000-04-23"},
                                   {2008, "2008-03-23"},
                                   {2011, "2011-04-24"},
                                   {2024, "2024-03-31"},
                                   {2025, "2025-04-20"},
                                   {2026, "2026-04-05"},
                                   {2038, "2038-04-25"}})
    CHECK(text_of(easter(year)) == date);
}

TEST_CASE("every plan passes the checker, and every damaged plan does not", "[week][property]") {
  Draws draws(2026);
  int plans = 0, damaged = 0;
  for (int i = 0; i < 60; ++i) {
    const PlanProblem problem = random_problem(draws, draws.whole(3, 10), i % 2 == 0);
    DispatchOrder list = earliest_first(problem);
    if (i % 3 != 0) {
      SearchEffort effort;
      effort.moves = 100;
      list = search(problem, list, effort);
    }
    const Plan plan = Decoder(problem).plan(list);
    const auto faults = faults_of(problem, plan);
    INFO("problem " << i << (faults.empty() ? "" : ": " + english(faults.front())));
    REQUIRE(faults.empty());
    CHECK(plan.score == Decoder(problem).score(list));
    ++plans;
    for (int k = 0; k < 20; ++k) {
      Plan wrong = plan;
      auto& run = wrong.runs[static_cast<std::size_t>(
          draws.whole(0, static_cast<int>(wrong.runs.size()) - 1))];
      if (run.to == never) continue;
      const auto lot =
          static_cast<std::size_t>(problem.operations[static_cast<std::size_t>(run.operation)].lot);
      switch (draws.whole(0, 5)) {
        case 0:  // earlier than its order lets it, and than the machine is free
          run.setup_from -= 20 * minutes_a_day;
          break;
        case 1:  // too short
          run.to = run.run_from + (run.to - run.run_from) / 3;
          if (run.to == run.run_from) continue;
          break;
        case 2:
          run.setup += 5;
          break;
        case 3:
          run.machine = static_cast<int>(problem.machines.size());
          break;
        case 4:
          run.operation = (run.operation + 1) % static_cast<int>(problem.operations.size());
          if (problem.operations.size() == 1) continue;
          break;
        default:
          wrong.done[lot] += 5;
      }
      ++damaged;
      CHECK_FALSE(faults_of(problem, wrong).empty());
    }
  }
  CHECK(plans == 60);
  CHECK(damaged > 1000);
}

TEST_CASE("the same plan at any number of threads, and never worse than its start",
          "[week][property]") {
  Draws draws(5);
  for (int i = 0; i < 6; ++i) {
    const PlanProblem problem = random_problem(draws, 8, i % 2 == 0);
    SearchEffort effort;
    effort.moves = 300;
    const DispatchOrder start = earliest_first(problem);
    const DispatchOrder one = search(problem, start, effort);
    effort.threads = 5;
    const DispatchOrder five = search(problem, start, effort);
    CHECK(one.lots == five.lots);
    CHECK(one.choices == five.choices);
    Decoder decoder(problem);
    CHECK(decoder.score(one) <= decoder.score(start));
  }
}

TEST_CASE("of what workers throw the lowest number reaches the caller", "[week]") {
  for (const int threads : {1, 2, 5}) {
    std::atomic<int> done = 0;
    const auto work = [&](std::size_t i) {
      if (i % 3 == 1) throw std::runtime_error(std::to_string(i));
      ++done;
    };
    CHECK_THROWS_WITH(in_parallel(9, threads, work), "1");
    CHECK(done >= 1);  // number 0, which was begun before
    CHECK(done <= 6);
  }
}

TEST_CASE("no plan is below the bound, and more capacity never raises it", "[week][property]") {
  Draws draws(31);
  int tight = 0;
  for (int i = 0; i < 40; ++i) {
    PlanProblem problem = random_problem(draws, draws.whole(2, 8), i % 2 == 0);
    const double bound = least_lateness(problem);
    SearchEffort effort;
    effort.moves = 200;
    const Plan plan = Decoder(problem).plan(search(problem, earliest_first(problem), effort));
    CHECK(bound <= plan.lateness + 1e-9);
    tight += bound >= plan.lateness - 1e-9 ? 1 : 0;
    for (PlannedMachine& machine : problem.machines) {
      std::vector<Span> open = machine.calendar.open();
      for (const Span s : machine.calendar.open()) open.push_back({s.to, s.to + 60});
      machine.calendar = Calendar(open);
    }
    CHECK(least_lateness(problem) <= bound + 1e-9);
  }
  CHECK(tight > 0);
}

TEST_CASE("what is won rests on nothing that a quote sets up or proves", "[week]") {
  PlanProblem p;
  p.jobs = 1;
  p.machines.resize(1);
  p.lots.resize(4);
  for (int j = 0; j < 4; ++j) {
    Choice c = plain(0, 60);
    // All but the first are the same job.
    c.items = {{j == 0 ? 1 : 2, 30}};
    c.proving = j == 0 ? 0 : 20;
    add_operation(p, j, {c});
    p.operations.back().job = j == 0 ? -1 : 0;
  }
  const DispatchOrder list{{0, 1, 2, 3}, {0, 0, 0, 0}};
  const auto minutes_set_up = [&] {
    const Plan plan = Decoder(p).plan(list);
    CHECK(faults_of(p, plan).empty());
    std::vector<Minute> minutes;
    for (const PlannedRun& run : plan.runs) minutes.push_back(run.setup);
    return minutes;
  };
  const Plan all_won = Decoder(p).plan(list);
  CHECK(minutes_set_up() == std::vector<Minute>{30, 50, 0, 0});
  // With the second lost the third sets up and proves; a quote may rest on another.
  p.lots[1].quoted = true;
  CHECK(minutes_set_up() == std::vector<Minute>{30, 50, 50, 0});
  const Messages faults = faults_of(p, all_won);
  REQUIRE_FALSE(faults.empty());
  CHECK(faults.front().id == "week.fault-setup");
  p.lots[2].quoted = true;
  CHECK(minutes_set_up() == std::vector<Minute>{30, 50, 0, 50});
  // What a quote takes off is set up again.
  p.lots[3].quoted = p.lots[2].quoted = false;
  p.operations[0].choices[0].items[0].key = p.operations[3].choices[0].items[0].key = 2;
  p.operations[1].choices[0].items[0].key = 1;
  CHECK(minutes_set_up()[2] == 50);
}

TEST_CASE("relief is the cheapest that the hours need, and nothing where there is room", "[week]") {
  if (!has_linear_programs()) {
    WARN("skipped: built without linear programs");
    return;
  }
  // Two days of 480 minutes, three orders of 360 due on the second day: 120 minutes are missing.
  PlanProblem p;
  p.machines.resize(1);
  p.machines[0].calendar = Calendar({{360, 840}, {1800, 2280}, {3240, 3720}});
  p.lots.resize(3);
  for (int j = 0; j < 3; ++j) {
    p.lots[static_cast<std::size_t>(j)].due = 2 * minutes_a_day;
    add_operation(p, j, {plain(0, 360)});
  }
  ReliefPrices prices;
  prices.most = 120;
  prices.overtime = 30.0 * unit::money_per_h;
  auto relief = cheapest_relief(p, prices, 1);
  REQUIRE(relief);
  int minutes = 0;
  for (const Overtime& o : relief->overtime) minutes += o.minutes;
  CHECK(minutes == 120);
  CHECK_THAT(relief->cost.si, Catch::Matchers::WithinRel(60.0, 1e-9));
  // Another firm that takes six hours for less than the overtime of two.
  prices.subcontracted = 5.0 * unit::money_per_h;
  prices.days = 1;
  relief = cheapest_relief(p, prices, 1);
  REQUIRE(relief);
  CHECK(relief->overtime.empty());
  CHECK(relief->subcontracted.size() == 1);
  CHECK_THAT(relief->cost.si, Catch::Matchers::WithinRel(30.0, 1e-9));
  // Room for all: nothing is bought.
  p.lots[2].due = 3 * minutes_a_day;
  relief = cheapest_relief(p, prices, 1);
  REQUIRE(relief);
  CHECK(relief->overtime.empty());
  CHECK(relief->subcontracted.empty());
}

TEST_CASE("a batch in two is as much work, each with its setup", "[week]") {
  PlanProblem p;
  p.machines.resize(2);
  p.lots.resize(1);
  p.lots[0].due = 150;
  add_operation(p, 0, {plain(0, 200), plain(1, 200)});
  for (Choice& c : p.operations[0].choices) c.setup = 20;
  split_lot(p, 0, 2);
  REQUIRE(p.lots.size() == 2);
  const DispatchOrder list{{0, 1}, {0, 1}, 0};
  const Plan plan = Decoder(p).plan(list);
  CHECK(faults_of(p, plan).empty());
  CHECK(plan.done == std::vector<Minute>{120, 120});
  CHECK(plan.setup == 40);
  CHECK(plan.lateness == 0);
}

TEST_CASE("batches overlap: the first share goes on, the last comes after the end", "[week]") {
  // 100 minutes, then 60 on another machine, a fifth at a time: the second could begin at 20, and
  // begins when it need not wait for the last 20 pieces: 100 - 60 + 12, and 12 after the end.
  PlanProblem p;
  p.machines.resize(2);
  p.lots.resize(1);
  add_operation(p, 0, {plain(0, 100)});
  add_operation(p, 0, {plain(1, 60)});
  p.operations[0].transfer = 0.2;
  const DispatchOrder list{{0, 0}, {0, 0}, 0};
  Plan plan = Decoder(p).plan(list);
  CHECK(plan.runs[1].run_from == 55);  // in steps of five minutes
  CHECK(plan.done[0] == 115);
  CHECK(done_alone(p, p.lots[0], 0, 0) == 115);
  CHECK(faults_of(p, plan).empty());
  // A slower second: from the first 20 pieces on.
  p.operations[1].choices[0].run = 200;
  plan = Decoder(p).plan(list);
  CHECK(plan.runs[1].run_from == 20);
  CHECK(plan.done[0] == 220);
  plan.runs[1].setup_from = plan.runs[1].run_from = 15;
  plan.runs[1].to = 215;
  plan.done[0] = 215;
  CHECK_FALSE(faults_of(p, plan).empty());
  // Outside work waits for the whole batch.
  p.operations[0].days_after = 1;
  CHECK(Decoder(p).plan(list).runs[1].run_from == 100 + minutes_a_day);
}

TEST_CASE("what is frozen at the front of a list stays there", "[week]") {
  Draws draws(11);
  const PlanProblem problem = random_problem(draws, 9, false);
  DispatchOrder start = earliest_first(problem);
  start.frozen = 5;
  SearchEffort effort;
  effort.moves = 500;
  const DispatchOrder found = search(problem, start, effort);
  CHECK(std::equal(start.lots.begin(), start.lots.begin() + 5, found.lots.begin()));
}

TEST_CASE("strange weeks are planned or said to be none", "[week]") {
  PlanProblem p;
  p.machines.resize(1);
  p.machines[0].calendar = Calendar(std::vector<Span>{{0, 60}});
  p.lots.resize(3);
  p.lots[0].due = -minutes_a_day;  // due before it is there
  p.lots[0].release = 10;
  add_operation(p, 0, {plain(0, 0)});    // nothing to run
  add_operation(p, 1, {plain(0, 500)});  // larger than the calendar
  add_operation(p, 2, {plain(0, 60)});
  for (const auto& jobs : {std::vector{0, 1, 2}, {2, 1, 0}}) {
    DispatchOrder list{jobs, {0, 0, 0}, 0};
    const Plan plan = Decoder(p).plan(list);
    CHECK(faults_of(p, plan).empty());
    CHECK(plan.done[1] == never);
    CHECK(plan.score < 1e9);
  }
  // Nobody there: nothing that needs somebody is done.
  p.people.present.assign(12, 0);
  p.people.setters.assign(12, 0);
  for (PlannedOperation& o : p.operations) o.choices[0].attended = 1000;
  const Plan nobody = Decoder(p).plan(by_due_date(p));
  CHECK(nobody.done[2] == never);
  CHECK(faults_of(p, nobody).empty());
}

TEST_CASE("public instances come out at their published values", "[week][evidence][long]") {
  if (!have_instances()) {
    WARN("skipped: no instances beside the project");
    return;
  }
  SearchEffort effort;
  effort.moves = 60000;
  auto best = [&](const PlanProblem& problem) {
    const Plan plan = Decoder(problem).plan(search(problem, by_due_date(problem), effort));
    CHECK(faults_of(problem, plan).empty());
    return problem.score == Score::makespan ? plan.score : plan.lateness;
  };
  const auto known = known_values("jobshop/best_known.csv", 3);
  for (const char* name : {"ft06", "la01", "la06", "la11"})
    CHECK(best(job_shop(name)) == known.at(name));
  const auto flexible = known_values("flexjobshop/best_known.csv", 3);
  for (const char* name : {"fattahi1", "fattahi5", "fattahi8", "kacem1", "mk03"})
    CHECK(best(flexible_job_shop(name)) == flexible.at(name));
  const auto tardiness = known_values("parallel_setup/optimal.csv", 4);
  for (const char* name : {"ps01", "ps02", "ps03"})
    CHECK(best(parallel_setup(name, Score::weighted_tardiness)) == tardiness.at(name));
  // H. Crauwels, C. Potts, L. Van Wassenhove 1998, as in the OR-Library: wt40 numbers 1, 9, 25,
  // 105.
  const auto wt = weighted_tardiness(40);
  REQUIRE(wt.size() == 125);
  for (const auto& [number, value] : {std::pair{1, 913}, {9, 16225}, {25, 128747}, {105, 0}})
    CHECK(best(wt[static_cast<std::size_t>(number - 1)]) == value);
}
