// SPDX-License-Identifier: MIT
#include <algorithm>

#include "free_steps.hpp"
#include "turnwright/week/hands.hpp"

namespace turnwright {
namespace {

Minute steps(Minute m) { return (m + time_step - 1) / time_step; }

// Whole steps of a calendar, up to `count`.
std::vector<Span> open_steps(const Calendar& calendar, std::size_t count) {
  std::vector<Span> open;
  for (const Span& s : calendar.open()) {
    const Span whole{std::max(0, steps(s.from)),
                     std::min(static_cast<Minute>(count), s.to / time_step)};
    if (whole.from < whole.to) open.push_back(whole);
  }
  return open;
}

}  // namespace

Hands::Hands(const PlanProblem& problem)
    : problem_(problem),
      free_{problem.people.present, problem.people.setters, {}, 0},
      named_(problem.people, problem.machines.size()) {
  if (!count()) return;
  for (const PlannedMachine& machine : problem.machines)
    open_.push_back(open_steps(machine.calendar, free_.present.size()));
}

void Hands::begin() {
  found_ = {};
  const auto touched = static_cast<std::ptrdiff_t>(free_.touched);
  const Presence& people = problem_.people;
  std::copy(people.present.begin(), people.present.begin() + touched, free_.present.begin());
  std::copy(people.setters.begin(), people.setters.begin() + touched, free_.setters.begin());
  free_.touched = 0;
  named_.begin();
}

void Hands::save(Free& free) const {
  const auto touched = static_cast<std::ptrdiff_t>(free_.touched);
  free.present.assign(free_.present.begin(), free_.present.begin() + touched);
  free.setters.assign(free_.setters.begin(), free_.setters.begin() + touched);
  free.touched = free_.touched;
  named_.save(free.named);
}

void Hands::restore(const Free& free) {
  found_ = {};
  const auto from = static_cast<std::ptrdiff_t>(free.touched);
  const auto to = std::max(from, static_cast<std::ptrdiff_t>(free_.touched));
  const Presence& people = problem_.people;
  std::copy(free.present.begin(), free.present.end(), free_.present.begin());
  std::copy(free.setters.begin(), free.setters.end(), free_.setters.begin());
  std::copy(people.present.begin() + from, people.present.begin() + to,
            free_.present.begin() + from);
  std::copy(people.setters.begin() + from, people.setters.begin() + to,
            free_.setters.begin() + from);
  free_.touched = free.touched;
  named_.restore(free.named);
}

// When the machine is open, from the time on that a step is in or before.
std::span<const Span> Hands::open_from(const Choice& choice, Minute first) const {
  const std::vector<Span>& open = open_[static_cast<std::size_t>(choice.machine)];
  return {std::partition_point(open.begin(), open.end(),
                               [first](const Span& s) { return s.to <= first; }),
          open.end()};
}

// The first step with hands for it.
Minute Hands::look_on(const Choice& choice, Minute from, Minute to, bool sets) const {
  if (!sets) return first_with(free_.present.data(), from, to, choice.attended);
  while (from < to) {
    const Minute set = first_with(free_.setters.data(), from, to, whole_person);
    from = first_with(free_.present.data(), set, to, whole_person);
    if (from == set) break;
  }
  return from;
}
// The first one without.
Minute Hands::work_on(const Choice& choice, Minute from, Minute to, bool sets) const {
  if (!sets) return first_without(free_.present.data(), from, to, choice.attended);
  return first_without(free_.present.data(), from,
                       first_without(free_.setters.data(), from, to, whole_person), whole_person);
}

// Takes steps of open time with hands for so much work; returns what does not fit.
Minute Hands::take(const Choice& choice, Minute first, Minute work, bool sets) {
  if (!named_.empty() && (sets || choice.attended > 0))
    return take_named(choice, first, work, sets);
  for (const Span& span : open_from(choice, first)) {
    if (work == 0) break;
    for (Minute t = std::max(first, span.from); work > 0;) {
      t = look_on(choice, t, span.to, sets);
      if (t == span.to) break;
      const Minute to = work_on(choice, t, std::min(span.to, t + work), sets);
      taken_.push_back({t, to, sets});
      work -= to - t;
      t = to;
    }
  }
  return work;
}

void Hands::take_steps(const Taken& steps) {
  if (!taken_.empty() && taken_.back().to == steps.from && taken_.back().sets == steps.sets &&
      taken_.back().who == steps.who)
    taken_.back().to = steps.to;
  else
    taken_.push_back(steps);
}

// The same, each step with somebody who can do it.
Minute Hands::take_named(const Choice& choice, Minute first, Minute work, bool sets) {
  HandWork of{choice.machine, sets ? whole_person : choice.attended, sets, work, true};
  for (std::span<const Span> open = open_from(choice, first); !open.empty() && of.steps > 0;
       open = open.subspan(1)) {
    const Minute end = open[0].to;
    for (Minute t = std::max(first, open[0].from); of.steps > 0;) {
      t = named_.first_with_somebody(of, t, end);
      if (t == end) break;
      const int before = taken_.empty() ? -1 : taken_.back().who;
      const int who = named_.who(of, t, before, open);
      const Minute to = named_.stays(who, t, std::min(end, t + of.steps), of.share);
      take_steps({t, to, sets, who});
      of.steps -= to - t;
      of.begins = false;
      t = to;
    }
  }
  return of.steps;
}

// The end of the n-th step that is taken.
Minute Hands::end_of_step(Minute n) const {
  for (const Taken& t : taken_) {
    if (n <= t.to - t.from) return (t.from + n) * time_step;
    n -= t.to - t.from;
  }
  return never;
}

// What does not fit into the calendar takes nobody's time.
RunTimes Hands::look(const Choice& choice, Minute from, Minute setup, Minute share) {
  const Minute first = steps(from), setting = steps(setup), running = steps(choice.run);
  taken_.clear();
  const Minute not_set = take(choice, first, setting, true);
  const Minute set = taken_.empty() ? first : taken_.back().to;
  const std::size_t sets = taken_.size();
  const Minute left = not_set > 0 ? running : take(choice, set, running, false);
  if (not_set + left > 0) return RunTimes::unfit((not_set + left) * time_step);
  const Minute last = taken_.empty() ? first : taken_.back().to;
  return {(taken_.empty() ? first : taken_.front().from) * time_step,
          (sets < taken_.size() ? taken_[sets].from : last) * time_step,
          end_of_step(setting + steps(share)), last * time_step};
}

void Hands::occupy(int attended) {
  found_ = {};
  for (const Taken& t : taken_) {
    const int hands = t.sets ? whole_person : attended;
    if (t.who >= 0) named_.occupy(t.who, t.from, t.to, hands);
    if (!named_.empty()) continue;
    for (Minute i = t.from; i < t.to; ++i) free_.present[static_cast<std::size_t>(i)] -= hands;
    for (Minute i = t.from; t.sets && i < t.to; ++i)
      free_.setters[static_cast<std::size_t>(i)] -= hands;
  }
  if (!taken_.empty() && named_.empty())
    free_.touched = std::max(free_.touched, static_cast<std::size_t>(taken_.back().to));
}

void Hands::tell(const PlannedRun& run, std::vector<Stint>& stints) const {
  if (run.to == never) return;
  for (const Taken& t : taken_)
    if (t.who >= 0)
      stints.push_back({run.operation, t.who, t.from * time_step, t.to * time_step, t.sets});
}

// The first step with somebody for it.
Minute Hands::look_for_anybody(const Choice& choice, Minute from, Minute to, bool sets) const {
  const HandWork work{choice.machine, sets ? whole_person : choice.attended, sets, 1, true};
  return work.share > 0 ? named_.first_with_somebody(work, from, to) : from;
}

// Whatever the machine's calendar.
Minute Hands::next_free(const Choice& choice, Minute from, bool sets) {
  const auto end = static_cast<Minute>(free_.present.size());
  if (!named_.empty()) return look_for_anybody(choice, from, end, sets);
  const int share = sets ? whole_person : choice.attended;
  Found& found = found_[sets ? 1 : 0];
  if (found.share != share || from < found.from || from > found.step)
    found = {share, from, look_on(choice, from, end, sets)};
  return found.step;
}

Minute Hands::first_free(const Choice& choice, Minute from, bool sets) {
  Minute t = steps(from);
  for (const Span& s : open_from(choice, t)) {
    if (t >= s.to) continue;
    t = next_free(choice, std::max(t, s.from), sets);
    if (t < s.to) return t * time_step;
  }
  return never;
}

}  // namespace turnwright
