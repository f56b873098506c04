// SPDX-License-Identifier: MIT
#include <algorithm>

#include "turnwright/week/plan.hpp"

namespace turnwright {
namespace {

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

Hands::Hands(const PlanProblem& problem)
    : problem_(problem), present_(problem.people.present), setters_(problem.people.setters) {
  if (!count()) return;
  for (const PlannedMachine& machine : problem.machines)
    open_.push_back(open_steps(machine.calendar, present_.size()));
}

void Hands::begin() {
  const auto touched = static_cast<std::ptrdiff_t>(touched_);
  const Presence& people = problem_.people;
  std::copy(people.present.begin(), people.present.begin() + touched, present_.begin());
  std::copy(people.setters.begin(), people.setters.begin() + touched, setters_.begin());
  touched_ = 0;
}

// What does not fit into the calendar takes nobody's time.
RunTimes Hands::look_for_steps(const Choice& choice, Minute first, Work& left) {
  const auto& open = open_[static_cast<std::size_t>(choice.machine)];
  const auto last = static_cast<Minute>(open.size()) - 1;
  RunTimes times;
  taken_.clear();
  for (Minute t = first; t < last && left.setting + left.running > 0; ++t) {
    t = open[static_cast<std::size_t>(t)];
    if (t >= last) break;
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

RunTimes Hands::look(const Choice& choice, Minute from, Minute setup, Minute share) {
  const Work all{steps(setup), steps(choice.run)};
  Work left = all;
  const Minute first = steps(from);
  RunTimes times = look_for_steps(choice, first, left);
  if (left.setting + left.running > 0)
    return RunTimes::unfit((left.setting + left.running) * time_step);
  const Minute last = taken_.empty() ? first : taken_.back() + 1;
  if (const Minute n = all.setting + steps(share); n > 0)
    times.first_share = (taken_[static_cast<std::size_t>(n) - 1] + 1) * time_step;
  if (times.setup_from == never) times.setup_from = first * time_step;
  if (all.running == 0) times.run_from = last * time_step;
  times.to = last * time_step;
  return times;
}

void Hands::occupy(Minute setup, int attended) {
  const Minute setting = steps(setup);
  Minute k = 0;
  for (const Minute t : taken_) {
    const auto i = static_cast<std::size_t>(t);
    const bool sets = k++ < setting;
    present_[i] -= sets ? 1000 : attended;
    if (sets) setters_[i] -= 1000;
  }
  if (!taken_.empty()) touched_ = std::max(touched_, static_cast<std::size_t>(taken_.back()) + 1);
}

Minute Hands::first_free(const Choice& choice, Minute from, bool sets) const {
  const auto& open = open_[static_cast<std::size_t>(choice.machine)];
  for (auto i = static_cast<std::size_t>(steps(from)); i + 1 < open.size(); ++i)
    if (open[i] == static_cast<Minute>(i) &&
        (sets ? std::min(setters_[i], present_[i]) >= 1000 : present_[i] >= choice.attended))
      return static_cast<Minute>(i) * time_step;
  return never;
}

}  // namespace turnwright
