// SPDX-License-Identifier: MIT
#include <algorithm>

#include "turnwright/week/plan.hpp"

namespace turnwright {
namespace {

// Setup decides between plans that are as late: a year of it weighs less than a minute late.
constexpr double setup_weight = 1e-7;

bool mounted(const std::vector<SetupItem>& on, int key) {
  return std::any_of(on.begin(), on.end(),
                     [key](const SetupItem& item) { return item.key == key; });
}

Minute steps(Minute m) { return (m + time_step - 1) / time_step; }

// By step: whether the machine is open all of it.
std::vector<char> open_steps(const Calendar& calendar, std::size_t count) {
  std::vector<char> open(count, 0);
  for (const Span& s : calendar.open())
    for (Minute t = steps(s.from); t < s.to / time_step; ++t)
      if (static_cast<std::size_t>(t) < count) open[static_cast<std::size_t>(t)] = 1;
  return open;
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
  if (problem.people.present.empty()) return;
  for (const PlannedMachine& machine : problem.machines)
    open_.push_back(open_steps(machine.calendar, problem.people.present.size()));
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
  const auto count = static_cast<Minute>(open.size());
  Times times{never, never, never, never};
  taken_.clear();
  for (Minute t = first; t < count && left.setting + left.running > 0; ++t) {
    const auto i = static_cast<std::size_t>(t);
    if (!open[i]) continue;
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
  present_ = problem_.people.present;
  setters_ = problem_.people.setters;
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
  const Minute from = std::max(arrival(lot, choice, setup), free);
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
      std::max(arrival(lot, choice, setup), machine_free_at_[m]));
  if (problem_.people.present.empty() || from == never) return from;
  const auto& open = open_[m];
  for (auto i = static_cast<std::size_t>(steps(from)); i < open.size(); ++i)
    if (open[i] &&
        (setup > 0 ? std::min(setters_[i], present_[i]) >= 1000 : present_[i] >= choice.attended))
      return static_cast<Minute>(i) * time_step;
  return never;
}

template <class Visit>
double Decoder::decode(const DispatchOrder& order, Visit visit) {
  begin();
  double late = 0, changes = 0, work = 0;
  Minute setup_sum = 0, last = 0;
  for (const int j : order.lots) {
    const auto lot = static_cast<std::size_t>(j);
    const auto o = static_cast<std::size_t>(next_operation(lot));
    const PlannedRun run = dispatch(lot, order.choices[o]);
    if (!problem_.old_start.empty())
      changes +=
          problem_.change_cost * change_of(problem_, run.operation, run.machine, run.setup_from);
    const Choice& choice = problem_.operations[o].choices[static_cast<std::size_t>(run.choice)];
    work += work_of(choice, run.setup);
    if (run.to != never) {
      setup_sum += run.setup;
      last = std::max(last, run.to);
    }
    visit(run);
    if (finished(lot))
      late += lateness_of(problem_, problem_.lots[lot], lot_free_at_[lot], end_, left_[lot]);
  }
  const double setup = setup_weight * setup_sum;
  return problem_.score == Score::makespan ? static_cast<double>(last)
                                           : late + work + changes + setup;
}

double Decoder::score(const DispatchOrder& order) {
  return decode(order, [](const PlannedRun&) {});
}

Plan Decoder::plan(const DispatchOrder& order) {
  Plan plan;
  plan.runs.reserve(order.lots.size());
  plan.score = decode(order, [&](const PlannedRun& run) { plan.runs.push_back(run); });
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
