// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "setup_after.hpp"
#include "turnwright/week/decoder.hpp"

namespace turnwright {
namespace {

// Setup decides between plans that are as late: a year of it weighs less than a minute late.
constexpr double setup_weight = 1e-7;
// A day that a pinned operation begins later than it should weighs as much as so many days late.
constexpr double pin_weight = 5;

// So many places behind a change its worth is judged, and this share of the list: sooner, what it
// is good for is not seen yet. Tried on weeks of ours.
constexpr std::size_t places_behind = 25, share_behind = 8;
// Places that are kept of a list, to work on from there: so many, none nearer than that.
constexpr std::size_t most_marks = 16, least_stride = 8;

// What a score is at least by what is worked so far, and what it is in the end.
double least_of(const PlanProblem& problem, const SumsSoFar& sums) {
  if (problem.score == Score::makespan) return sums.last;
  const double least = sums.late + sums.work + sums.changes;
  // Sums of differences are off by their last digits.
  return least - 1e-9 * (1 + std::abs(least));
}
double total_of(const PlanProblem& problem, const SumsSoFar& sums) {
  return problem.score == Score::makespan
             ? static_cast<double>(sums.last)
             : sums.late + sums.work + sums.changes + setup_weight * sums.setup;
}

// What the runs cost, and all setting up of them.
void add_up(Plan& plan, const PlanProblem& problem) {
  for (const PlannedRun& run : plan.runs) {
    plan.work += work_of(choice_of(problem, run), run.setup);
    if (run.to != never) plan.setup += run.setup;
  }
}

}  // namespace

Decoder::Decoder(const PlanProblem& problem)
    : problem_(problem),
      end_(end_of_calendars(problem)),
      hands_(problem),
      least_(least_score(problem)),
      apart_(std::max(least_stride, problem.operations.size() / most_marks + 1)),
      at_first_(problem.machines.size()) {
  for (std::size_t m = 0; m < problem.machines.size(); ++m)
    for (const int key : problem.machines[m].mounted) at_first_[m].items.push_back({key, 0});
  for (const PlannedMachine& machine : problem.machines)
    always_.push_back(machine.calendar.open().size() == 1 && machine.calendar.open()[0].from <= 0 &&
                      machine.calendar.open()[0].to == never);
  first_.lots.resize(problem.lots.size());
  for (std::size_t j = 0; j < problem.lots.size(); ++j) {
    first_.lots[j].free_at = problem.lots[j].release;
    first_.lots[j].late = least_.late[j];
  }
  first_.machines.resize(problem.machines.size());
  for (std::size_t m = 0; m < problem.machines.size(); ++m)
    first_.machines[m].last = first_.machines[m].last_won = &at_first_[m];
  first_.proved.at.assign(static_cast<std::size_t>(problem.jobs), never);
  if (std::any_of(problem.lots.begin(), problem.lots.end(),
                  [](const PlannedLot& lot) { return lot.quoted; }))
    first_.proved.by_won = first_.proved.at;
  first_.sums.late = least_.late_sum;
  first_.sums.work = least_.work_sum;
}

void ProvedJobs::prove(int job, bool quoted, Minute t) {
  if (job < 0) return;
  const auto j = static_cast<std::size_t>(job);
  at[j] = std::min(at[j], t);
  if (!quoted && !by_won.empty()) by_won[j] = std::min(by_won[j], t);
}
bool ProvedJobs::are(int job, bool quoted, Minute by) const {
  return job < 0 || (quoted || by_won.empty() ? at : by_won)[static_cast<std::size_t>(job)] <= by;
}

void MachineState::leave(const Choice& choice, bool quoted, Minute to) {
  free_at = to;
  last = &choice;
  if (!quoted) last_won = &choice;
}

Minute Decoder::setup_minutes(const Choice& choice, bool quoted) const {
  const MachineState& on = now_.machines[static_cast<std::size_t>(choice.machine)];
  const Minute setup = setup_after(problem_, choice, on.last->family, on.last->items);
  if (quoted || on.last == on.last_won) return setup;
  // A quote came between: it is there or it is not.
  return std::max(setup, setup_after(problem_, choice, on.last_won->family, on.last_won->items));
}

// When the lot's next work begins at the earliest: by its first pieces where operations overlap,
// and not so early that the machine would wait for the last of them.
Minute Decoder::arrival(std::size_t lot, const Choice& choice, Minute setup) const {
  const LotState& state = now_.lots[lot];
  if (state.before_transfer >= 1) return state.free_at;
  const Minute last_share = share_minutes(state.before_transfer, choice.run);
  return std::max(state.free_at, state.before_to - (choice.run - last_share) - setup);
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
  now_ = first_;
  hands_.begin();
}

// When the lot's next operation may begin.
void Decoder::pass_on(std::size_t lot, const PlannedOperation& operation, const RunTimes& t) {
  const bool overlaps = operation.transfer < 1 && operation.days_after == 0 && !finished(lot);
  LotState& state = now_.lots[lot];
  state.before_to = t.to;
  state.before_transfer = overlaps ? operation.transfer : 1;
  state.free_at =
      overlaps && t.to != never ? t.first_share : back_after(problem_, t.to, operation.days_after);
}

// Only looks: people are taken by `occupy`.
RunTimes Decoder::times_of(std::size_t lot, const PlannedOperation& operation, const Choice& choice,
                           Minute setup) {
  const Minute free = now_.machines[static_cast<std::size_t>(choice.machine)].free_at;
  const Minute from =
      std::max({arrival(lot, choice, setup), free, operation.pinned, operation.ready});
  const Minute share = share_minutes(operation.transfer, choice.run);
  return hands_.count() ? hands_.look(choice, from, setup, share)
                        : times_alone(choice, from, setup, share);
}

PlannedRun Decoder::dispatch(std::size_t lot, int c) {
  LotState& state = now_.lots[lot];
  const int o = problem_.lots[lot].operations[static_cast<std::size_t>(state.next++)];
  const PlannedOperation& operation = problem_.operation(o);
  const Choice& choice = operation.choices[static_cast<std::size_t>(c)];
  PlannedRun run{o, c, choice.machine, never, never, never, 0};
  if (state.free_at == never) {
    state.left += choice.setup + choice.run;
    return run;
  }
  const bool quoted = problem_.lots[lot].quoted;
  run.setup = setup_minutes(choice, quoted);
  RunTimes t = times_of(lot, operation, choice, run.setup);
  // It begins before another has proved the job.
  if (choice.proving > 0 && !now_.proved.are(operation.job, quoted, t.setup_from)) {
    run.setup += choice.proving;
    t = times_of(lot, operation, choice, run.setup);
  }
  if (hands_.count() && t.to != never) hands_.occupy(choice.attended);
  now_.proved.prove(operation.job, quoted, t.run_from);
  if (state.before_transfer < 1 && t.to != never)
    t.to = std::max(t.to,
                    problem_.calendar_of(choice.machine)
                        .after(state.before_to, share_minutes(state.before_transfer, choice.run)));
  run.setup_from = t.setup_from;
  run.run_from = t.run_from;
  run.to = t.to;
  if (t.to == never)
    state.left = t.first_share;
  else
    now_.machines[static_cast<std::size_t>(choice.machine)].leave(choice, quoted, t.to);
  pass_on(lot, operation, t);
  return run;
}

bool Decoder::finished(std::size_t lot) const {
  return static_cast<std::size_t>(now_.lots[lot].next) == problem_.lots[lot].operations.size();
}
int Decoder::next_operation(std::size_t lot) const {
  return problem_.lots[lot].operations[static_cast<std::size_t>(now_.lots[lot].next)];
}

Minute Decoder::could_begin(std::size_t lot, const Choice& choice, Minute latest) {
  if (now_.lots[lot].free_at == never) return never;
  const auto m = static_cast<std::size_t>(choice.machine);
  const PlannedOperation& operation = problem_.operation(next_operation(lot));
  const Minute free = std::max({now_.machines[m].free_at, operation.pinned, operation.ready});
  if (free > latest) return free;
  const bool quoted = problem_.lots[lot].quoted;
  const Minute setup = setup_minutes(choice, quoted) +
                       (now_.proved.are(operation.job, quoted, never - 1) ? 0 : choice.proving);
  const Minute from =
      problem_.machines[m].calendar.next(std::max(arrival(lot, choice, setup), free));
  return !hands_.count() || from == never || from > latest
             ? from
             : hands_.first_free(choice, from, setup > 0);
}

// How late a lot is at least, whose operation is done then.
double Decoder::late_by_now(std::size_t lot, int operation, const PlannedRun& run) const {
  const PlannedLot& planned = problem_.lots[lot];
  const LotState& state = now_.lots[lot];
  if (finished(lot)) return lateness_of(problem_, planned, state.free_at, end_, state.left);
  if (run.to == never) return state.late;
  const Minute least = run.to + least_.tail[static_cast<std::size_t>(operation)];
  return least <= planned.due
             ? state.late
             : std::max(state.late, lateness_of(problem_, planned, least, end_, 0));
}

// Works the next entry of a list, and what it adds to the score.
void Decoder::dispatch_next(const DispatchOrder& order, std::size_t place, PlannedRun& run) {
  const auto lot = static_cast<std::size_t>(order.lots[place]);
  const auto o = static_cast<std::size_t>(next_operation(lot));
  run = dispatch(lot, order.choices[o]);
  SumsSoFar& sums = now_.sums;
  if (!problem_.old_start.empty())
    sums.changes +=
        problem_.change_cost * change_of(problem_, run.operation, run.machine, run.setup_from);
  if (const Minute pinned = problem_.operations[o].pinned; pinned >= 0 && run.to != never)
    sums.changes += pin_weight * (run.setup_from - pinned) / minutes_a_day;
  const bool makespan = problem_.score == Score::makespan;
  if (run.to != never) {
    sums.setup += run.setup;
    sums.last = std::max(sums.last, run.to + (makespan ? least_.tail[o] : 0));
  }
  if (makespan) return;
  sums.work += work_of(choice_of(problem_, run), run.setup) - least_.work[o];
  const double late_now = late_by_now(lot, run.operation, run);
  sums.late += late_now - now_.lots[lot].late;
  now_.lots[lot].late = late_now;
}

// From the last place that is kept before the change.
std::size_t Decoder::begin_at(std::size_t changed) {
  const std::size_t mark = std::min(marked_, changed / apart_);
  if (mark == 0) {
    begin();
    return 0;
  }
  const Mark& at = marks_[mark - 1];
  now_ = at.worked;
  if (hands_.count()) hands_.restore(at.hands);
  return mark * apart_;
}

void Decoder::mark_place() {
  if (marks_.size() == marked_) marks_.emplace_back();
  Mark& at = marks_[marked_++];
  at.worked = now_;
  if (hands_.count()) hands_.save(at.hands);
}

double Decoder::score_changed(const ChangedPlaces& changed, const DispatchOrder& order,
                              double limit, std::vector<PlannedRun>& runs) {
  const std::size_t count = order.lots.size();
  runs.resize(count);
  so_far_.resize(count);
  const std::size_t judged = changed.last + std::max(places_behind, count / share_behind);
  const double may_be = problem_.score == Score::makespan ? 1e300 : limit - kept_score_;
  for (std::size_t place = begin_at(changed.first); place < count; ++place) {
    if (place <= changed.first && place == (marked_ + 1) * apart_) mark_place();
    dispatch_next(order, place, runs[place]);
    const double sure = least_of(problem_, now_.sums);
    if (sure > limit) return sure;
    so_far_[place] = sure;
    // By then it is worse by more than it may be in the end.
    if (place >= judged && sure - kept_[place] > may_be) return 1e300;
  }
  return total_of(problem_, now_.sums);
}
void Decoder::keep(std::size_t changed, double score) {
  marked_ = std::min(marked_, changed / apart_);
  kept_score_ = score;
  kept_.resize(so_far_.size());
  const auto from = static_cast<std::ptrdiff_t>(changed);
  std::copy(so_far_.begin() + from, so_far_.end(), kept_.begin() + from);
}

double Decoder::score(const DispatchOrder& order, double limit) {
  return score(order, limit, spare_);
}
double Decoder::score(const DispatchOrder& order, double limit, std::vector<PlannedRun>& runs) {
  begin();
  runs.resize(order.lots.size());
  for (std::size_t place = 0; place < order.lots.size(); ++place) {
    dispatch_next(order, place, runs[place]);
    if (const double sure = least_of(problem_, now_.sums); sure > limit) return sure;
  }
  return total_of(problem_, now_.sums);
}

Plan Decoder::plan(const DispatchOrder& order) {
  Plan plan;
  begin();
  plan.runs.resize(order.lots.size());
  for (std::size_t place = 0; place < order.lots.size(); ++place) {
    dispatch_next(order, place, plan.runs[place]);
    hands_.tell(plan.runs[place], plan.stints);
  }
  plan.score = total_of(problem_, now_.sums);
  plan.done.reserve(problem_.lots.size());
  for (std::size_t j = 0; j < problem_.lots.size(); ++j) {
    plan.done.push_back(now_.lots[j].free_at);
    plan.lateness += lateness_of(problem_, problem_.lots[j], plan.done[j], end_, now_.lots[j].left);
  }
  add_up(plan, problem_);
  return plan;
}

}  // namespace turnwright
