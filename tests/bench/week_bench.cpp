// SPDX-License-Identifier: MIT
// Not a test: the shipped search on public instances, each within about the seconds given, as a
// table.
//   build/tests/week-bench SECONDS
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>

#include "../week/instances.hpp"
#include "turnwright/week/check.hpp"
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
  const PlanList first = by_due_date(problem);
  effort.moves = 500;
  const auto begin = std::chrono::steady_clock::now();
  (void)search(problem, first, effort);
  const double each = seconds_since(begin) / effort.moves;
  effort.moves = static_cast<int>(std::min(2e7, std::max(2000.0, seconds / each)));
  Decoder decoder(problem);
  const Plan plan = decoder.plan(search(problem, first, effort));
  if (!faults_of(problem, plan).empty()) std::abort();
  return problem.goal == Goal::makespan ? plan.goal : plan.lateness;
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

}  // namespace

int main(int count, char** words) {
  const double seconds = count > 1 ? std::atof(words[1]) : 10;
  if (!have_instances()) {
    std::printf("no instances beside the project: nothing to do\n");
    return 0;
  }
  family("job shops", known_values("jobshop/best_known.csv", 3), seconds, job_shop);
  family("flexible job shops", known_values("flexjobshop/best_known.csv", 3), seconds,
         flexible_job_shop);
  family("parallel machines with set-ups, weighted tardiness",
         known_values("parallel_setup/optimal.csv", 4), seconds / 5,
         [](const std::string& name) { return parallel_setup(name, Goal::weighted_tardiness); });
  family("parallel machines with set-ups, makespan", known_values("parallel_setup/optimal.csv", 5),
         seconds / 5, [](const std::string& name) { return parallel_setup(name, Goal::makespan); });
  return 0;
}
