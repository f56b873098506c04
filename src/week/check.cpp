// SPDX-License-Identifier: MIT
#include "turnwright/week/check.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "check_people.hpp"

namespace turnwright {
namespace {

class Checking {
 public:
  Checking(const PlanProblem& problem, const Plan& plan) : problem_(problem), plan_(plan) {}

  Messages faults() {
    every_operation_once();
    if (!faults_.empty()) return faults_;
    chains();
    machines();
    people();
    return faults_;
  }

 private:
  void fault(int operation, const char* what) {
    faults_.push_back({what, {{"operation", operation}}});
  }
  const Choice& choice_of(const PlannedRun& run) const {
    return problem_.operations.at(static_cast<std::size_t>(run.operation))
        .choices.at(static_cast<std::size_t>(run.choice));
  }
  void every_operation_once() {
    std::vector<int> seen(problem_.operations.size(), 0);
    for (const PlannedRun& run : plan_.runs) {
      const bool known = run.operation >= 0 &&
                         static_cast<std::size_t>(run.operation) < problem_.operations.size();
      if (!known) {
        fault(run.operation, "week.fault-unknown");
        continue;
      }
      const auto& choices = problem_.operations[static_cast<std::size_t>(run.operation)].choices;
      if (run.choice < 0 || static_cast<std::size_t>(run.choice) >= choices.size() ||
          choices[static_cast<std::size_t>(run.choice)].machine != run.machine)
        fault(run.operation, "week.fault-machine");
      ++seen[static_cast<std::size_t>(run.operation)];
      by_operation_[run.operation] = &run;
    }
    for (std::size_t o = 0; o < seen.size(); ++o)
      if (seen[o] != 1) faults_.push_back({"week.fault-times", {{"operation", o}, {"n", seen[o]}}});
  }
  // When work that ends at t and goes out for some working days is back.
  Minute back(Minute t, int days) const {
    if (days == 0 || t == never) return t;
    if (problem_.back_on.empty()) return t + days * minutes_a_day;
    Minute at = t;
    for (; days > 0; --days) {
      const Minute midnight =
          at % minutes_a_day == 0 ? at : (at / minutes_a_day + 1) * minutes_a_day;
      const auto day = static_cast<std::size_t>(midnight / minutes_a_day);
      if (day >= problem_.back_on.size()) return never;
      at = problem_.back_on[day];
      if (at == never) return never;
    }
    return at;
  }
  void chains() {
    for (std::size_t j = 0; j < problem_.lots.size(); ++j)
      if (plan_.done.at(j) != end_of_chain(problem_.lots[j]))
        faults_.push_back({"week.fault-done", {{"lot", j}}});
  }
  // When the lot is done by its runs; never when one does not fit into the calendar.
  Minute end_of_chain(const PlannedLot& lot) {
    Minute earliest = lot.release, last_end = 0;
    double share = 1;
    for (const int o : lot.operations) {
      const PlannedRun& run = *by_operation_.at(o);
      if (run.to == never) return never;
      const PlannedOperation& operation = problem_.operations[static_cast<std::size_t>(o)];
      if (run.setup_from < earliest) fault(o, "week.fault-early");
      if (run.setup_from < operation.ready) fault(o, "week.fault-material");
      if (run.setup_from < operation.pinned) fault(o, "week.fault-pinned");
      if (run.run_from < run.setup_from || run.to < run.run_from) fault(o, "week.fault-backwards");
      const auto m = static_cast<std::size_t>(run.machine);
      const auto work = static_cast<double>(choice_of(run).run);
      if (share < 1 && (run.to < last_end || open_minutes(m, last_end, run.to) < share * work))
        fault(o, "week.fault-last-pieces");
      // Overlapping: not before the first share of the pieces is done.
      share = operation.days_after == 0 ? operation.transfer : 1;
      last_end = run.to;
      earliest = back(run.to, operation.days_after);
      if (share < 1 && o != lot.operations.back())
        earliest = when_open(m, run.run_from, share * work);
    }
    return earliest;
  }
  // On each machine one thing at a time, in open time, with the setup that what was mounted leaves.
  void machines() {
    for (std::size_t m = 0; m < problem_.machines.size(); ++m) {
      Left left, left_by_won;
      left.on.insert(problem_.machines[m].mounted.begin(), problem_.machines[m].mounted.end());
      left_by_won = left;
      Minute free = 0;
      bool begun = false;
      for (const PlannedRun* run : by_time(m)) {
        const bool runs = problem_.operation(run->operation).runs;
        if (runs && begun) fault(run->operation, "week.fault-runs-already");
        begun = begun || !runs;
        if (run->setup_from < free) fault(run->operation, "week.fault-machine-taken");
        free = std::max(free, run->to);
        const Choice& choice = choice_of(*run);
        // Whether the quotes before it come or not.
        const bool quoted = problem_.lot_with(run->operation).quoted;
        Minute required = setup_required(choice, left);
        if (!quoted) required = std::max(required, setup_required(choice, left_by_won));
        setup(m, *run, required + proving(*run));
        left = {{}, choice.family < 0 ? 0 : static_cast<std::size_t>(choice.family) + 1};
        for (const SetupItem& item : choice.items) left.on.insert(item.key);
        if (!quoted) left_by_won = left;
      }
    }
  }
  // On a machine: keys, and the row of the changeover table.
  struct Left {
    std::set<int> on;
    std::size_t row = 0;
  };
  std::vector<const PlannedRun*> by_time(std::size_t m) const {
    std::vector<const PlannedRun*> runs;
    for (const PlannedRun& run : plan_.runs)
      if (run.machine == static_cast<int>(m) && run.to != never) runs.push_back(&run);
    std::stable_sort(runs.begin(), runs.end(), [](const PlannedRun* a, const PlannedRun* b) {
      return std::pair(a->setup_from, a->to) < std::pair(b->setup_from, b->to);
    });
    return runs;
  }
  Minute setup_required(const Choice& choice, const Left& left) const {
    Minute required = choice.setup;
    for (const SetupItem& item : choice.items)
      required += left.on.contains(item.key) ? 0 : item.minutes;
    if (choice.family >= 0)
      required += problem_.changeover.at(left.row).at(static_cast<std::size_t>(choice.family));
    return required;
  }
  // Who begins before another, that was given out before it, has set the job up; a quote proves
  // nothing for what is won.
  Minute proving(const PlannedRun& run) const {
    const int job = problem_.operation(run.operation).job;
    if (job < 0) return 0;
    const bool quoted = problem_.lot_with(run.operation).quoted;
    for (const PlannedRun& other : plan_.runs) {
      if (other.operation == run.operation) break;
      const bool counts = quoted || !problem_.lot_with(other.operation).quoted;
      if (counts && problem_.operation(other.operation).job == job && other.to != never &&
          other.run_from <= run.setup_from)
        return 0;
    }
    return choice_of(run).proving;
  }
  void setup(std::size_t m, const PlannedRun& run, Minute required) {
    const Minute work = choice_of(run).run;
    if (run.setup != required) fault(run.operation, "week.fault-setup");
    if (open_minutes(m, run.setup_from, run.run_from) < required)
      fault(run.operation, "week.fault-setup-time");
    if (open_minutes(m, run.run_from, run.to) < work) fault(run.operation, "week.fault-run-time");
    if (required + work > 0 && !is_open(m, run.setup_from))
      fault(run.operation, "week.fault-closed");
  }
  Minute open_minutes(std::size_t m, Minute from, Minute to) const {
    Minute sum = 0;
    for (const Span& s : problem_.machines[m].calendar.open())
      sum += std::max(0, std::min(s.to, to) - std::max(s.from, from));
    return sum;
  }
  // The first moment with so many open minutes since `from`.
  Minute when_open(std::size_t m, Minute from, double minutes) const {
    for (const Span& s : problem_.machines[m].calendar.open()) {
      const Minute begins = std::max(s.from, from);
      if (begins >= s.to) continue;
      if (minutes <= s.to - begins) return begins + static_cast<Minute>(minutes);
      minutes -= s.to - begins;
    }
    return never;
  }
  bool is_open(std::size_t m, Minute t) const {
    const auto& open = problem_.machines[m].calendar.open();
    return std::any_of(open.begin(), open.end(),
                       [t](const Span& s) { return s.from <= t && t < s.to; });
  }
  // Could the people on hand have attended all of it? Whoever works where may change from step to
  // step, so each step is asked whether its work fits, in any order: the work of each run is handed
  // out to the steps where it was done, which the plan does not tell, as late as it may be.
  void people() {
    if (problem_.people.present.empty()) return;
    if (!problem_.people.named.empty()) {
      const Messages found = faults_of_people(problem_, plan_);
      faults_.insert(faults_.end(), found.begin(), found.end());
      return;
    }
    std::vector<int> present = problem_.people.present, setters = problem_.people.setters;
    for (const PlannedRun& run : plan_.runs) {
      if (run.to == never) continue;
      const Choice& choice = choice_of(run);
      spend(run, run.setup_from, run.run_from, steps_of(run.setup), whole_person, present,
            &setters);
      spend(run, run.run_from, run.to, steps_of(choice.run), choice.attended, present, nullptr);
    }
  }
  static Minute steps_of(Minute m) { return (m + time_step - 1) / time_step; }
  void spend(const PlannedRun& run, Minute from, Minute to, Minute steps, int share,
             std::vector<int>& present, std::vector<int>* setters) {
    const auto m = static_cast<std::size_t>(run.machine);
    for (Minute t = from; t < to && steps > 0; t += time_step) {
      const auto i = static_cast<std::size_t>(t / time_step);
      if (i >= present.size() || !is_open(m, t) || !is_open(m, t + time_step - 1)) continue;
      if (present[i] < share || (setters != nullptr && (*setters)[i] < whole_person)) continue;
      present[i] -= share;
      if (setters != nullptr) (*setters)[i] -= whole_person;
      --steps;
    }
    if (steps > 0) fault(run.operation, "week.fault-people");
  }

  const PlanProblem& problem_;
  const Plan& plan_;
  std::map<int, const PlannedRun*> by_operation_;
  Messages faults_;
};

}  // namespace

Messages faults_of(const PlanProblem& problem, const Plan& plan) {
  return Checking(problem, plan).faults();
}

}  // namespace turnwright
