// SPDX-License-Identifier: MIT
#pragma once
// Turns a dispatch order and a choice of machines into a plan that respects calendars and people.
#include <cstddef>
#include <vector>

#include "turnwright/week/hands.hpp"

namespace turnwright {

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
  // The last work, which has left its setup, and the last that is won.
  const Choice *last = nullptr, *last_won = nullptr;

  void leave(const Choice& choice, bool quoted, Minute to);
};
/// When jobs are proved, by number; never: not yet. What is won counts on no quote's proving.
struct ProvedJobs {
  std::vector<Minute> at, by_won;  // by_won: where there are quotes

  void prove(int job, bool quoted, Minute t);
  bool are(int job, bool quoted, Minute by) const;
};
struct SumsSoFar {
  double late = 0, changes = 0, work = 0;
  Minute setup = 0, last = 0;
};
/// All that a list has done up to a place, but for the hands that it has taken.
struct WorkedSoFar {
  std::vector<LotState> lots;
  std::vector<MachineState> machines;
  ProvedJobs proved;
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
  // Of what is proved. What is won counts on nothing that a quote sets up.
  Minute setup_minutes(const Choice& choice, bool quoted) const;
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
  std::size_t apart_;             // places between marks
  std::vector<Choice> at_first_;  // by machine: what has left what is mounted
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

}  // namespace turnwright
