// SPDX-License-Identifier: MIT
// When a lot is done and how late that is, told without a plan or of a finished one.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "turnwright/week/decoder.hpp"

namespace turnwright {
namespace {

// What does not fit counts as done so long after the calendar, and later by what is left of it, in
// clock time: a list that leaves less undone is better.
constexpr Minute unplanned = 10 * minutes_a_day;
constexpr int clock_per_work = 5;

// The earliest end of an operation, whichever machine gives it, and of its first share.
struct Soonest {
  Minute to = never, first_share = never;
};
// From t on; `end` is when the operation before ends, and `transfer` the share of it that was
// waited for.
Soonest soonest_of(const PlanProblem& problem, const PlannedOperation& operation, Minute t,
                   Minute end, double transfer) {
  Soonest soonest;
  for (const Choice& c : operation.choices) {
    const Calendar& calendar = problem.calendar_of(c.machine);
    const Minute start = t == never ? never : calendar.next(t);
    if (start == never) continue;
    const Minute run_from = calendar.after(start, c.setup);
    if (run_from == never) continue;
    Minute to = calendar.after(run_from, c.run);
    if (transfer < 1) to = std::max(to, calendar.after(end, share_minutes(transfer, c.run)));
    soonest.to = std::min(soonest.to, to);
    soonest.first_share = std::min(
        soonest.first_share, calendar.after(run_from, share_minutes(operation.transfer, c.run)));
  }
  return soonest;
}

}  // namespace

Minute share_minutes(double transfer, Minute run) {
  if (transfer >= 1) return run;
  const auto steps = static_cast<Minute>(std::ceil(transfer * run / time_step - 1e-9));
  return std::min(run, steps * time_step);
}

Minute back_after(const PlanProblem& problem, Minute t, int days) {
  if (days <= 0 || t == never) return t;
  if (problem.back_on.empty()) return t + days * minutes_a_day;
  auto day = static_cast<std::size_t>((t + minutes_a_day - 1) / minutes_a_day);
  for (int i = 0; i < days; ++i) {
    if (day >= problem.back_on.size()) return never;
    const Minute begins = problem.back_on[day];
    if (begins == never) return never;
    day = static_cast<std::size_t>(begins / minutes_a_day);
    if (i + 1 == days) return begins;
  }
  return t;
}

Minute end_of_calendars(const PlanProblem& problem) {
  Minute end = 0;
  for (const PlannedMachine& machine : problem.machines)
    if (!machine.calendar.open().empty())
      end = std::max(end, std::min(machine.calendar.open().back().to, never / 2));
  return (end + minutes_a_day - 1) / minutes_a_day * minutes_a_day;
}

double lateness_of(const PlanProblem& problem, const PlannedLot& lot, Minute done, Minute end,
                   Minute left) {
  if (problem.score == Score::makespan) return 0;
  if (done == never) done = end + unplanned + clock_per_work * left;
  const Minute late = std::max(0, done - lot.due);
  return lot.weight *
         (problem.score == Score::convex_lateness ? convex_days(late) : static_cast<double>(late));
}
double lateness_of(const PlanProblem& problem, const PlannedLot& lot, Minute done) {
  return lateness_of(problem, lot, done, done == never ? end_of_calendars(problem) : 0, 0);
}

Minute whole_setup(const Choice& choice) {
  Minute setup = choice.setup + choice.proving;
  for (const SetupItem& item : choice.items) setup += item.minutes;
  return setup;
}

int cheapest_choice(const PlannedOperation& operation) {
  const auto best = std::min_element(
      operation.choices.begin(), operation.choices.end(), [](const Choice& a, const Choice& b) {
        return work_of(a, whole_setup(a)) < work_of(b, whole_setup(b));
      });
  return static_cast<int>(best - operation.choices.begin());
}

double change_of(const PlanProblem& problem, int operation, int machine, Minute start) {
  const auto o = static_cast<std::size_t>(operation);
  if (o >= problem.old_start.size() || problem.old_start[o] == never) return 0;
  const Minute was = problem.old_start[o];
  const double ahead = std::max(0, was - problem.now) / static_cast<double>(minutes_a_day);
  const double near = 1 + 1 / (1 + ahead);
  if (problem.old_machine[o] != machine || start == never) return near;
  const Minute by = std::abs(start - was);
  if (by <= same_time) return 0;
  return near * std::min(1.0, by / static_cast<double>(minutes_a_day));
}

std::vector<const PlannedRun*> runs_on(const Plan& plan, int machine) {
  std::vector<const PlannedRun*> runs;
  for (const PlannedRun& run : plan.runs)
    if (run.machine == machine && run.to != never) runs.push_back(&run);
  std::sort(runs.begin(), runs.end(),
            [](const PlannedRun* a, const PlannedRun* b) { return a->setup_from < b->setup_from; });
  return runs;
}

RunsBefore runs_before(const PlanProblem& problem, const Plan& plan) {
  RunsBefore before;
  for (int m = 0; m < static_cast<int>(problem.machines.size()); ++m) {
    RunBefore last;
    for (const PlannedRun* run : runs_on(plan, m)) {
      before[run->operation] = last;
      last.any = run;
      if (!problem.lot_with(run->operation).quoted) last.won = run;
    }
  }
  return before;
}

double days_late(const PlannedLot& lot, Minute done) {
  return done == never ? 999 : static_cast<double>(std::max(0, done - lot.due)) / minutes_a_day;
}

double convex_days(Minute late) {
  const double days = static_cast<double>(late) / minutes_a_day;
  return days + days * days / 3;
}

// An operation that ends earlier never makes the next one end later, so the earliest of each is the
// best; where operations overlap, the earliest first share and the earliest end.
Minute done_alone(const PlanProblem& problem, const PlannedLot& lot, std::size_t first, Minute t) {
  Minute end = t;
  double transfer = 1;
  for (std::size_t k = first; k < lot.operations.size(); ++k) {
    const PlannedOperation& operation = problem.operation(lot.operations[k]);
    const Soonest soonest = soonest_of(problem, operation, t, end, transfer);
    end = soonest.to;
    const bool overlaps = operation.transfer < 1 && operation.days_after == 0;
    transfer = overlaps ? operation.transfer : 1;
    t = overlaps && k + 1 < lot.operations.size()
            ? soonest.first_share
            : back_after(problem, soonest.to, operation.days_after);
  }
  return t;
}

Minute done_after(const PlanProblem& problem, const PlannedLot& lot, std::size_t k, Minute t) {
  const int days = problem.operation(lot.operations[k]).days_after;
  return done_alone(problem, lot, k + 1, back_after(problem, t, days));
}

LeastScore least_score(const PlanProblem& problem) {
  LeastScore least;
  least.tail.assign(problem.operations.size(), 0);
  least.work.assign(problem.operations.size(), 0);
  for (const PlannedLot& lot : problem.lots) {
    Minute left = 0;
    const bool overlaps = std::any_of(lot.operations.begin(), lot.operations.end(),
                                      [&](int o) { return problem.operation(o).transfer < 1; });
    for (auto o = lot.operations.rbegin(); o != lot.operations.rend(); ++o) {
      const PlannedOperation& operation = problem.operation(*o);
      const auto at = static_cast<std::size_t>(*o);
      // A day of outside work may begin in the evening.
      left += std::max(0, operation.days_after - (problem.back_on.empty() ? 0 : 1)) * minutes_a_day;
      least.tail[at] = overlaps ? 0 : left;
      if (operation.choices.empty()) continue;
      Minute shortest = never;
      double cheapest = 1e300;
      for (const Choice& c : operation.choices) {
        shortest = std::min(shortest, c.setup + c.run);
        cheapest = std::min(cheapest, work_of(c, c.setup));
      }
      left += shortest;
      least.work[at] = cheapest;
      least.work_sum += cheapest;
    }
    const Minute alone = lot.release + (overlaps ? 0 : left);
    least.late.push_back(lot.operations.empty() ? 0 : lateness_of(problem, lot, alone));
    least.late_sum += least.late.back();
  }
  return least;
}

double least_lateness(const PlanProblem& problem) {
  double sum = 0;
  for (const PlannedLot& lot : problem.lots)
    if (!lot.operations.empty())
      sum += lateness_of(problem, lot, done_alone(problem, lot, 0, lot.release));
  return sum;
}

}  // namespace turnwright
