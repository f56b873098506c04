// SPDX-License-Identifier: MIT
#pragma once
// What people do while work waits, where they are told apart.
#include <map>
#include <vector>

#include "turnwright/week/plan.hpp"

namespace turnwright {

/// Other work of somebody, and until when he is at it.
struct Busy {
  int operation = -1;          // below 0: none
  Minute last = 0, until = 0;  // last: in one go, without a pause
};

class BusyPeople {
 public:
  explicit BusyPeople(const Plan& plan);
  /// What somebody did last of other work while a run waited from then on.
  Busy keeps_busy(int hand, const PlannedRun& run, Minute from) const;
  /// Who takes it in hand first; below 0: nobody is told apart, or it needs nobody.
  int who_begins(const PlannedRun& run) const;

 private:
  std::map<int, std::vector<const Stint*>> stints_of_;  // by hand, in order
};

}  // namespace turnwright
