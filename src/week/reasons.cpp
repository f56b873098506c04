// SPDX-License-Identifier: MIT
#include "reasons.hpp"

#include <algorithm>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr Minute long_gap = 8 * 60;  // of open time, worth a word

}  // namespace

Reasons::Reasons(const Week& week, const WeekProblem& problem, const Plan& plan)
    : week_(week), wp_(problem) {
  for (int m = 0; m < static_cast<int>(problem.problem.machines.size()); ++m)
    on_[m] = runs_on(plan, m);
  for (const PlannedRun& run : plan.runs) by_operation_[run.operation] = &run;
}

std::vector<std::string> Reasons::chain(std::size_t job) const {
  std::vector<std::string> links;
  const auto& operations = wp_.problem.jobs[job].operations;
  int o = operations.back();
  const PlannedRun* run = by_operation_.at(o);
  if (run->to == never) {
    links.push_back("does not fit into the calendar, which ends on " + text_of(week_.to));
    return links;
  }
  if (const int days = wp_.problem.operations[static_cast<std::size_t>(o)].days_after; days > 0)
    links.push_back("is " + std::to_string(days) + " working days elsewhere from " +
                    moment_text(week_, run->to) + " on");
  for (int depth = 0; depth < 8; ++depth) {
    const PlannedOperation& operation = wp_.problem.operations[static_cast<std::size_t>(o)];
    const PlannedJob& its_job = wp_.problem.jobs[static_cast<std::size_t>(operation.job)];
    std::string here =
        name(o) + " on " + machine(run->machine) + " begins " + moment_text(week_, run->ready_from);
    // What it could begin after: its own order before it, or what held the machine.
    Minute own = its_job.release;
    int before = -1;
    for (const int other : its_job.operations) {
      if (other == o) break;
      before = other;
    }
    if (before >= 0) own = by_operation_.at(before)->to;
    const PlannedRun* held = nullptr;
    for (const PlannedRun* other : on_.at(run->machine))
      if (other->to <= run->ready_from && other != run && (held == nullptr || other->to > held->to))
        held = other;
    if (held != nullptr && held->to > own) {
      links.push_back(here + ", after " + name(held->operation) + " on the same machine");
      o = held->operation;
      run = held;
    } else if (before >= 0) {
      const int days = wp_.problem.operations[static_cast<std::size_t>(before)].days_after;
      links.push_back(here + (days > 0
                                  ? ", after " + std::to_string(days) + " working days elsewhere"
                                  : ", after " + name(before)));
      o = before;
      run = by_operation_.at(before);
    } else {
      links.push_back(here +
                      (its_job.release > week_.now ? ": its material is there from " +
                                                         beginning_text(week_, its_job.release)
                                                   : ": nothing holds it up before") +
                      ", and it takes " + readable((run->to - run->ready_from) / 60.0, 3) +
                      " h to " + moment_text(week_, run->to));
      break;
    }
  }
  return links;
}

std::vector<std::string> Reasons::gaps() const {
  std::vector<std::string> lines;
  for (const auto& [m, runs] : on_) {
    Minute free = week_.now;
    const Calendar& open = week_.machines[static_cast<std::size_t>(m)].open;
    for (const PlannedRun* run : runs) {
      const Minute idle = open.between(free, run->ready_from);
      if (idle >= long_gap) {
        std::string line = machine(m);
        line.append(" stands for ").append(readable(idle / 60.0, 3)).append(" h from ");
        line.append(moment_text(week_, free)).append(": ").append(name(run->operation));
        line.append(waits_for(*run));
        lines.push_back(std::move(line));
      }
      free = std::max(free, run->to);
    }
  }
  return lines;
}

std::string Reasons::waits_for(const PlannedRun& run) const {
  const auto& operations = wp_.problem.operations;
  const PlannedJob& job =
      wp_.problem
          .jobs[static_cast<std::size_t>(operations[static_cast<std::size_t>(run.operation)].job)];
  int before = -1;
  for (const int other : job.operations) {
    if (other == run.operation) break;
    before = other;
  }
  if (before < 0 && job.release > week_.now)
    return " waits for its material, there on " + beginning_text(week_, job.release);
  if (before < 0) return " waits for people";
  if (operations[static_cast<std::size_t>(before)].days_after > 0)
    return " is elsewhere after " + name(before);
  const PlannedRun* earlier = by_operation_.at(before);
  return " waits for " + name(before) + " on " + machine(earlier->machine) + " until " +
         moment_text(week_, earlier->to);
}

std::string Reasons::bottleneck(std::size_t job) const {
  std::string found;
  Minute longest = -1, own = wp_.problem.jobs[job].release;
  for (const int o : wp_.problem.jobs[job].operations) {
    const PlannedRun* run = by_operation_.at(o);
    if (run->to == never) continue;
    if (run->ready_from - own > longest) {
      longest = run->ready_from - own;
      found = machine(run->machine);
    }
    own = run->to;
  }
  return found;
}

std::string Reasons::name(int o) const { return work_name(week_, wp_, o); }

const std::string& Reasons::machine(int m) const {
  return week_.machines[static_cast<std::size_t>(m)].name;
}

}  // namespace turnwright
