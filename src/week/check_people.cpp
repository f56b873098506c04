// SPDX-License-Identifier: MIT
#include "check_people.hpp"

#include <map>
#include <set>
#include <utility>

namespace turnwright {
namespace {

Minute steps_of(Minute m) { return (m + time_step - 1) / time_step; }

class CheckingPeople {
 public:
  CheckingPeople(const PlanProblem& problem, const Plan& plan) : problem_(problem) {
    for (const PlannedRun& run : plan.runs)
      if (run.to != never) runs_[run.operation] = &run;
    stints_ = &plan.stints;
  }

  Messages faults() {
    for (const Stint& stint : *stints_) check(stint);
    for (const auto& [operation, run] : runs_) {
      const Choice& choice = choice_of(*run);
      const bool set =
          attended_[{operation, true}].size() == static_cast<std::size_t>(steps_of(run->setup));
      const std::size_t running =
          choice.attended > 0 ? static_cast<std::size_t>(steps_of(choice.run)) : 0;
      if (!set || attended_[{operation, false}].size() != running)
        fault(operation, "week.fault-people");
    }
    return faults_;
  }

 private:
  void fault(int operation, const char* what) {
    faults_.push_back({what, {{"operation", operation}}});
  }
  const Choice& choice_of(const PlannedRun& run) const {
    return problem_.operation(run.operation).choices.at(static_cast<std::size_t>(run.choice));
  }
  bool is_open(int machine, Minute t) const {
    for (const Span& s : problem_.calendar_of(machine).open())
      if (s.from <= t && t + time_step <= s.to) return true;
    return false;
  }
  void check(const Stint& stint) {
    const auto found = runs_.find(stint.operation);
    if (found == runs_.end() || stint.hand < 0 ||
        static_cast<std::size_t>(stint.hand) >= problem_.people.named.size())
      return fault(stint.operation, "week.fault-nobody");
    const PlannedRun& run = *found->second;
    const NamedHand& hand = problem_.people.named[static_cast<std::size_t>(stint.hand)];
    const auto m = static_cast<std::size_t>(run.machine);
    if ((stint.sets ? hand.sets : hand.runs).at(m) == 0)
      fault(stint.operation, "week.fault-unable");
    if (stint.from < (stint.sets ? run.setup_from : run.run_from) ||
        stint.to > (stint.sets ? run.run_from : run.to))
      fault(stint.operation, "week.fault-other-time");
    for (Minute t = stint.from; t < stint.to; t += time_step) at_step(stint, run, hand, t);
  }
  void at_step(const Stint& stint, const PlannedRun& run, const NamedHand& hand, Minute t) {
    const auto i = static_cast<std::size_t>(t / time_step);
    if (i >= hand.present.size() || hand.present[i] == 0 || !is_open(run.machine, t))
      fault(stint.operation, "week.fault-absent");
    int& busy = busy_[{stint.hand, t}];
    busy += stint.sets ? whole_person : choice_of(run).attended;
    if (busy > whole_person) fault(stint.operation, "week.fault-two-things");
    attended_[{stint.operation, stint.sets}].insert(t);
  }

  const PlanProblem& problem_;
  std::map<int, const PlannedRun*> runs_;  // by operation
  const std::vector<Stint>* stints_ = nullptr;
  std::map<std::pair<int, Minute>, int> busy_;                 // by hand and step
  std::map<std::pair<int, bool>, std::set<Minute>> attended_;  // by operation: steps
  Messages faults_;
};

}  // namespace

Messages faults_of_people(const PlanProblem& problem, const Plan& plan) {
  return CheckingPeople(problem, plan).faults();
}

}  // namespace turnwright
