// SPDX-License-Identifier: MIT
#pragma once
// Why work begins when it does, from a plan alone.
#include <map>
#include <string>
#include <vector>

#include "busy_people.hpp"
#include "turnwright/quantity/unit.hpp"
#include "turnwright/week/plan_week.hpp"

namespace turnwright {

class Reasons {
 public:
  Reasons(const Week& week, const WeekProblem& problem, const Plan& plan);
  /// What a lot waited for, from its end down to the first cause.
  Messages chain(std::size_t lot) const;
  /// Open time of a machine between two pieces of work, when it is long: what the second waits for.
  std::vector<Gap> gaps() const;
  /// The machine that the lot waits longest for.
  std::string bottleneck(std::size_t lot) const;

 private:
  const PlannedRun* add_link(const PlannedRun& run, Messages& links) const;
  const PlannedRun* add_cause(const PlannedRun& run, Messages& links) const;
  Message gap(const PlannedRun& run, Minute from, Minute idle) const;
  // When a run could have begun, and what it waited for until then: null for what is no work.
  struct Free {
    Minute from = 0;
    const PlannedRun* after = nullptr;
  };
  Free free_for(const PlannedRun& run) const;
  const PlannedRun* add_people(const PlannedRun& run, const Free& free, Messages& links) const;
  void add_idle_time(const PlannedRun& run, Messages& links) const;
  std::vector<int> able(const PlannedRun& run, bool sets) const;
  bool waits_for_its_pin(const PlannedRun& run, Minute free) const;
  const PlannedRun* run_before(const PlannedRun& run) const;
  const SentOut* sent_out(const PlannedRun& run) const;
  const PlannedRun* ran_before_on_machine(const PlannedRun& run) const;
  const PlannedLot& lot_with(const PlannedRun& run) const {
    return wp_.problem.lot_with(run.operation);
  }
  int days_after(const PlannedRun& run) const {
    return wp_.problem.operation(run.operation).days_after;
  }
  static Measure hours(Minute m) { return measure(static_cast<double>(m) * unit::min, unit::h, 3); }
  Message work(const PlannedRun& run) const { return work_name(week_, wp_, run.operation); }
  const std::string& machine(int m) const { return week_.machine(m).name; }

  const Week& week_;
  const WeekProblem& wp_;
  std::map<int, std::vector<const PlannedRun*>> on_;  // by machine, in order
  std::map<int, const PlannedRun*> by_operation_;
  BusyPeople people_;
};

}  // namespace turnwright
