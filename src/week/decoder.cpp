// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "turnwright/week/plan.hpp"

namespace turnwright {
namespace {

// Setup decides between plans that are as late: a year of it weighs less than a minute late.
constexpr double setup_weight = 1e-7;
// A day that a pinned operation begins later than it should weighs as much as so many days late.
constexpr double pin_weight = 5;

bool mounted(const std::vector<SetupItem>& on, int key) {
  return std::any_of(on.begin(), on.end(),
                     [key](const SetupItem& item) { return item.key == key; });
}

}  // namespace

Decoder::Decoder(const PlanProblem& problem)
    : problem_(problem),
      next_(problem.lots.size()),
      lot_free_at_(problem.lots.size()),
      machine_free_at_(problem.machines.size()),
      before_(problem.lots.size()),
      left_(problem.lots.size()),
      mounted_(problem.machines.size()),
      family_(problem.machines.size()),
      proved_at_(static_cast<std::size_t>(problem.jobs)),
      at_first_(problem.machines.size()),
      end_(end_of_calendars(problem)),
      hands_(problem),
      least_(least_score(problem)),
      late_(problem.lots.size()) {
  for (std::size_t m = 0; m < problem.machines.size(); ++m)
    for (const int key : problem.machines[m].mounted) at_first_[m].push_back({key, 0});
  for (const PlannedMachine& machine : problem.machines)
    always_.push_back(machine.calendar.open().size() == 1 && machine.calendar.open()[0].from <= 0 &&
                      machine.calendar.open()[0].to == never);
}

bool Decoder::is_proved(const PlannedOperation& operation, Minute by) const {
  return operation.job < 0 || proved_at_[static_cast<std::size_t>(operation.job)] <= by;
}

Minute Decoder::setup_minutes(const Choice& choice) const {
  Minute setup = choice.setup;
  const auto m = static_cast<std::size_t>(choice.machine);
  if (choice.family >= 0)
    setup += problem_.changeover[family_[m] < 0 ? 0 : static_cast<std::size_t>(family_[m]) + 1]
                                [static_cast<std::size_t>(choice.family)];
  const auto& on = *mounted_[m];
  for (const SetupItem& item : choice.items)
    if (!mounted(on, item.key)) setup += item.minutes;
  return setup;
}

// When the lot's next work begins at the earliest: by its first pieces where operations overlap,
// and not so early that the machine would wait for the last of them.
Minute Decoder::arrival(std::size_t lot, const Choice& choice, Minute setup) const {
  const Before& before = before_[lot];
  if (before.transfer >= 1) return lot_free_at_[lot];
  const Minute last_share = share_minutes(before.transfer, choice.run);
  return std::max(lot_free_at_[lot], before.to - (choice.run - last_share) - setup);
}

RunTimes Decoder::times_alone(const Choice& choice, Minute from, Minute setup, Minute share) const {
  if (always_[static_cast<std::size_t>(choice.machine)])
    return {from, from + setup, share == choice.run ? never : from + setup + share,
            from + setup + choice.run};
  const Calendar& calendar = problem_.calendar_of(choice.machine);
  const Minute start = calendar.next(from);
  const Minute all = setup + choice.run;
  if (start == never) return RunTimes::unfit(all);
  const Minute run_from = calendar.after(start, setup);
  const Minute to = run_from == never ? never : calendar.after(run_from, choice.run);
  if (to == never) return RunTimes::unfit(all - calendar.between(start, never));
  return {start, run_from, share == choice.run ? never : calendar.after(run_from, share), to};
}

void Decoder::begin() {
  std::fill(next_.begin(), next_.end(), 0);
  std::fill(machine_free_at_.begin(), machine_free_at_.end(), 0);
  for (std::size_t j = 0; j < lot_free_at_.size(); ++j) lot_free_at_[j] = problem_.lots[j].release;
  std::fill(before_.begin(), before_.end(), Before());
  std::fill(left_.begin(), left_.end(), 0);
  for (std::size_t m = 0; m < mounted_.size(); ++m) mounted_[m] = &at_first_[m];
  std::fill(family_.begin(), family_.end(), -1);
  std::fill(proved_at_.begin(), proved_at_.end(), never);
  hands_.begin();
}

// When the lot's next operation may begin.
void Decoder::pass_on(std::size_t lot, const PlannedOperation& operation, const RunTimes& t) {
  const bool overlaps = operation.transfer < 1 && operation.days_after == 0 && !finished(lot);
  before_[lot] = {t.to, overlaps ? operation.transfer : 1};
  lot_free_at_[lot] =
      overlaps && t.to != never ? t.first_share : back_after(problem_, t.to, operation.days_after);
}

// Only looks: people are taken by `occupy`.
RunTimes Decoder::times_of(std::size_t lot, const PlannedOperation& operation, const Choice& choice,
                           Minute setup) {
  const Minute free = machine_free_at_[static_cast<std::size_t>(choice.machine)];
  const Minute from =
      std::max({arrival(lot, choice, setup), free, operation.pinned, operation.ready});
  const Minute share = share_minutes(operation.transfer, choice.run);
  return hands_.count() ? hands_.look(choice, from, setup, share)
                        : times_alone(choice, from, setup, share);
}

PlannedRun Decoder::dispatch(std::size_t lot, int c) {
  const int o = problem_.lots[lot].operations[static_cast<std::size_t>(next_[lot]++)];
  const PlannedOperation& operation = problem_.operation(o);
  const Choice& choice = operation.choices[static_cast<std::size_t>(c)];
  const auto m = static_cast<std::size_t>(choice.machine);
  PlannedRun run{o, c, choice.machine, never, never, never, 0};
  if (lot_free_at_[lot] == never) {
    left_[lot] += choice.setup + choice.run;
    return run;
  }
  run.setup = setup_minutes(choice);
  RunTimes t = times_of(lot, operation, choice, run.setup);
  // It begins before another has proved the job.
  if (choice.proving > 0 && !is_proved(operation, t.setup_from)) {
    run.setup += choice.proving;
    t = times_of(lot, operation, choice, run.setup);
  }
  if (hands_.count() && t.to != never) hands_.occupy(run.setup, choice.attended);
  if (operation.job >= 0) {
    Minute& proved_at = proved_at_[static_cast<std::size_t>(operation.job)];
    proved_at = std::min(proved_at, t.run_from);
  }
  if (before_[lot].transfer < 1 && t.to != never)
    t.to = std::max(t.to, problem_.machines[m].calendar.after(
                              before_[lot].to, share_minutes(before_[lot].transfer, choice.run)));
  run.setup_from = t.setup_from;
  run.run_from = t.run_from;
  run.to = t.to;
  if (t.to == never) {
    left_[lot] = t.first_share;
  } else {
    machine_free_at_[m] = t.to;
    mounted_[m] = &choice.items;
    family_[m] = choice.family;
  }
  pass_on(lot, operation, t);
  return run;
}

bool Decoder::finished(std::size_t lot) const {
  return static_cast<std::size_t>(next_[lot]) == problem_.lots[lot].operations.size();
}
int Decoder::next_operation(std::size_t lot) const {
  return problem_.lots[lot].operations[static_cast<std::size_t>(next_[lot])];
}

Minute Decoder::could_begin(std::size_t lot, const Choice& choice) const {
  if (lot_free_at_[lot] == never) return never;
  const auto m = static_cast<std::size_t>(choice.machine);
  const PlannedOperation& operation = problem_.operation(next_operation(lot));
  const Minute setup =
      setup_minutes(choice) + (is_proved(operation, never - 1) ? 0 : choice.proving);
  const Minute from = problem_.machines[m].calendar.next(std::max(
      {arrival(lot, choice, setup), machine_free_at_[m], operation.pinned, operation.ready}));
  return !hands_.count() || from == never ? from : hands_.first_free(choice, from, setup > 0);
}

// How late a lot is at least, whose operation is done then.
double Decoder::late_by_now(std::size_t lot, int operation, const PlannedRun& run) const {
  const PlannedLot& planned = problem_.lots[lot];
  if (finished(lot)) return lateness_of(problem_, planned, lot_free_at_[lot], end_, left_[lot]);
  if (run.to == never) return late_[lot];
  const Minute least = run.to + least_.tail[static_cast<std::size_t>(operation)];
  return least <= planned.due
             ? late_[lot]
             : std::max(late_[lot], lateness_of(problem_, planned, least, end_, 0));
}

template <class Visit>
double Decoder::decode(const DispatchOrder& order, double limit, Visit visit) {
  begin();
  std::copy(least_.late.begin(), least_.late.end(), late_.begin());
  double late = least_.late_sum, changes = 0, work = least_.work_sum;
  Minute setup_sum = 0, last = 0;
  const bool makespan = problem_.score == Score::makespan;
  for (const int j : order.lots) {
    const auto lot = static_cast<std::size_t>(j);
    const auto o = static_cast<std::size_t>(next_operation(lot));
    const PlannedRun run = dispatch(lot, order.choices[o]);
    if (!problem_.old_start.empty())
      changes +=
          problem_.change_cost * change_of(problem_, run.operation, run.machine, run.setup_from);
    if (const Minute pinned = problem_.operations[o].pinned; pinned >= 0 && run.to != never)
      changes += pin_weight * (run.setup_from - pinned) / minutes_a_day;
    if (run.to != never) {
      setup_sum += run.setup;
      last = std::max(last, run.to + (makespan ? least_.tail[o] : 0));
    }
    visit(run);
    if (makespan) {
      if (last > limit) return last;
      continue;
    }
    const Choice& choice = problem_.operations[o].choices[static_cast<std::size_t>(run.choice)];
    work += work_of(choice, run.setup) - least_.work[o];
    const double late_now = late_by_now(lot, run.operation, run);
    late += late_now - late_[lot];
    late_[lot] = late_now;
    // Sums of differences are off by their last digits.
    if (const double least = late + work + changes; least > limit + 1e-9 * (1 + std::abs(least)))
      return least;
  }
  return makespan ? static_cast<double>(last) : late + work + changes + setup_weight * setup_sum;
}

double Decoder::score(const DispatchOrder& order, double limit) {
  return decode(order, limit, [](const PlannedRun&) {});
}
double Decoder::score(const DispatchOrder& order, double limit, std::vector<PlannedRun>& runs) {
  runs.clear();
  return decode(order, limit, [&](const PlannedRun& run) { runs.push_back(run); });
}

Plan Decoder::plan(const DispatchOrder& order) {
  Plan plan;
  plan.runs.reserve(order.lots.size());
  plan.score = decode(order, 1e300, [&](const PlannedRun& run) {
    plan.runs.push_back(run);
    if (run.to != never) hands_.tell(run.operation, run.setup, plan.stints);
  });
  plan.done = lot_free_at_;
  for (std::size_t j = 0; j < problem_.lots.size(); ++j)
    plan.lateness += lateness_of(problem_, problem_.lots[j], plan.done[j], end_, left_[j]);
  for (const PlannedRun& run : plan.runs) {
    const Choice& choice =
        problem_.operation(run.operation).choices[static_cast<std::size_t>(run.choice)];
    plan.work += work_of(choice, run.setup);
    if (run.to != never) plan.setup += run.setup;
  }
  return plan;
}

}  // namespace turnwright
