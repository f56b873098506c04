// SPDX-License-Identifier: MIT
#pragma once
// The finite plan: orders as chains of operations, machines with calendars, people as capacities.
// One decoder turns a list and a choice of machines into a plan that respects all of it.
#include <cstdint>
#include <string>
#include <vector>

#include "turnwright/week/calendar.hpp"

namespace turnwright {

/// Something that a setup puts on a machine, and that may stand there already.
struct ReadyPart {
  int key = 0;
  Minute minutes = 0;
};

/// One way of doing an operation.
struct Choice {
  int machine = 0;
  Minute run = 0;
  Minute ready = 0;              // setup whatever stands
  std::vector<ReadyPart> parts;  // and what is added where it does not stand; sorted by key
  int attended = 0;              // thousandths of a person while it runs
  int family = -1;               // row of the changeover table; below 0: none
};

struct PlannedOperation {
  int job = 0;
  std::vector<Choice> choices;
  int days_after = 0;  // working days elsewhere before the next one, or before the order is done
  /// The next one may begin when this share of the pieces is done; the last share of its own work
  /// comes after this one's end. 1: it waits for the whole batch, as it does for work elsewhere.
  double transfer = 1;
};
/// Minutes that the share of a run takes, in whole steps.
Minute lot_minutes(double transfer, Minute run);

struct PlannedJob {
  Minute release = 0, due = never;
  double weight = 1;
  std::vector<int> operations;  // in their order
};

struct PlannedMachine {
  Calendar calendar = Calendar::always();
  std::vector<int> mounted;  // keys, sorted
};

/// People on hand in a step of time, in thousandths of a person.
struct Presence {
  std::vector<int> present, setters;
};
inline constexpr Minute time_step = 5;

enum class Score { convex_lateness, weighted_tardiness, makespan };

struct PlanProblem {
  std::vector<PlannedJob> jobs;
  std::vector<PlannedOperation> operations;
  std::vector<PlannedMachine> machines;
  Presence people;           // empty: nobody is needed
  std::vector<int> back_on;  // by day: the minute on which a working day later begins; empty:
                             // every day is one
  /// Setup by what ran before: row 0 after nothing, row f + 1 after family f. May be empty.
  std::vector<std::vector<Minute>> changeover;
  /// Of a plan that hangs already, by operation: when it begins and where; never: not in it. Each
  /// operation that goes elsewhere, or by a day, costs `change_cost` days.
  std::vector<Minute> old_start;
  std::vector<int> old_machine;
  double change_cost = 0.05;
  Score score = Score::convex_lateness;
};

/// What the search changes: which order comes next, and on which machine.
struct DispatchOrder {
  std::vector<int> jobs;     // each as often as it has operations
  std::vector<int> choices;  // by operation
  int frozen = 0;            // entries at the front that stay
};

struct PlannedRun {
  int operation = 0, choice = 0, machine = 0;
  Minute ready_from = 0, run_from = 0, to = 0;
  Minute ready = 0;  // minutes of setup
};

struct Plan {
  std::vector<PlannedRun> runs;  // in the order of the list
  std::vector<Minute> done;      // by job; never when it does not fit into the calendar
  double score = 0;              // what the search makes small
  double lateness = 0;           // of it, convex and weighted
  Minute ready = 0;              // minutes of setup in all
};

/// The runs of a machine in the order of their time; what does not fit into the calendar is not
/// one.
std::vector<const PlannedRun*> runs_on(const Plan& plan, int machine);
/// Days after its due date; 999 when it does not fit into the calendar.
double days_late(const PlannedJob& job, Minute done);

/// Works lists into plans; keeps its room between calls.
class Decoder {
 public:
  explicit Decoder(const PlanProblem& problem);
  /// The goal alone.
  double score(const DispatchOrder& list);
  /// When each job is done, by the list that was worked last.
  const std::vector<Minute>& done() const { return job_ready_; }
  Plan plan(const DispatchOrder& list);

  /// Step by step: from the beginning, put a job's next operation, by one of its choices.
  void begin();
  PlannedRun put(std::size_t job, int choice);
  bool finished(std::size_t job) const;
  int next_operation(std::size_t job) const;
  /// When a job's next operation could begin there, with somebody at hand; never when it cannot.
  Minute could_begin(std::size_t job, const Choice& choice) const;

 private:
  template <class Keep>
  double decode(const DispatchOrder& list, Keep keep);
  Minute ready_minutes(const Choice& choice) const;
  struct Times {
    Minute ready_from, run_from, lot, to;  // lot: when the first share is done
  };
  // No times; in the place of the first share's, the minutes that did not fit.
  static Times unfit(Minute left) { return {never, never, left, never}; }
  Times place(const Choice& choice, Minute from, Minute ready, Minute lot) const;
  Times place_with_people(const Choice& choice, Minute from, Minute ready, Minute lot);
  Minute arrival(std::size_t job, const Choice& choice, Minute ready) const;

  const PlanProblem& problem_;
  std::vector<int> next_;                         // by job: its next operation
  std::vector<Minute> job_ready_, machine_free_;  // by job, by machine
  struct Before {
    Minute to = 0;
    double transfer = 1;
  };
  std::vector<Before> before_;  // by job: its last work, where the next may overlap it
  std::vector<Minute> left_;    // by job: minutes that do not fit into the calendar
  std::vector<const std::vector<ReadyPart>*> mounted_;
  std::vector<int> family_;  // that ran last, by machine
  std::vector<std::vector<ReadyPart>> at_first_;
  Minute end_ = 0;  // of all calendars
  std::vector<int> present_, setters_;
  std::vector<std::vector<char>> open_;  // by machine and step, where people count
};

/// True when an operation of the old plan is elsewhere, or a day or more away.
bool moved(const PlanProblem& problem, int operation, int machine, Minute start);

/// Days late and a third of their square: ten orders one day late beat one order ten days late.
double convex_days(Minute late);

/// What is left of an order, were it alone with all its tools standing and somebody always there:
/// when it would be done, its operation `first` being able to begin at t. No plan is earlier.
Minute done_alone(const PlanProblem& problem, const PlannedJob& job, std::size_t first, Minute t);
/// When work that ends at t and goes elsewhere for some working days is back.
Minute back_after(const PlanProblem& problem, Minute t, int days);
/// The same when its operation `k` ends at t.
Minute done_after(const PlanProblem& problem, const PlannedJob& job, std::size_t k, Minute t);
/// Lateness of an order that is done then, by the goal and its weight; 0 when that is makespan.
double lateness_of(const PlanProblem& problem, const PlannedJob& job, Minute done);
/// The end of all calendars, up to midnight.
Minute end_of_calendars(const PlanProblem& problem);

/// A lower bound of the lateness: no plan is less late than every order would be alone.
double least_lateness(const PlanProblem& problem);

}  // namespace turnwright
