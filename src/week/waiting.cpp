// SPDX-License-Identifier: MIT
// What orders wait for, in hours by cause.
#include <algorithm>

#include "turnwright/week/plan_week.hpp"

namespace turnwright {
namespace {

double hours(Minute m) { return std::max(0, m) / 60.0; }
Minute whole_steps(Minute m) { return (m + time_step - 1) / time_step * time_step; }

class Waits {
 public:
  Waits(const PlanProblem& problem, const Plan& plan)
      : problem_(problem),
        run_of_(problem.operations.size(), nullptr),
        free_(problem.operations.size(), 0) {
    for (const PlannedRun& run : plan.runs) run_of_[static_cast<std::size_t>(run.operation)] = &run;
    for (int m = 0; m < static_cast<int>(problem.machines.size()); ++m) {
      Minute until = 0;
      for (const PlannedRun* run : runs_on(plan, m)) {
        free_[static_cast<std::size_t>(run->operation)] = until;
        until = std::max(until, run->to);
      }
    }
  }

  std::vector<Waiting> by_operation() const {
    std::vector<Waiting> waits(problem_.operations.size());
    for (const PlannedLot& lot : problem_.lots) {
      if (lot.operations.empty()) continue;
      Waiting& first = waits[static_cast<std::size_t>(lot.operations.front())];
      (lot.is_out ? first.outside : first.material) += hours(lot.release - problem_.now);
      Minute ready = lot.release;
      for (const int o : lot.operations) {
        const PlannedRun* run = run_of_[static_cast<std::size_t>(o)];
        if (run == nullptr || run->to == never) break;
        ready = add(*run, ready, waits[static_cast<std::size_t>(o)]);
      }
    }
    return waits;
  }

 private:
  // From when the lot was ready for it; returns when it is ready for the next.
  Minute add(const PlannedRun& run, Minute ready, Waiting& waits) const {
    const PlannedOperation& operation = problem_.operation(run.operation);
    const Minute begins = std::max(ready, run.setup_from);
    const Minute there = std::clamp(operation.ready, ready, begins);
    waits.material += hours(there - ready);
    const Minute taken = std::clamp(free_[static_cast<std::size_t>(run.operation)], there, begins);
    const Minute pinned = std::clamp(operation.pinned, taken, begins);
    waits.machine += hours(taken - there);
    waits.pinned += hours(pinned - taken);
    const Calendar& calendar = problem_.calendar_of(run.machine);
    if (run.setup_from > pinned) waits.people += hours(calendar.between(pinned, run.setup_from));
    // Begun with the first pieces of what still ran, it may stand for the last of them.
    if (ready <= run.setup_from) waits.people += hours(idle_time(problem_, run));
    const Minute back = back_after(problem_, run.to, operation.days_after);
    waits.outside += back == never ? 0 : hours(back - run.to);
    return back;
  }

  const PlanProblem& problem_;
  std::vector<const PlannedRun*> run_of_;
  std::vector<Minute> free_;  // by operation: when its machine is free of what is before it
};

}  // namespace

Minute idle_time(const PlanProblem& problem, const PlannedRun& run) {
  return std::max(0, problem.calendar_of(run.machine).between(run.setup_from, run.to) -
                         whole_steps(run.setup) - whole_steps(choice_of(problem, run).run));
}

Waiting& Waiting::operator+=(const Waiting& other) {
  machine += other.machine;
  pinned += other.pinned;
  people += other.people;
  material += other.material;
  outside += other.outside;
  return *this;
}

std::vector<Waiting> waiting_by_operation(const PlanProblem& problem, const Plan& plan) {
  return Waits(problem, plan).by_operation();
}

std::vector<Waiting> waiting_by_lot(const PlanProblem& problem, const Plan& plan) {
  std::vector<Waiting> lots(problem.lots.size());
  const std::vector<Waiting> each = waiting_by_operation(problem, plan);
  for (std::size_t o = 0; o < each.size(); ++o)
    lots[static_cast<std::size_t>(problem.operations[o].lot)] += each[o];
  return lots;
}

Waiting waiting_of(const PlanProblem& problem, const Plan& plan) {
  Waiting sum;
  for (const Waiting& each : waiting_by_operation(problem, plan)) sum += each;
  return sum;
}

}  // namespace turnwright
