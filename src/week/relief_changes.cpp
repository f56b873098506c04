// SPDX-License-Identifier: MIT
// Problems with more hours, or with a lot in batches.
#include <algorithm>

#include "turnwright/week/capacity.hpp"

namespace turnwright {

void add_overtime(PlanProblem& problem, const Overtime& overtime) {
  PlannedMachine& machine = problem.machines[static_cast<std::size_t>(overtime.machine)];
  std::vector<Span> open = machine.calendar.open();
  Minute end = -1;
  for (const Span& s : open)
    if ((s.to - 1) / minutes_a_day == overtime.day) end = s.to;
  if (end < 0) return;  // closed on that day
  const Minute to = std::min(end + overtime.minutes, (overtime.day + 1) * minutes_a_day);
  open.push_back({end, to});
  machine.calendar = Calendar(open);
  for (Minute t = end / time_step; t < to / time_step; ++t) {
    const auto i = static_cast<std::size_t>(t);
    if (i >= problem.people.present.size()) break;
    problem.people.present[i] += 1000;
    problem.people.setters[i] += 1000;
  }
}

void split_lot(PlanProblem& problem, std::size_t lot, int batches) {
  if (batches < 2) return;
  problem.lots[lot].weight /= batches;
  for (const int o : problem.lots[lot].operations)
    for (Choice& c : problem.operations[static_cast<std::size_t>(o)].choices)
      c.run = (c.run + batches * time_step - 1) / (batches * time_step) * time_step;
  for (int b = 1; b < batches; ++b) {
    PlannedLot copy = problem.lots[lot];
    for (int& o : copy.operations) {
      PlannedOperation operation = problem.operations[static_cast<std::size_t>(o)];
      operation.lot = static_cast<int>(problem.lots.size());
      if (!problem.old_start.empty()) {
        problem.old_start.push_back(never);
        problem.old_machine.push_back(-1);
      }
      o = static_cast<int>(problem.operations.size());
      problem.operations.push_back(std::move(operation));
    }
    problem.lots.push_back(std::move(copy));
  }
}

}  // namespace turnwright
