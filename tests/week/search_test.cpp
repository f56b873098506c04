// SPDX-License-Identifier: MIT
// What the search promises: a list worked from where it changed is the list worked whole, and an
// order less makes no week worse.
#include <algorithm>

#include <catch2/catch.hpp>

#include "../../src/week/bring_forward.hpp"
#include "made_problems.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/search.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

PlanProblem without_lot(const PlanProblem& problem, std::size_t gone) {
  PlanProblem fewer = problem;
  fewer.lots.erase(fewer.lots.begin() + static_cast<std::ptrdiff_t>(gone));
  fewer.operations.clear();
  for (std::size_t j = 0; j < fewer.lots.size(); ++j)
    for (int& o : fewer.lots[j].operations) {
      PlannedOperation operation = problem.operation(o);
      operation.lot = static_cast<int>(j);
      o = static_cast<int>(fewer.operations.size());
      fewer.operations.push_back(std::move(operation));
    }
  return fewer;
}

double found_score(const PlanProblem& problem) {
  constexpr double effort = 0.3;  // of the shipped one
  const DispatchOrder found =
      search_on(problem, first_lists(problem), {.moves = moves_for(problem, effort), .threads = 2});
  return Decoder(problem).score(found);
}

}  // namespace

TEST_CASE("a list worked from where it changed is the list worked whole", "[week][property]") {
  for (const MadeWeek& week : {MadeWeek{.orders = 30, .people = 1.05, .draw = 6},
                               MadeWeek{.orders = 90, .people = 0.7, .draw = 7}}) {
    const PlanProblem problem = made_problem(week);
    Decoder decoder(problem), whole(problem);
    DispatchOrder list = plain_dispatch(problem);
    const std::size_t n = list.lots.size();
    std::vector<PlannedRun> runs, expected;
    decoder.keep(0, decoder.score_changed({0, n - 1}, list, 1e300, runs));
    std::vector<PlannedRun> kept = runs;
    std::uint64_t state = week.draw;
    const auto below = [&](std::size_t m) {
      state = state * 6364136223846793005ULL + 1442695040888963407ULL;
      return static_cast<std::size_t>(state >> 33) % m;
    };
    for (int i = 0; i < 300; ++i) {
      const std::size_t a = below(n), b = below(n);
      const ChangedPlaces changed{std::min(a, b), std::max(a, b)};
      std::swap(list.lots[a], list.lots[b]);
      const double score = decoder.score_changed(changed, list, 1e300, runs);
      REQUIRE(score == whole.score(list, 1e300, expected));
      const auto from = static_cast<std::ptrdiff_t>(changed.first);
      std::copy(kept.begin(), kept.begin() + from, runs.begin());
      REQUIRE(std::equal(runs.begin(), runs.end(), expected.begin(), expected.end(),
                         [](const PlannedRun& x, const PlannedRun& y) {
                           return x.operation == y.operation && x.machine == y.machine &&
                                  x.setup_from == y.setup_from && x.run_from == y.run_from &&
                                  x.to == y.to && x.setup == y.setup;
                         }));
      if (below(3) == 0) {
        decoder.keep(changed.first, score);
        kept = runs;
      } else {
        std::swap(list.lots[a], list.lots[b]);
      }
    }
  }
}

TEST_CASE("an order less makes the score worse by half a percent at most",
          "[week][property][long]") {
  for (const MadeWeek& week : {MadeWeek{.orders = 12, .people = 1.05, .draw = 3},
                               MadeWeek{.orders = 10, .people = 0.9, .draw = 8},
                               MadeWeek{.orders = 14, .people = 1.0, .draw = 9}}) {
    const PlanProblem problem = made_problem(week);
    const double whole = found_score(problem);
    CHECK(whole <= Decoder(problem).score(plain_dispatch(problem)));
    for (std::size_t j = 0; j < problem.lots.size(); j += 3) {
      INFO(week.orders << " orders, without that of row " << j);
      CHECK(found_score(without_lot(problem, j)) <= whole * 1.005);
    }
  }
}

TEST_CASE("Work that is there runs while its machine would wait for other work", "[week]") {
  PlanProblem problem = made_problem({.orders = 12, .people = 0.9, .draw = 3});
  // What one lot needs comes late, and the list would have its machine wait for it.
  const DispatchOrder list = plain_dispatch(problem);
  const auto lot = static_cast<std::size_t>(list.lots.front());
  const int first = problem.lots[lot].operations.front();
  problem.operations[static_cast<std::size_t>(first)].ready = 3 * minutes_a_day;
  for (PlannedLot& planned : problem.lots) planned.due = 100 * minutes_a_day;

  Decoder decoder(problem);
  const auto sum_of_ends = [](const Plan& plan) {
    double sum = 0;
    for (const PlannedRun& run : plan.runs) sum += run.to;
    return sum;
  };
  const Plan before = decoder.plan(list);
  const Plan after = decoder.plan(brought_forward(problem, list));
  CHECK(after.score <= before.score + 1e-9);
  CHECK(sum_of_ends(after) < sum_of_ends(before));
  CHECK(faults_of(problem, after).empty());
}

TEST_CASE("of the same job, one right behind the other, what is due first comes first", "[week]") {
  PlanProblem problem = made_problem({.orders = 14, .people = 0.8, .draw = 5});
  problem.people = {};
  // One job on one machine; nothing is late, whoever comes first.
  for (std::size_t j = 0; j < problem.lots.size(); ++j) {
    PlannedLot& lot = problem.lots[j];
    lot.release = 0;
    lot.operations.resize(1);
    lot.due = static_cast<Minute>(100 - j) * minutes_a_day;
  }
  const auto first = static_cast<std::size_t>(problem.lots.front().operations.front());
  const PlannedOperation job = problem.operations[first];
  for (const PlannedLot& lot : problem.lots) {
    const auto o = static_cast<std::size_t>(lot.operations.front());
    const int of = problem.operations[o].lot;
    problem.operations[o] = job;
    problem.operations[o].lot = of;
    problem.operations[o].days_after = 0;
    problem.operations[o].choices.resize(1);
  }
  DispatchOrder list;
  list.choices.assign(problem.operations.size(), 0);
  for (std::size_t j = 0; j < problem.lots.size(); ++j) list.lots.push_back(static_cast<int>(j));
  Decoder decoder(problem);
  const double before = decoder.plan(list).score;
  const DispatchOrder sorted = brought_forward(problem, list);
  CHECK(decoder.plan(sorted).score <= before + 1e-9);
  int inversions = 0;
  for (std::size_t i = 0; i + 1 < sorted.lots.size(); ++i)
    inversions += sorted.lots[i] < sorted.lots[i + 1] ? 1 : 0;
  // Three passes of a bubble sort, each of neighbours.
  CHECK(inversions < static_cast<int>(list.lots.size()) - 1);
  CHECK(sorted.lots.back() != list.lots.back());
}
