// SPDX-License-Identifier: MIT
#pragma once
// The finite plan: lots as chains of operations, machines with calendars, people as capacities.
// One decoder turns a dispatch order and a choice of machines into a plan that respects all of it.
#include <array>
#include <cstdint>
#include <map>
#include <span>
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
/// By operation: the run before on its machine, null for the first; not of what does not fit.
using RunsBefore = std::map<int, const PlannedRun*>;
RunsBefore runs_before(const PlanProblem& problem, const Plan& plan);
/// Days after its due date; 999 when it does not fit into the calendar.
double days_late(const PlannedLot& lot, Minute done);

/// When a piece of work is set up, runs, is done so far that the next may begin, and ends.
struct RunTimes {
  Minute setup_from = never, run_from = never, first_share = never, to = never;

  /// No times; in the place of the first share's, the minutes that did not fit.
  static RunTimes unfit(Minute left) { return {never, never, left, never}; }
};

/// Work that hands are looked for: `sets`: it is to be set up, else attended.
struct HandWork {
  int machine = 0, share = 0;  // thousandths of a person
  bool sets = false;
  Minute steps = 0;     // that are left of it
  bool begins = false;  // none of its steps is given out
};

/// People who are told apart. Who has begun goes on. Else somebody takes over who can stay for an
/// hour, and rather one who attends other machines already, or who can do less: whole people, and
/// those who can do more, are left for other work.
class NamedHands {
 public:
  using Share = std::int16_t;  // thousandths of a person

  NamedHands(const Presence& people, std::size_t machines);
  bool empty() const { return people_.named.empty(); }
  /// All are free again.
  void begin();
  void save(std::vector<Share>& free) const;
  void restore(const std::vector<Share>& free);
  /// The first step with somebody for it; `to`: none.
  Minute first_with_somebody(const HandWork& work, Minute from, Minute to) const;
  /// Who does a step that somebody can do, which is in the first of the open times of the machine;
  /// `before` did the one before.
  int who(const HandWork& work, Minute step, int before, std::span<const Span> open) const;
  /// Until when he can go on.
  Minute stays(int hand, Minute from, Minute to, int share) const;
  void occupy(int hand, Minute from, Minute to, int share);

 private:
  bool is_free(int hand, Minute step, int share) const { return free_of(hand)[step] >= share; }
  const Share* free_of(int hand) const {
    return free_.data() + static_cast<std::ptrdiff_t>(static_cast<std::size_t>(hand) * steps_);
  }
  Minute goes_on(int hand, const HandWork& work, Minute step, std::span<const Span> open,
                 Minute most) const;
  const std::vector<int>& able(const HandWork& work) const {
    return (work.sets ? set_ : run_)[static_cast<std::size_t>(work.machine)];
  }
  bool can(int hand, const HandWork& work) const {
    const NamedHand& of = people_.named[static_cast<std::size_t>(hand)];
    return (work.sets ? of.sets : of.runs)[static_cast<std::size_t>(work.machine)] != 0;
  }

  const Presence& people_;
  std::size_t steps_ = 0;
  std::vector<Share> at_first_, free_;       // by hand, then by step
  std::vector<int> skills_;                  // by hand: how much he can do
  std::vector<std::vector<int>> set_, run_;  // by machine: who can, who can do least first
  std::size_t touched_ = 0;                  // steps from which on nobody is taken
};

/// The hands of people, given out step by step: a machine waits while nobody has one free.
class Hands {
 public:
  explicit Hands(const PlanProblem& problem);
  /// False where nobody is required.
  bool count() const { return !problem_.people.present.empty(); }
  /// All hands are free again.
  void begin();
  /// When there are hands for a piece of work. Only looks.
  RunTimes look(const Choice& choice, Minute from, Minute setup, Minute share);
  /// Takes those of the work that was looked at last.
  void occupy(int attended);
  /// Who does what of it, where people are told apart.
  void tell(const PlannedRun& run, std::vector<Stint>& stints) const;
  /// The first moment with a hand for it, or with somebody who sets; never when there is none.
  Minute first_free(const Choice& choice, Minute from, bool sets);

  /// Whose hands are free by step, in thousandths.
  struct Free {
    std::vector<int> present, setters;
    std::vector<NamedHands::Share> named;  // by hand and step, where people are told apart
    std::size_t touched = 0;               // steps from which on nobody is taken
  };
  void save(Free& free) const;
  void restore(const Free& free);

 private:
  struct Taken {  // steps in a row
    Minute from = 0, to = 0;
    bool sets = false;
    int who = -1;  // does it, where people are told apart
  };
  std::span<const Span> open_from(const Choice& choice, Minute first) const;
  Minute look_on(const Choice& choice, Minute from, Minute to, bool sets) const;
  Minute work_on(const Choice& choice, Minute from, Minute to, bool sets) const;
  Minute take(const Choice& choice, Minute first, Minute work, bool sets);
  Minute take_named(const Choice& choice, Minute first, Minute work, bool sets);
  void take_steps(const Taken& steps);
  Minute look_for_anybody(const Choice& choice, Minute from, Minute to, bool sets) const;
  Minute next_free(const Choice& choice, Minute from, bool sets);
  Minute end_of_step(Minute n) const;

  const PlanProblem& problem_;
  Free free_;
  NamedHands named_;
  std::vector<Taken> taken_;  // by the run that is looked at
  // The first step with hands for such work that was found last, from a step on: it is that of all
  // between, until somebody is taken.
  struct Found {
    int share = -1;
    Minute from = 0, step = 0;
  };
  std::array<Found, 2> found_;           // to attend it, to set it up
  std::vector<std::vector<Span>> open_;  // by machine, in steps
};

/// What no plan can be less than: minutes from an operation's end until its lot is done, what its
/// run costs, what a lot is late.
struct LeastScore {
  std::vector<Minute> tail;        // by operation
  std::vector<double> work, late;  // by operation, by lot
  double work_sum = 0, late_sum = 0;
};
LeastScore least_score(const PlanProblem& problem);

/// Places of a list, both among them.
struct ChangedPlaces {
  std::size_t first = 0, last = 0;
};

struct LotState {
  int next = 0;  // its next operation
  Minute free_at = 0;
  Minute left = 0;  // minutes that do not fit into the calendar
  // Its last work, where the next may overlap it.
  Minute before_to = 0;
  double before_transfer = 1;
  double late = 0;  // at least, by what is worked so far
};
struct MachineState {
  Minute free_at = 0;
  int family = -1;  // that ran last
  const std::vector<SetupItem>* mounted = nullptr;
};
struct SumsSoFar {
  double late = 0, changes = 0, work = 0;
  Minute setup = 0, last = 0;
};
/// All that a list has done up to a place, but for the hands that it has taken.
struct WorkedSoFar {
  std::vector<LotState> lots;
  std::vector<MachineState> machines;
  std::vector<Minute> proved_at;  // by job; never: not yet
  SumsSoFar sums;
};

/// Works dispatch orders into plans; keeps its room between calls.
class Decoder {
 public:
  explicit Decoder(const PlanProblem& problem);
  /// The score alone. It stops where it is sure to be above the limit: what it says then is above.
  double score(const DispatchOrder& order, double limit = 1e300);
  /// The same, and the runs in dispatch order; not whole where it stopped.
  double score(const DispatchOrder& order, double limit, std::vector<PlannedRun>& runs);
  /// The same of a list that differs from the kept one in a range of places alone, worked from its
  /// first. Some places behind the range it stops, too, where it is worse than the kept one was
  /// there by more than it may be in the end: it seldom makes up for it, and what it says is above.
  /// The runs before the range are left as they are.
  double score_changed(const ChangedPlaces& changed, const DispatchOrder& order, double limit,
                       std::vector<PlannedRun>& runs);
  /// The list that was worked last, and differs from the one before from that place on, is kept.
  void keep(std::size_t changed, double score);
  /// When each lot is done, by the order that was worked last.
  Minute done(std::size_t lot) const { return now_.lots[lot].free_at; }
  Plan plan(const DispatchOrder& order);

  /// Step by step: from the beginning, dispatch a lot's next operation, by one of its choices.
  void begin();
  PlannedRun dispatch(std::size_t lot, int choice);
  bool finished(std::size_t lot) const;
  int next_operation(std::size_t lot) const;
  /// When a lot's next operation could begin there, with somebody at hand; never when it cannot.
  /// Nobody is looked for where it is later than `latest` anyway.
  Minute could_begin(std::size_t lot, const Choice& choice, Minute latest = never);

 private:
  void dispatch_next(const DispatchOrder& order, std::size_t place, PlannedRun& run);
  std::size_t begin_at(std::size_t changed);
  void mark_place();
  double late_by_now(std::size_t lot, int operation, const PlannedRun& run) const;
  Minute setup_minutes(const Choice& choice) const;  // of what is proved
  bool is_proved(const PlannedOperation& operation, Minute by) const;
  RunTimes times_of(std::size_t lot, const PlannedOperation& operation, const Choice& choice,
                    Minute setup);
  RunTimes times_alone(const Choice& choice, Minute from, Minute setup, Minute share) const;
  Minute arrival(std::size_t lot, const Choice& choice, Minute setup) const;
  void pass_on(std::size_t lot, const PlannedOperation& operation, const RunTimes& times);

  const PlanProblem& problem_;
  Minute end_ = 0;            // of all calendars
  std::vector<char> always_;  // by machine: open at every moment
  Hands hands_;
  LeastScore least_;
  std::size_t apart_;  // places between marks
  std::vector<std::vector<SetupItem>> at_first_;
  WorkedSoFar first_, now_;
  struct Mark {
    WorkedSoFar worked;
    Hands::Free hands;
  };
  std::vector<Mark> marks_;  // of the kept list, so far apart
  std::size_t marked_ = 0;   // so many of them hold
  // What the score is at least after each place, of the kept list and of the one that is worked.
  std::vector<double> kept_, so_far_;
  double kept_score_ = 0;
  std::vector<PlannedRun> spare_;
};

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
