// SPDX-License-Identifier: MIT
#include "busy_people.hpp"

#include <algorithm>

namespace turnwright {

BusyPeople::BusyPeople(const Plan& plan) {
  for (const Stint& stint : plan.stints) stints_of_[stint.hand].push_back(&stint);
  for (auto& [hand, stints] : stints_of_)
    std::stable_sort(stints.begin(), stints.end(),
                     [](const Stint* a, const Stint* b) { return a->from < b->from; });
}

Busy BusyPeople::keeps_busy(int hand, const PlannedRun& run, Minute from) const {
  Busy busy;
  const auto found = stints_of_.find(hand);
  if (found == stints_of_.end()) return busy;
  for (const Stint* stint : found->second) {
    if (stint->from >= run.setup_from) {
      // He goes on with it, whatever the pauses.
      if (stint->operation != busy.operation) break;
      busy.until = std::max(busy.until, stint->to);
    } else if (stint->operation != run.operation && stint->to > std::max(from, busy.last)) {
      busy = {stint->operation, stint->to, stint->to};
    }
  }
  return busy;
}

int BusyPeople::who_begins(const PlannedRun& run) const {
  int who = -1;
  Minute first = never;
  for (const auto& [hand, stints] : stints_of_)
    for (const Stint* stint : stints)
      if (stint->operation == run.operation && stint->from < first) {
        first = stint->from;
        who = hand;
      }
  return who;
}

}  // namespace turnwright
