// SPDX-License-Identifier: MIT
#pragma once
// The finite plan: lots as chains of operations, machines with calendars, people as capacities; a
// dispatch order that a decoder turns into a plan; what a plan is measured by.
#include <cstdint>
#include <map>
#include <vector>

#include "turnwright/week/calendar.hpp"

namespace turnwright {

/// Something that a setup puts on a machine, and that may be mounted there already.
struct SetupItem {
  int key = 0;
  Minute minutes = 0;
};

/// A machine that can do an operation, with its times there.
struct Choice {
  int machine = 0;
  Minute run = 0;
  Minute setup = 0;              // whatever is mounted
  std::vector<SetupItem> items;  // and what is added where it is not mounted; sorted by key
  int attended = 0;              // thousandths of a person while it runs
  int family = -1;               // row of the changeover table; below 0: none
  Minute proving = 0;            // more of setup until its job is proved in the plan
  // Of a minute, in days late: an hour's money by a day's.
  double setup_price = 0, run_price = 0;
};

/// With nothing of it mounted, and proved for the first time.
Minute whole_setup(const Choice& choice);

struct PlannedOperation {
  int lot = 0;
  std::vector<Choice> choices;
  int days_after =
      0;  // working days of outside work before the next one, or before the lot is done
  /// The next one may begin when this share of the pieces is done; the last share of its own work
  /// comes after this one's end. 1: it waits for the whole lot, as it does for outside work.
  double transfer = 1;
  int job = -1;       // work that is programmed and proved once in a plan: by whoever begins before
                      // another has set it up; below 0: none
  bool runs = false;  // it is on its machine now: nothing there comes before it
  Minute pinned = -1;  // it begins then, and not before; below 0: whenever
  Minute ready = 0;    // what it needs is there from then on
};
/// What it costs on this machine with so many minutes of setup, in days late.
inline double work_of(const Choice& choice, Minute setup) {
  return choice.setup_price * setup + choice.run_price * choice.run;
}
/// Its choice that costs least by itself: nothing mounted, nothing proved.
int cheapest_choice(const PlannedOperation& operation);
/// Minutes that the share of a run takes, in whole steps.
Minute share_minutes(double transfer, Minute run);

/// An order, or a batch of it, as it goes through the shop.
struct PlannedLot {
  Minute release = 0, due = never;
  double weight = 1;
  std::vector<int> operations;  // in their order
  bool quoted = false;          // it may not come: no setup of one that is won rests on it
  bool is_out = false;          // at another firm until its release
};

struct PlannedMachine {
  Calendar calendar = Calendar::always();
  std::vector<int> mounted;  // keys, sorted
};

/// Somebody who is told apart from the others.
struct NamedHand {
  std::vector<char> present;     // by step
  std::vector<char> runs, sets;  // by machine: what he may attend, what he may set up
};
inline constexpr int whole_person = 1000;
/// People on hand in a step of time, in thousandths of a person.
struct Presence {
  std::vector<int> present, setters;
  std::vector<NamedHand> named;  // empty: anybody attends any machine
};
inline constexpr Minute time_step = 5;

enum class Score { convex_lateness, weighted_tardiness, makespan };

struct PlanProblem {
  int jobs = 0;  // numbers of PlannedOperation::job
  std::vector<PlannedLot> lots;
  std::vector<PlannedOperation> operations;
  std::vector<PlannedMachine> machines;
  Presence people;           // empty: nobody is required
  std::vector<int> back_on;  // by day: the minute on which a working day later begins; empty:
                             // every day is one
  /// Setup by what ran before: row 0 after nothing, row f + 1 after family f. May be empty.
  std::vector<std::vector<Minute>> changeover;
  /// Of the posted plan, by operation: when it begins and where; never: not in it. Each operation
  /// that goes to another machine, or moves, costs `change_cost` days by `change_of`.
  std::vector<Minute> old_start;
  std::vector<int> old_machine;
  double change_cost = 0.05;
  Minute now = 0;  // what is posted soon is changed last
  Score score = Score::convex_lateness;

  const PlannedOperation& operation(int o) const { return operations[static_cast<std::size_t>(o)]; }
  const PlannedLot& lot_with(int o) const {
    return lots[static_cast<std::size_t>(operation(o).lot)];
  }
  const Calendar& calendar_of(int machine) const {
    return machines[static_cast<std::size_t>(machine)].calendar;
  }
};

/// What the search changes: which lot comes next, and on which machine.
struct DispatchOrder {
  std::vector<int> lots;     // each as often as it has operations
  std::vector<int> choices;  // by operation
  int frozen = 0;            // entries at the front that stay
};

struct PlannedRun {
  int operation = 0, choice = 0, machine = 0;
  Minute setup_from = 0, run_from = 0, to = 0;
  Minute setup = 0;  // minutes of it
};

/// What somebody does of an operation in one go; where he attends it, as much of him as it takes.
struct Stint {
  int operation = 0, hand = 0;  // hand: of Presence::named
  Minute from = 0, to = 0;
  bool sets = false;
};

struct Plan {
  std::vector<PlannedRun> runs;  // in dispatch order
  std::vector<Stint> stints;     // where people are told apart; in dispatch order
  std::vector<Minute> done;      // by lot; never when it does not fit into the calendar
  double score = 0;              // what the search makes small
  double lateness = 0;           // of it, convex and weighted
  double work = 0;               // of it, what machines and people cost, in days late
  Minute setup = 0;              // minutes of it in all
};

inline const Choice& choice_of(const PlanProblem& problem, const PlannedRun& run) {
  return problem.operation(run.operation).choices[static_cast<std::size_t>(run.choice)];
}

/// The runs of a machine in the order of their time; what does not fit into the calendar is not
/// one.
std::vector<const PlannedRun*> runs_on(const Plan& plan, int machine);
/// The run before on a machine, and the last before of what is won; null: none.
struct RunBefore {
  const PlannedRun* any = nullptr;
  const PlannedRun* won = nullptr;
};
/// By operation; not of what does not fit.
using RunsBefore = std::map<int, RunBefore>;
RunsBefore runs_before(const PlanProblem& problem, const Plan& plan);
/// Days after its due date; 999 when it does not fit into the calendar.
double days_late(const PlannedLot& lot, Minute done);

/// Less is no change: a quarter of an hour.
inline constexpr Minute same_time = 15;
/// How much of a change an operation of the posted plan makes, from 0 (as posted, or not posted) to
/// 2: whole on another machine, by its share of a day in time, twice what is posted now.
double change_of(const PlanProblem& problem, int operation, int machine, Minute start);

/// Days late and a third of their square: ten orders one day late beat one order ten days late.
double convex_days(Minute late);

/// What is left of a lot, were it alone with all its tools mounted and somebody always there: when
/// it would be done, its operation `first` being able to begin at t. No plan is earlier.
Minute done_alone(const PlanProblem& problem, const PlannedLot& lot, std::size_t first, Minute t);
/// When work that ends at t and goes out for some working days is back.
Minute back_after(const PlanProblem& problem, Minute t, int days);
/// When a lot is done whose operation `k` ends at t.
Minute done_after(const PlanProblem& problem, const PlannedLot& lot, std::size_t k, Minute t);
/// Lateness of a lot that is done then, by the score and its weight; 0 when that is makespan.
/// `left`: minutes of it that do not fit into the calendar, where it is not done.
double lateness_of(const PlanProblem& problem, const PlannedLot& lot, Minute done);
double lateness_of(const PlanProblem& problem, const PlannedLot& lot, Minute done, Minute end,
                   Minute left);
/// The end of all calendars, up to midnight.
Minute end_of_calendars(const PlanProblem& problem);

/// A lower bound of the lateness: no plan is less late than every lot would be alone.
double least_lateness(const PlanProblem& problem);

}  // namespace turnwright
