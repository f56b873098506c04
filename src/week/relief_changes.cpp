// SPDX-License-Identifier: MIT
// Problems with more hours, or with a lot in batches.
#include <algorithm>

#include "turnwright/week/capacity.hpp"

namespace turnwright {
namespace {

// Of who can set the machine up, the one who is there last before `end` on its day; none: nobody.
NamedHand* who_stays(Presence& people, int machine, Minute end) {
  NamedHand* last = nullptr;
  const Minute midnight = (end - 1) / minutes_a_day * minutes_a_day;
  for (Minute t = end - time_step; t >= midnight && last == nullptr; t -= time_step) {
    const auto i = static_cast<std::size_t>(t / time_step);
    for (NamedHand& hand : people.named)
      if (last == nullptr && i < hand.present.size() && hand.present[i] != 0 &&
          hand.sets[static_cast<std::size_t>(machine)] != 0)
        last = &hand;
  }
  return last;
}

// Where people are told apart, one of them stays longer; else somebody is there who sets.
void somebody_stays(Presence& people, int machine, const Span& span) {
  NamedHand* const hand = who_stays(people, machine, span.from);
  if (!people.named.empty() && hand == nullptr) return;
  for (Minute t = span.from / time_step; t < span.to / time_step; ++t) {
    const auto i = static_cast<std::size_t>(t);
    if (i >= people.present.size()) break;
    if (hand != nullptr && hand->present[i] != 0) continue;
    if (hand != nullptr) hand->present[i] = 1;
    people.present[i] += whole_person;
    people.setters[i] += whole_person;
  }
}

}  // namespace

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
  somebody_stays(problem.people, overtime.machine, {end, to});
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
