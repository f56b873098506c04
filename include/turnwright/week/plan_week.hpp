// SPDX-License-Identifier: MIT
#pragma once
// The week planned, for the first time or again, with the reasons of what is late.
#include <optional>
#include <vector>

#include "turnwright/week/bound.hpp"
#include "turnwright/week/posted.hpp"
#include "turnwright/week/week_problem.hpp"

namespace turnwright {

struct LateReason {
  std::size_t lot = 0;  // of the problem
  double days = 0;
  Messages chain;   // down to the first cause
  Messages trials;  // of what would save it, each tried through the decoder
};

/// A lot that is late without a relief, or with it.
struct LotRelieved {
  std::size_t lot = 0;
  Minute done = never;                  // with it
  bool was_late = false, late = false;  // without it, and with it
};
/// Overtime and work at another firm that linear programs propose, tried through the decoder: with
/// it fewer lots are late. Never adopted by itself.
struct ReliefTried {
  Relief relief;
  double lateness = 0;  // with it, of the plan that then was found
  std::vector<LotRelieved> lots;
  int late() const;    // so many with it
  int before() const;  // and without
};

/// Lots between their first setup and their end: how many at once on average, and how many days
/// each (J. D. C. Little, Operations Research 9, 1961: one is the other times lots a day).
struct InWork {
  double orders = 0, days_each = 0, days = 0;  // days: from the first beginning to the last end
};
InWork in_work(const PlanProblem& problem, const Plan& plan);

/// Hours that lots wait, by what they wait for: a machine that is taken, the moment that they are
/// pinned to, people while the machine is free and open or stands with their work on it, material,
/// work of other firms.
struct Waiting {
  double machine = 0, pinned = 0, people = 0, material = 0, outside = 0;
  Waiting& operator+=(const Waiting& other);
};
Waiting waiting_of(const PlanProblem& problem, const Plan& plan);
/// Of each lot; of each operation, with the work of other firms after it.
std::vector<Waiting> waiting_by_lot(const PlanProblem& problem, const Plan& plan);
std::vector<Waiting> waiting_by_operation(const PlanProblem& problem, const Plan& plan);
/// Open minutes of its machine, from its setup to its end, in which nobody is at hand for a run
/// that has all of its pieces at its beginning.
Minute idle_time(const PlanProblem& problem, const PlannedRun& run);
/// When the first setup of each lot begins; never when it is not planned.
std::vector<Minute> beginnings(const PlanProblem& problem, const Plan& plan);

/// Machine time, with setting up, and what it costs with its people and overhead.
struct WorkCost {
  Time machine{};
  Amount cost{};
};
/// Of a plan; and of every operation by itself where it costs least, with its whole setup: as it is
/// quoted.
struct PlannedWork {
  WorkCost planned, quoted;
};
PlannedWork planned_work(const WeekProblem& problem, const Plan& plan);

/// Where a machine waits for long, and for what.
struct Gap {
  Message says;
  Minute from = 0;
};
struct WeekPlan {
  Plan plan;
  DispatchOrder list;
  std::vector<LateReason> late;  // the latest first
  std::size_t tried = 0;         // of these, the first: what would save them is looked for
  LatenessBound bound;           // no plan is less late
  std::optional<ReliefTried> relief;
  std::optional<Messages> changes;  // from the posted plan, where there is one, order by order
  std::vector<Gap> gaps;
  /// Of the independent checker: none, or the plan is not to be used.
  Messages faults;
};
/// Plans with a fixed number of moves. `like`: a plan of a like week to begin from, too, so
/// that nothing is other than in it without a gain; null: none.
WeekPlan plan_week(const Week& week, const WeekProblem& problem, int moves, int threads,
                   const std::vector<PostedRun>* like = nullptr);

/// Plans again, keeping what begins before `frozen` as it is posted; every change costs.
WeekPlan plan_again(const Week& week, WeekProblem& problem, const std::vector<PostedRun>& posted,
                    Minute frozen, int moves, int threads,
                    const std::vector<PostedRun>* like = nullptr);
/// The list of it, from the posted one; what stays is frozen at its front.
DispatchOrder list_again(const Week& week, const PlanProblem& problem, const DispatchOrder& posted,
                         Minute frozen, int moves, int threads,
                         const DispatchOrder* like = nullptr);
/// What is other than in the posted plan, order by order.
Messages differences(const Week& week, const WeekProblem& problem, const WeekPlan& plan,
                     const std::vector<PostedRun>& posted);

}  // namespace turnwright
