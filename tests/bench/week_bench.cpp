// SPDX-License-Identifier: MIT
// Not a test: the shipped search on public instances, each within about the seconds given, as a
// table.
//   build/tests/week-bench SECONDS [20]
// With a second word, the search on 200 orders is held against five with 20 times the moves.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <tuple>

#include "../week/instances.hpp"
#include "turnwright/week/capacity.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/search.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

double seconds_since(std::chrono::steady_clock::time_point from) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
}

// Moves for a time: measured on this machine, so that the bench fits any; the plan is by moves.
double solved(const PlanProblem& problem, double seconds, double target) {
  SearchEffort effort;
  effort.threads = static_cast<int>(std::thread::hardware_concurrency());
  effort.target = target;
  const DispatchOrder first = by_due_date(problem);
  effort.moves = 500;
  const auto begin = std::chrono::steady_clock::now();
  (void)search(problem, first, effort);
  const double each = seconds_since(begin) / effort.moves;
  effort.moves = static_cast<int>(std::min(2e7, std::max(2000.0, seconds / each)));
  Decoder decoder(problem);
  const Plan plan = decoder.plan(search(problem, first, effort));
  if (!faults_of(problem, plan).empty()) std::abort();
  return problem.score == Score::makespan ? plan.score : plan.lateness;
}

void family(const char* name, const std::map<std::string, double>& known, double seconds,
            PlanProblem (*read)(const std::string&)) {
  double sum = 0, worst = 0;
  int n = 0, equal = 0;
  for (const auto& [instance, value] : known) {
    const PlanProblem problem = read(instance);
    if (problem.operations.empty()) continue;
    const double found = solved(problem, seconds, value + 0.5);
    const double above = 100 * (found - value) / std::max(value, 1.0);
    std::printf("  %-10s %7.0f of %7.0f  %+6.2f %%\n", instance.c_str(), found, value, above);
    std::fflush(stdout);
    sum += above;
    worst = std::max(worst, above);
    equal += above <= 1e-9 ? 1 : 0;
    ++n;
  }
  if (n > 0)
    std::printf("%s: %d instances, mean %+.2f %%, worst %+.2f %%, %d at the known value\n", name, n,
                sum / n, worst, equal);
}

// Weeks of ours, invented: shifts of eight and sixteen hours, half as many people as machines.
PlanProblem synthetic(int machines, int orders, int days, std::uint64_t draw) {
  std::uint64_t state = draw;
  auto whole = [&](int low, int high) {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return low + static_cast<int>((state >> 33) % static_cast<std::uint64_t>(high - low + 1));
  };
  PlanProblem p;
  for (int m = 0; m < machines; ++m) {
    std::vector<Span> open;
    for (int d = 0; d < days; ++d)
      if (d % 7 < 5)
        open.push_back({d * minutes_a_day + 360, d * minutes_a_day + (m % 2 == 0 ? 840 : 1320)});
    p.machines.push_back({Calendar(open), {}});
  }
  p.people.present.assign(static_cast<std::size_t>(days * minutes_a_day / time_step), 0);
  for (int d = 0; d < days; ++d)
    for (int t = 72; t < 264; ++t)
      p.people.present[static_cast<std::size_t>(d * minutes_a_day / time_step + t)] =
          machines * 500;
  p.people.setters = p.people.present;
  for (int d = 0; d <= days; ++d) p.back_on.push_back(d < days ? (d + 1) * minutes_a_day : never);
  p.lots.resize(static_cast<std::size_t>(orders));
  for (int j = 0; j < orders; ++j) {
    PlannedLot& lot = p.lots[static_cast<std::size_t>(j)];
    lot.release = whole(0, days / 3) * minutes_a_day;
    lot.due = lot.release + whole(4, days) * minutes_a_day;
    for (int k = 0; k < 3; ++k) {
      std::vector<Choice> choices;
      const int first = whole(0, machines - 1);
      for (int i = 0; i < 2; ++i) {
        Choice c = plain((first + i) % machines, 5 * whole(3, 46));
        c.setup = 5 * whole(2, 10);
        c.attended = 100 * whole(2, 6);
        for (int key = 0; key < 3; ++key) c.items.push_back({whole(0, 12), 5 * whole(1, 4)});
        choices.push_back(std::move(c));
      }
      add_operation(p, j, std::move(choices));
    }
  }
  return p;
}
struct Row {
  std::size_t operations;
  double each;
};
// A plan's time against the number of operations: a straight line is what it should be.
void draw(const std::vector<Row>& rows) {
  double most = 0;
  for (const Row& row : rows) most = std::max(most, row.each);
  for (const Row& row : rows) {
    std::printf("  %6zu ", row.operations);
    for (int i = static_cast<int>(60 * row.each / most); i >= 0; --i) std::printf("#");
    std::printf(" %.0f us\n", row.each * 1e6);
  }
}
void growth() {
  std::printf("weeks of ours\n");
  std::vector<Row> rows;
  for (const auto& [machines, orders, days] : {std::tuple{12, 33, 21},
                                               {12, 100, 21},
                                               {12, 200, 21},
                                               {24, 800, 28},
                                               {60, 2000, 28},
                                               {60, 5000, 42}}) {
    const PlanProblem problem = synthetic(machines, orders, days, 7);
    auto begin = std::chrono::steady_clock::now();
    const DispatchOrder first = earliest_first(problem);
    const double listed = seconds_since(begin);
    Decoder decoder(problem);
    begin = std::chrono::steady_clock::now();
    int decoded = 0;
    while (seconds_since(begin) < 0.5) decoder.score(first), ++decoded;
    const double each = seconds_since(begin) / decoded;
    rows.push_back({problem.operations.size(), each});
    begin = std::chrono::steady_clock::now();
    const auto bound = orders <= 200 ? capacity_bound(problem) : std::nullopt;
    std::printf(
        "  %2d machines, %4d orders, %5zu operations: first list %.3f s, a plan %8.1f us (%.2f us "
        "an operation, %.0f a second), lateness %.1f, alone %.1f, by the hours %.1f (%.2f s)\n",
        machines, orders, problem.operations.size(), listed, each * 1e6,
        each * 1e6 / static_cast<double>(problem.operations.size()), 1 / each,
        decoder.plan(first).lateness, least_lateness(problem), bound.value_or(-1),
        seconds_since(begin));
    std::fflush(stdout);
  }
  draw(rows);
}

SearchEffort effort_of(int moves) {
  SearchEffort effort;
  effort.threads = static_cast<int>(std::thread::hardware_concurrency());
  effort.moves = moves;
  return effort;
}

// Two hundred orders: what the shipped number of moves finds, beside the best of five searches with
// twenty times the moves; a breakdown planned again; a promise.
void two_hundred(bool against_twenty) {
  for (const std::uint64_t draw : {7, 8, 9}) {
    const PlanProblem problem = synthetic(12, 200, 21, draw);
    const int moves = moves_for(problem);
    Decoder decoder(problem);
    auto begin = std::chrono::steady_clock::now();
    const std::vector<DispatchOrder> first = first_lists(problem);
    const DispatchOrder list = search_on(problem, first, effort_of(moves));
    const double took = seconds_since(begin);
    const Plan plan = decoder.plan(list);
    if (!faults_of(problem, plan).empty()) std::abort();
    std::printf("200 orders, week %d: %d moves, %.1f s, lateness %.2f", static_cast<int>(draw),
                moves, took, plan.lateness);
    std::fflush(stdout);
    if (against_twenty) {
      double best = 1e300;
      for (std::uint64_t run = 0; run < 5; ++run) {
        SearchEffort effort = effort_of(20 * moves);
        effort.first_draw = 100 + run;
        best = std::min(best, decoder.plan(search(problem, first, effort)).lateness);
      }
      std::printf(", best of five with 20 x the moves %.2f: %+.1f %%", best,
                  100 * (plan.lateness - best) / std::max(best, 1.0));
    }
    // A machine is down for three days: what is posted stays as far as it can.
    PlanProblem broken = problem;
    for (const PlannedRun& run : plan.runs) {
      broken.old_start.resize(problem.operations.size(), never);
      broken.old_machine.resize(problem.operations.size(), -1);
      broken.old_start[static_cast<std::size_t>(run.operation)] = run.setup_from;
      broken.old_machine[static_cast<std::size_t>(run.operation)] = run.machine;
    }
    broken.machines[0].calendar = Calendar(
        without(problem.machines[0].calendar.open(), {{minutes_a_day, 4 * minutes_a_day}}));
    begin = std::chrono::steady_clock::now();
    SearchEffort mild = effort_of(moves_again(broken));
    mild.heat = 0.02;
    FirstList near;
    near.choices = list.choices;
    near.rank.assign(broken.old_start.begin(), broken.old_start.end());
    std::vector<DispatchOrder> starts{list};
    for (const Minute window : {0, 240, minutes_a_day}) {
      near.window = window;
      starts.push_back(earliest_first(broken, near));
    }
    const DispatchOrder again = search(broken, starts, mild);
    const double replanned = seconds_since(begin);
    int changed = 0;
    const Plan after = Decoder(broken).plan(again);
    for (const PlannedRun& run : after.runs)
      changed += moved(broken, run.operation, run.machine, run.setup_from) ? 1 : 0;
    std::printf("; after a breakdown %.1f s, %d of %zu moved, lateness %.2f\n", replanned, changed,
                problem.operations.size(), after.lateness);
    std::fflush(stdout);
  }
}

}  // namespace

int main(int count, char** words) {
  const double seconds = count > 1 ? std::atof(words[1]) : 10;
  growth();
  two_hundred(count > 2);
  if (!have_instances()) {
    std::printf("no instances beside the project: nothing to do\n");
    return 0;
  }
  family("job shops", known_values("jobshop/best_known.csv", 3), seconds, job_shop);
  family("flexible job shops", known_values("flexjobshop/best_known.csv", 3), seconds,
         flexible_job_shop);
  family("parallel machines with setup times, weighted tardiness",
         known_values("parallel_setup/optimal.csv", 4), seconds / 5,
         [](const std::string& name) { return parallel_setup(name, Score::weighted_tardiness); });
  family("parallel machines with setup times, makespan",
         known_values("parallel_setup/optimal.csv", 5), seconds / 5,
         [](const std::string& name) { return parallel_setup(name, Score::makespan); });
  return 0;
}
