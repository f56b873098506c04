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

Minute steps(Minute m) { return (m + time_step - 1) / time_step; }

// By step: the first from it on in which the machine is open all of it; `count`: none.
std::vector<Minute> open_steps(const Calendar& calendar, std::size_t count) {
  std::vector<Minute> next(count + 1, static_cast<Minute>(count));
  for (const Span& s : calendar.open())
    for (Minute t = steps(s.from); t < s.to / time_step; ++t)
      if (static_cast<std::size_t>(t) < count) next[static_cast<std::size_t>(t)] = t;
  for (std::size_t i = count; i-- > 0;)
    if (next[i] != static_cast<Minute>(i)) next[i] = next[i + 1];
  return next;
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
      end_(end_of_calendars(problem)) {
  for (std::size_t m = 0; m < problem.machines.size(); ++m)
    for (const int key : problem.machines[m].mounted) at_first_[m].push_back({key, 0});
  for (const PlannedMachine& machine : problem.machines)
    always_.push_back(machine.calendar.open().size() == 1 && machine.calendar.open()[0].from <= 0 &&
                      machine.calendar.open()[0].to == never);
  look_ahead();
  if (problem.people.present.empty()) return;
  present_ = problem.people.present;
  setters_ = problem.people.setters;
  for (const PlannedMachine& machine : problem.machines)
    open_.push_back(open_steps(machine.calendar, problem.people.present.size()));
}

void Decoder::look_ahead() {
  tail_.assign(problem_.operations.size(), 0);
  least_work_.assign(problem_.operations.size(), 0);
  late_.assign(problem_.lots.size(), 0);
  for (const PlannedLot& lot : problem_.lots) {
    Minute left = 0;
    const bool overlaps = std::any_of(lot.operations.begin(), lot.operations.end(),
                                      [&](int o) { return problem_.operation(o).transfer < 1; });
    for (auto o = lot.operations.rbegin(); o != lot.operations.rend(); ++o) {
      const PlannedOperation& operation = problem_.operation(*o);
      // A day of outside work may begin in the evening.
      left +=
          std::max(0, operation.days_after - (problem_.back_on.empty() ? 0 : 1)) * minutes_a_day;
      tail_[static_cast<std::size_t>(*o)] = overlaps ? 0 : left;
      Minute shortest = never;
      double cheapest = 1e300;
      for (const Choice& c : operation.choices) {
        shortest = std::min(shortest, c.setup + c.run);
        cheapest = std::min(cheapest, work_of(c, c.setup));
      }
      left += shortest == never ? 0 : shortest;
      least_work_[static_cast<std::size_t>(*o)] = operation.choices.empty() ? 0 : cheapest;
      least_work_sum_ += least_work_[static_cast<std::size_t>(*o)];
    }
    const Minute alone = lot.release + (overlaps ? 0 : left);
    least_late_.push_back(lot.operations.empty() ? 0 : lateness_of(problem_, lot, alone));
    least_late_sum_ += least_late_.back();
  }
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

Decoder::Times Decoder::times_alone(const Choice& choice, Minute from, Minute setup,
                                    Minute share) const {
  if (always_[static_cast<std::size_t>(choice.machine)])
    return {from, from + setup, share == choice.run ? never : from + setup + share,
            from + setup + choice.run};
  const Calendar& calendar = problem_.calendar_of(choice.machine);
  const Minute start = calendar.next(from);
  const Minute all = setup + choice.run;
  if (start == never) return unfit(all);
  const Minute run_from = calendar.after(start, setup);
  const Minute to = run_from == never ? never : calendar.after(run_from, choice.run);
  if (to == never) return unfit(all - calendar.between(start, never));
  return {start, run_from, share == choice.run ? never : calendar.after(run_from, share), to};
}

// The steps in which somebody has a hand free for it: a machine waits while nobody has. Only looks:
// what does not fit into the calendar takes nobody's time.
Decoder::Times Decoder::look_for_steps(const Choice& choice, Minute first, Work& left) {
  const auto& open = open_[static_cast<std::size_t>(choice.machine)];
  const auto count = static_cast<Minute>(open.size()) - 1;
  Times times{never, never, never, never};
  taken_.clear();
  for (Minute t = first; t < count && left.setting + left.running > 0; ++t) {
    t = open[static_cast<std::size_t>(t)];
    if (t >= count) break;
    const auto i = static_cast<std::size_t>(t);
    const bool sets = left.setting > 0;
    if (sets ? (setters_[i] < 1000 || present_[i] < 1000) : present_[i] < choice.attended) continue;
    if (times.setup_from == never) times.setup_from = t * time_step;
    if (!sets && times.run_from == never) times.run_from = t * time_step;
    taken_.push_back(t);
    (sets ? left.setting : left.running) -= 1;
  }
  return times;
}

void Decoder::occupy(Minute setting, int attended) {
  Minute k = 0;
  for (const Minute t : taken_) {
    const auto i = static_cast<std::size_t>(t);
    const bool sets = k++ < setting;
    present_[i] -= sets ? 1000 : attended;
    if (sets) setters_[i] -= 1000;
  }
  if (!taken_.empty()) touched_ = std::max(touched_, static_cast<std::size_t>(taken_.back()) + 1);
}

Decoder::Times Decoder::times_with_people(const Choice& choice, Minute from, Minute setup,
                                          Minute share) {
  const Work all{steps(setup), steps(choice.run)};
  Work left = all;
  const Minute first = steps(from);
  Times times = look_for_steps(choice, first, left);
  if (left.setting + left.running > 0) return unfit((left.setting + left.running) * time_step);
  const Minute last = taken_.empty() ? first : taken_.back() + 1;
  if (const Minute n = all.setting + steps(share); n > 0)
    times.first_share = (taken_[static_cast<std::size_t>(n) - 1] + 1) * time_step;
  if (times.setup_from == never) times.setup_from = first * time_step;
  if (all.running == 0) times.run_from = last * time_step;
  times.to = last * time_step;
  return times;
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
  if (problem_.people.present.empty()) return;
  const auto touched = static_cast<std::ptrdiff_t>(touched_);
  const Presence& people = problem_.people;
  std::copy(people.present.begin(), people.present.begin() + touched, present_.begin());
  std::copy(people.setters.begin(), people.setters.begin() + touched, setters_.begin());
  touched_ = 0;
}

// When the lot's next operation may begin.
void Decoder::pass_on(std::size_t lot, const PlannedOperation& operation, const Times& t) {
  const bool overlaps = operation.transfer < 1 && operation.days_after == 0 && !finished(lot);
  before_[lot] = {t.to, overlaps ? operation.transfer : 1};
  lot_free_at_[lot] =
      overlaps && t.to != never ? t.first_share : back_after(problem_, t.to, operation.days_after);
}

// Only looks: people are taken by `occupy`.
Decoder::Times Decoder::times_of(std::size_t lot, const PlannedOperation& operation,
                                 const Choice& choice, Minute setup) {
  const Minute free = machine_free_at_[static_cast<std::size_t>(choice.machine)];
  const Minute from = std::max({arrival(lot, choice, setup), free, operation.pinned});
  const Minute share = share_minutes(operation.transfer, choice.run);
  return problem_.people.present.empty() ? times_alone(choice, from, setup, share)
                                         : times_with_people(choice, from, setup, share);
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
  Times t = times_of(lot, operation, choice, run.setup);
  // It begins before another has proved the job.
  if (choice.proving > 0 && !is_proved(operation, t.setup_from)) {
    run.setup += choice.proving;
    t = times_of(lot, operation, choice, run.setup);
  }
  if (!problem_.people.present.empty() && t.to != never) occupy(steps(run.setup), choice.attended);
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
  const Minute from = problem_.machines[m].calendar.next(
      std::max({arrival(lot, choice, setup), machine_free_at_[m], operation.pinned}));
  if (problem_.people.present.empty() || from == never) return from;
  const auto& open = open_[m];
  for (auto i = static_cast<std::size_t>(steps(from)); i + 1 < open.size(); ++i)
    if (open[i] == static_cast<Minute>(i) &&
        (setup > 0 ? std::min(setters_[i], present_[i]) >= 1000 : present_[i] >= choice.attended))
      return static_cast<Minute>(i) * time_step;
  return never;
}

// How late a lot is at least, whose operation is done then.
double Decoder::late_by_now(std::size_t lot, int operation, const PlannedRun& run) const {
  const PlannedLot& planned = problem_.lots[lot];
  if (finished(lot)) return lateness_of(problem_, planned, lot_free_at_[lot], end_, left_[lot]);
  if (run.to == never) return late_[lot];
  const Minute least = run.to + tail_[static_cast<std::size_t>(operation)];
  return least <= planned.due
             ? late_[lot]
             : std::max(late_[lot], lateness_of(problem_, planned, least, end_, 0));
}

template <class Visit>
double Decoder::decode(const DispatchOrder& order, double limit, Visit visit) {
  begin();
  std::copy(least_late_.begin(), least_late_.end(), late_.begin());
  double late = least_late_sum_, changes = 0, work = least_work_sum_;
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
      last = std::max(last, run.to + (makespan ? tail_[o] : 0));
    }
    visit(run);
    if (makespan) {
      if (last > limit) return last;
      continue;
    }
    const Choice& choice = problem_.operations[o].choices[static_cast<std::size_t>(run.choice)];
    work += work_of(choice, run.setup) - least_work_[o];
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
  plan.score = decode(order, 1e300, [&](const PlannedRun& run) { plan.runs.push_back(run); });
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
