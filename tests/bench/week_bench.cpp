// SPDX-License-Identifier: MIT
// Not a test: the shipped search on public instances and on invented weeks, as tables.
//   build/tests/week-bench instances [SECONDS [EVERY [FAMILY]]]
//   build/tests/week-bench weeks [20 [EVERY]]
//   build/tests/week-bench growth
//   build/tests/week-bench bounds [MOST [DAYS]]
// MOST orders of weeks that are short of people, or of machines; DAYS that all are overdue.
// Seconds are of two cores, told by the time that the processor worked, so that a busy machine says
// the same; EVERY: each so many-th instance or week alone.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <functional>
#include <tuple>

#include "../week/instances.hpp"
#include "../week/made_problems.hpp"
#include "turnwright/week/bound.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/search.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

constexpr int cores = 2;

double worked() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

double value_of(const PlanProblem& problem, const DispatchOrder& list) {
  const Plan plan = Decoder(problem).plan(list);
  if (!faults_of(problem, plan).empty()) std::abort();
  return problem.score == Score::makespan ? plan.score : plan.lateness;
}

// Moves for a time: measured on this machine, so that the bench fits any; the plan is by moves.
double solved(const PlanProblem& problem, double seconds, double target) {
  SearchEffort effort;
  effort.threads = cores;
  effort.target = target;
  const DispatchOrder first = by_due_date(problem);
  effort.moves = 1000;
  for (int tries = 0; tries < 2; ++tries) {
    const double begin = worked();
    const double value = value_of(problem, search_on(problem, {first}, effort));
    if (value <= target) return value;
    const double each = std::max(1e-7, (worked() - begin) / effort.moves);
    const double moves = seconds * cores / each;
    effort.moves = static_cast<int>(std::min(2e7, tries == 0 ? moves / 5 : moves * 0.8));
  }
  return value_of(problem, search_on(problem, {first}, effort));
}

struct Family {
  int n = 0, equal = 0;
  double sum = 0, worst = 0;
};
void add(Family& family, double found, double known) {
  const double above = 100 * (found - known) / std::max(known, 1.0);
  family.sum += above;
  family.worst = std::max(family.worst, above);
  family.equal += above <= 1e-9 ? 1 : 0;
  ++family.n;
}
void report(const char* name, const Family& family) {
  if (family.n > 0)
    std::printf("%s: %d instances, mean %+.2f %%, worst %+.2f %%, %d at the known value\n", name,
                family.n, family.sum / family.n, family.worst, family.equal);
  std::fflush(stdout);
}

struct Bench {
  double seconds = 2;
  int every = 1;
  const char* only = nullptr;

  bool leaves_out(const char* name) const {
    return only != nullptr && std::strstr(name, only) == nullptr;
  }
  void named(const char* name, const std::map<std::string, double>& known, double share,
             const std::function<PlanProblem(const std::string&)>& read) const {
    if (leaves_out(name)) return;
    Family family;
    int i = 0;
    for (const auto& [instance, value] : known) {
      if (i++ % every != 0) continue;
      const PlanProblem problem = read(instance);
      if (problem.operations.empty()) continue;
      const double found = solved(problem, seconds * share, value + 0.5);
      if (found > value)
        std::printf("  %-10s %7.0f of %7.0f  %+6.2f %%\n", instance.c_str(), found, value,
                    100 * (found - value) / value);
      std::fflush(stdout);
      add(family, found, value);
    }
    report(name, family);
  }
  void one_machine(const char* name, int jobs) const {
    if (leaves_out(name)) return;
    std::ifstream in(instances_folder() + "wt/wtopt" + std::to_string(jobs) + ".txt");
    Family family;
    int i = 0;
    for (const PlanProblem& problem : weighted_tardiness(jobs)) {
      double value = 0;
      in >> value;
      if (i++ % every == 0) add(family, solved(problem, seconds / 4, value + 0.5), value);
    }
    report(name, family);
  }
};

void instances(const Bench& bench) {
  if (!have_instances()) {
    std::printf("no instances beside the project: nothing to do\n");
    return;
  }
  bench.named("job shops", known_values("jobshop/best_known.csv", 3), 1, job_shop);
  bench.named("flexible job shops", known_values("flexjobshop/best_known.csv", 3), 1,
              flexible_job_shop);
  bench.one_machine("one machine, 40 jobs", 40);
  bench.one_machine("one machine, 50 jobs", 50);
  bench.named("parallel machines, tardiness", known_values("parallel_setup/optimal.csv", 4), 0.25,
              [](const std::string& n) { return parallel_setup(n, Score::weighted_tardiness); });
  bench.named("parallel machines, makespan", known_values("parallel_setup/optimal.csv", 5), 0.25,
              [](const std::string& n) { return parallel_setup(n, Score::makespan); });
}

// What the shipped number of moves finds, beside plain dispatch and, where asked for, a search with
// 20 times the moves.
void weeks(double times, int every) {
  int i = 0;
  double sum = 0, worst = 0;
  int n = 0;
  for (const MadeWeek& week : thirty_weeks()) {
    if (i++ % every != 0) continue;
    const PlanProblem problem = made_problem(week);
    Decoder decoder(problem);
    const double plain = decoder.score(plain_dispatch(problem));
    const auto found_with = [&](double effort) {
      SearchEffort e;
      e.threads = cores;
      e.moves = moves_for(problem, effort);
      return decoder.plan(search_on(problem, first_lists(problem), e));
    };
    const double begin = worked();
    const Plan plan = found_with(1);
    const double took = worked() - begin;
    if (!faults_of(problem, plan).empty()) std::abort();
    std::printf(
        "%3d orders, people %3.0f %%: plain %8.2f, first %8.2f, found %8.2f (late %7.2f), %5.1f s",
        week.orders, 100 * week.people, plain, decoder.score(first_lists(problem).front()),
        plan.score, plan.lateness, took);
    std::fflush(stdout);
    if (times > 1) {
      const double longer = found_with(times).score;
      const double above = 100 * (plan.score - longer) / longer;
      std::printf(", %g times %8.2f: %+.2f %%", times, longer, above);
      sum += above;
      worst = std::max(worst, above);
      ++n;
    }
    std::printf("\n");
    std::fflush(stdout);
  }
  if (n > 0)
    std::printf("above a search with %g times the moves: mean %+.2f %%, worst %+.2f %%\n", times,
                sum / n, worst);
}

void growth() {
  for (const int orders : {50, 100, 200, 500, 1000, 2000, 5000}) {
    const PlanProblem problem = made_problem({.orders = orders, .days = 28, .draw = 7});
    Decoder decoder(problem);
    double begin = worked();
    const DispatchOrder first = first_lists(problem).front();
    const double listed = worked() - begin;
    begin = worked();
    int decoded = 0;
    while (worked() - begin < 0.5) decoder.score(first), ++decoded;
    const double each = (worked() - begin) / decoded;
    const auto clock = std::chrono::steady_clock::now();
    begin = worked();
    SearchEffort effort;
    effort.threads = cores;
    effort.moves = moves_for(problem);
    const double found = decoder.score(search_on(problem, {first}, effort));
    std::printf(
        "%4d orders, %5zu operations: lists %.2f s, a plan %.1f us (%.3f an operation), "
        "searched %.1f s of work, %.1f s by the clock, %.2f -> %.2f\n",
        orders, problem.operations.size(), listed, each * 1e6,
        each * 1e6 / static_cast<double>(problem.operations.size()), worked() - begin,
        std::chrono::duration<double>(std::chrono::steady_clock::now() - clock).count(),
        decoder.score(first), found);
    std::fflush(stdout);
  }
}

// How near the bound is to the plan, beside what each lot alone says.
void bounds(int most, int overdue) {
  for (const int orders : {40, 80, 160, 500})
    for (const MadeWeek& tight :
         {MadeWeek{.people = 0.95}, MadeWeek{.people = 1.02}, MadeWeek{.people = 1.1},
          MadeWeek{.days = 42, .people = 0.6, .machines = 1.2}}) {
      if (orders > most) return;
      MadeWeek week = tight;
      week.orders = orders;
      week.draw = static_cast<std::uint64_t>(orders + std::lround(100 * week.people));
      PlanProblem problem = made_problem(week);
      for (PlannedLot& lot : problem.lots) lot.due -= overdue * minutes_a_day;
      SearchEffort effort;
      effort.threads = cores;
      effort.moves = moves_for(problem);
      const Plan plan = Decoder(problem).plan(search_on(problem, first_lists(problem), effort));
      int late = 0;
      for (std::size_t j = 0; j < problem.lots.size(); ++j)
        late += days_late(problem.lots[j], plan.done[j]) > 0 ? 1 : 0;
      const double begin = worked();
      const LatenessBound bound = lateness_bound(problem, plan.lateness);
      std::printf(
          "%3d orders, people %3.0f %%, machines %3.0f %%: %3d late, lateness %9.2f, each alone "
          "%5.1f %%, bound %9.2f: %5.1f %%%s, %.2f s\n",
          orders, 100 * week.people, 100 * week.machines, late, plan.lateness,
          100 * least_lateness(problem) / plan.lateness, bound.least,
          100 * bound.least / plan.lateness, tells(bound, plan.lateness) ? ", told" : "",
          worked() - begin);
      std::fflush(stdout);
    }
}

}  // namespace

int main(int count, char** words) {
  const auto number = [&](int i, double usual) { return count > i ? std::atof(words[i]) : usual; };
  const char* what = count > 1 ? words[1] : "instances";
  if (std::strcmp(what, "weeks") == 0)
    weeks(number(2, 1), static_cast<int>(number(3, 1)));
  else if (std::strcmp(what, "growth") == 0)
    growth();
  else if (std::strcmp(what, "bounds") == 0)
    bounds(static_cast<int>(number(2, 500)), static_cast<int>(number(3, 0)));
  else
    instances({number(2, 2), static_cast<int>(number(3, 1)), count > 4 ? words[4] : nullptr});
  return 0;
}
