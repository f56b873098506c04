// SPDX-License-Identifier: MIT
#include "turnwright/week/plan.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

namespace turnwright {
namespace {

// Setup decides between plans that are as late: a year of it weighs less than a minute late.
constexpr double ready_weight = 1e-7;
// What does not fit counts as done so long after the calendar, and later by what is left of it, in
// clock time: a list that leaves less undone is better.
constexpr Minute unplanned = 10 * minutes_a_day;
constexpr int clock_per_work = 5;

bool mounted(const std::vector<ReadyPart>& on, int key) {
  return std::any_of(on.begin(), on.end(), [key](const ReadyPart& p) { return p.key == key; });
}

double lateness(const PlanProblem& problem, const PlannedJob& job, Minute done, Minute end,
                Minute left = 0) {
  if (problem.score == Score::makespan) return 0;
  if (done == never) done = end + unplanned + clock_per_work * left;
  const Minute late = std::max(0, done - job.due);
  return job.weight *
         (problem.score == Score::convex_lateness ? convex_days(late) : static_cast<double>(late));
}

}  // namespace

Minute lot_minutes(double transfer, Minute run) {
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

double lateness_of(const PlanProblem& problem, const PlannedJob& job, Minute done) {
  return lateness(problem, job, done, done == never ? end_of_calendars(problem) : 0);
}

bool moved(const PlanProblem& problem, int operation, int machine, Minute start) {
  const auto o = static_cast<std::size_t>(operation);
  if (o >= problem.old_start.size() || problem.old_start[o] == never) return false;
  return problem.old_machine[o] != machine || start == never ||
         std::abs(start - problem.old_start[o]) >= minutes_a_day;
}

std::vector<const PlannedRun*> runs_on(const Plan& plan, int machine) {
  std::vector<const PlannedRun*> runs;
  for (const PlannedRun& run : plan.runs)
    if (run.machine == machine && run.to != never) runs.push_back(&run);
  std::sort(runs.begin(), runs.end(),
            [](const PlannedRun* a, const PlannedRun* b) { return a->ready_from < b->ready_from; });
  return runs;
}

double days_late(const PlannedJob& job, Minute done) {
  return done == never ? 999 : static_cast<double>(std::max(0, done - job.due)) / minutes_a_day;
}

double convex_days(Minute late) {
  const double days = static_cast<double>(late) / minutes_a_day;
  return days + days * days / 3;
}

Decoder::Decoder(const PlanProblem& problem)
    : problem_(problem),
      next_(problem.jobs.size()),
      job_ready_(problem.jobs.size()),
      machine_free_(problem.machines.size()),
      before_(problem.jobs.size()),
      left_(problem.jobs.size()),
      mounted_(problem.machines.size()),
      family_(problem.machines.size()),
      at_first_(problem.machines.size()) {
  for (std::size_t m = 0; m < problem.machines.size(); ++m)
    for (const int key : problem.machines[m].mounted) at_first_[m].push_back({key, 0});
  end_ = end_of_calendars(problem);
  if (problem.people.present.empty()) return;
  const std::size_t steps = problem.people.present.size();
  for (const PlannedMachine& machine : problem.machines) {
    std::vector<char> open(steps, 0);
    for (const Span& s : machine.calendar.open())
      for (Minute t = (s.from + time_step - 1) / time_step; t < s.to / time_step; ++t)
        if (static_cast<std::size_t>(t) < steps) open[static_cast<std::size_t>(t)] = 1;
    open_.push_back(std::move(open));
  }
}

Minute Decoder::ready_minutes(const Choice& choice) const {
  Minute ready = choice.ready;
  const auto m = static_cast<std::size_t>(choice.machine);
  if (choice.family >= 0)
    ready += problem_.changeover[family_[m] < 0 ? 0 : static_cast<std::size_t>(family_[m]) + 1]
                                [static_cast<std::size_t>(choice.family)];
  const auto& on = *mounted_[m];
  for (const ReadyPart& part : choice.parts)
    if (!mounted(on, part.key)) ready += part.minutes;
  return ready;
}

// When the order's next work begins at the earliest: by its first pieces where batches overlap, and
// not so early that it would stand and wait for the last of them.
Minute Decoder::arrival(std::size_t job, const Choice& choice, Minute ready) const {
  const Before& before = before_[job];
  if (before.transfer >= 1) return job_ready_[job];
  const Minute last_lot = lot_minutes(before.transfer, choice.run);
  return std::max(job_ready_[job], before.to - (choice.run - last_lot) - ready);
}

Decoder::Times Decoder::place(const Choice& choice, Minute from, Minute ready, Minute lot) const {
  const Calendar& calendar = problem_.machines[static_cast<std::size_t>(choice.machine)].calendar;
  const Minute start = calendar.next(from);
  const Minute all = ready + choice.run;
  if (start == never) return unfit(all);
  const Minute run_from = calendar.after(start, ready);
  const Minute to = run_from == never ? never : calendar.after(run_from, choice.run);
  if (to == never) return unfit(all - calendar.between(start, never));
  return {start, run_from, lot == choice.run ? never : calendar.after(run_from, lot), to};
}

// Step by step: a machine stands while nobody has a hand free for it.
Decoder::Times Decoder::place_with_people(const Choice& choice, Minute from, Minute ready,
                                          Minute lot) {
  const auto& open = open_[static_cast<std::size_t>(choice.machine)];
  const auto steps = static_cast<Minute>(open.size());
  auto count = [](Minute m) { return (m + time_step - 1) / time_step; };
  Minute setting = count(ready), running = count(choice.run);
  const Minute first = count(from);
  Times times{never, never, never, never};
  Minute last = first;
  const Minute setting_all = setting, running_all = running;
  // Look before taking: what does not fit into the calendar takes nobody's time.
  static thread_local std::vector<Minute> taken;
  taken.clear();
  for (Minute t = first; t < steps && setting + running > 0; ++t) {
    const auto i = static_cast<std::size_t>(t);
    if (!open[i]) continue;
    const bool sets = setting > 0;
    if (sets ? (setters_[i] < 1000 || present_[i] < 1000) : present_[i] < choice.attended) continue;
    if (times.ready_from == never) times.ready_from = t * time_step;
    if (!sets && times.run_from == never) times.run_from = t * time_step;
    taken.push_back(t);
    (sets ? setting : running) -= 1;
    last = t + 1;
  }
  if (setting + running > 0) return unfit((setting + running) * time_step);
  if (const Minute lots = setting_all + count(lot); lots > 0)
    times.lot = (taken[static_cast<std::size_t>(lots) - 1] + 1) * time_step;
  Minute k = 0;
  for (const Minute t : taken) {
    const auto i = static_cast<std::size_t>(t);
    const bool sets = k++ < setting_all;
    present_[i] -= sets ? 1000 : choice.attended;
    if (sets) setters_[i] -= 1000;
  }
  if (times.ready_from == never) times.ready_from = first * time_step;
  if (running_all == 0) times.run_from = last * time_step;
  times.to = last * time_step;
  return times;
}

void Decoder::begin() {
  std::fill(next_.begin(), next_.end(), 0);
  std::fill(machine_free_.begin(), machine_free_.end(), 0);
  for (std::size_t j = 0; j < job_ready_.size(); ++j) job_ready_[j] = problem_.jobs[j].release;
  std::fill(before_.begin(), before_.end(), Before());
  std::fill(left_.begin(), left_.end(), 0);
  for (std::size_t m = 0; m < mounted_.size(); ++m) mounted_[m] = &at_first_[m];
  std::fill(family_.begin(), family_.end(), -1);
  if (problem_.people.present.empty()) return;
  present_ = problem_.people.present;
  setters_ = problem_.people.setters;
}

PlannedRun Decoder::put(std::size_t job, int c) {
  const PlannedJob& planned = problem_.jobs[job];
  const int o = planned.operations[static_cast<std::size_t>(next_[job]++)];
  const PlannedOperation& operation = problem_.operations[static_cast<std::size_t>(o)];
  const Choice& choice = operation.choices[static_cast<std::size_t>(c)];
  const auto m = static_cast<std::size_t>(choice.machine);
  PlannedRun run{o, c, choice.machine, never, never, never, 0};
  if (job_ready_[job] == never) {
    left_[job] += choice.ready + choice.run;
    return run;
  }
  run.ready = ready_minutes(choice);
  const Minute from = std::max(arrival(job, choice, run.ready), machine_free_[m]);
  const Minute lot = lot_minutes(operation.transfer, choice.run);
  Times t = problem_.people.present.empty() ? place(choice, from, run.ready, lot)
                                            : place_with_people(choice, from, run.ready, lot);
  if (before_[job].transfer < 1 && t.to != never)
    t.to = std::max(t.to, problem_.machines[m].calendar.after(
                              before_[job].to, lot_minutes(before_[job].transfer, choice.run)));
  run.ready_from = t.ready_from;
  run.run_from = t.run_from;
  run.to = t.to;
  if (t.to == never) left_[job] = t.lot;
  if (t.to != never) {
    machine_free_[m] = t.to;
    mounted_[m] = &choice.parts;
    family_[m] = choice.family;
  }
  const bool overlaps = operation.transfer < 1 && operation.days_after == 0 && !finished(job);
  before_[job] = {t.to, overlaps ? operation.transfer : 1};
  job_ready_[job] =
      overlaps && t.to != never ? t.lot : back_after(problem_, t.to, operation.days_after);
  return run;
}

bool Decoder::finished(std::size_t job) const {
  return static_cast<std::size_t>(next_[job]) == problem_.jobs[job].operations.size();
}
int Decoder::next_operation(std::size_t job) const {
  return problem_.jobs[job].operations[static_cast<std::size_t>(next_[job])];
}

Minute Decoder::could_begin(std::size_t job, const Choice& choice) const {
  if (job_ready_[job] == never) return never;
  const auto m = static_cast<std::size_t>(choice.machine);
  const Minute from = problem_.machines[m].calendar.next(
      std::max(arrival(job, choice, choice.ready), machine_free_[m]));
  if (problem_.people.present.empty() || from == never) return from;
  const auto& open = open_[m];
  for (auto i = static_cast<std::size_t>((from + time_step - 1) / time_step); i < open.size(); ++i)
    if (open[i] && (choice.ready > 0 ? std::min(setters_[i], present_[i]) >= 1000
                                     : present_[i] >= choice.attended))
      return static_cast<Minute>(i) * time_step;
  return never;
}

template <class Keep>
double Decoder::decode(const DispatchOrder& list, Keep keep) {
  begin();
  double late = 0, changes = 0;
  Minute ready_sum = 0, last = 0;
  for (const int j : list.jobs) {
    const auto job = static_cast<std::size_t>(j);
    const auto o = static_cast<std::size_t>(next_operation(job));
    const PlannedRun run = put(job, list.choices[o]);
    if (!problem_.old_start.empty() && moved(problem_, run.operation, run.machine, run.ready_from))
      changes += problem_.change_cost;
    if (run.to != never) {
      ready_sum += run.ready;
      last = std::max(last, run.to);
    }
    keep(run);
    if (finished(job))
      late += lateness(problem_, problem_.jobs[job], job_ready_[job], end_, left_[job]);
  }
  const double ready = ready_weight * ready_sum;
  return problem_.score == Score::makespan ? static_cast<double>(last) : late + changes + ready;
}

double Decoder::score(const DispatchOrder& list) {
  return decode(list, [](const PlannedRun&) {});
}

Plan Decoder::plan(const DispatchOrder& list) {
  Plan plan;
  plan.runs.reserve(list.jobs.size());
  plan.score = decode(list, [&](const PlannedRun& run) { plan.runs.push_back(run); });
  plan.done = job_ready_;
  for (std::size_t j = 0; j < problem_.jobs.size(); ++j)
    plan.lateness += lateness(problem_, problem_.jobs[j], plan.done[j], end_, left_[j]);
  for (const PlannedRun& run : plan.runs)
    if (run.to != never) plan.ready += run.ready;
  return plan;
}

Minute done_alone(const PlanProblem& problem, const PlannedJob& job, std::size_t first, Minute t) {
  // An operation that ends earlier never makes the next one end later, so the earliest of each is
  // the best; where batches overlap, the earliest first share and the earliest end, whichever
  // machine gives each.
  Minute end = t;
  double transfer = 1;
  for (std::size_t k = first; k < job.operations.size(); ++k) {
    const auto& operation = problem.operations[static_cast<std::size_t>(job.operations[k])];
    Minute soonest = never, lot = never;
    for (const Choice& c : operation.choices) {
      const Calendar& calendar = problem.machines[static_cast<std::size_t>(c.machine)].calendar;
      const Minute start = t == never ? never : calendar.next(t);
      if (start == never) continue;
      const Minute ready = calendar.after(start, c.ready);
      if (ready == never) continue;
      Minute to = calendar.after(ready, c.run);
      if (transfer < 1) to = std::max(to, calendar.after(end, lot_minutes(transfer, c.run)));
      soonest = std::min(soonest, to);
      lot = std::min(lot, calendar.after(ready, lot_minutes(operation.transfer, c.run)));
    }
    end = soonest;
    const bool overlaps = operation.transfer < 1 && operation.days_after == 0;
    transfer = overlaps ? operation.transfer : 1;
    t = overlaps && k + 1 < job.operations.size()
            ? lot
            : back_after(problem, soonest, operation.days_after);
  }
  return t;
}

Minute done_after(const PlanProblem& problem, const PlannedJob& job, std::size_t k, Minute t) {
  const auto o = static_cast<std::size_t>(job.operations[k]);
  return done_alone(problem, job, k + 1, back_after(problem, t, problem.operations[o].days_after));
}

double least_lateness(const PlanProblem& problem) {
  double sum = 0;
  for (const PlannedJob& job : problem.jobs)
    if (!job.operations.empty())
      sum += lateness_of(problem, job, done_alone(problem, job, 0, job.release));
  return sum;
}

}  // namespace turnwright
