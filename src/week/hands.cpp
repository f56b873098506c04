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
    : problem_(problem),
      present_(problem.people.present),
      setters_(problem.people.setters),
      named_(problem.people, problem.machines.size()) {
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
  named_.begin();
}

// Whether somebody is there for a step of the work.
bool Hands::at_hand(const Choice& choice, Minute step, const Work& left, bool begins) {
  const bool sets = left.setting > 0;
  const auto i = static_cast<std::size_t>(step);
  if (named_.empty())
    return sets ? setters_[i] >= 1000 && present_[i] >= 1000 : present_[i] >= choice.attended;
  const HandWork work{choice.machine, sets ? 1000 : choice.attended, sets,
                      sets ? left.setting : left.running, begins};
  if (work.share > 0) {
    const int hand = named_.who(work, step, who_.empty() ? -1 : who_.back(),
                                open_[static_cast<std::size_t>(choice.machine)]);
    if (hand < 0) return false;
    who_.push_back(hand);
  } else {
    who_.push_back(-1);
  }
  return true;
}

// What does not fit into the calendar takes nobody's time.
RunTimes Hands::look_for_steps(const Choice& choice, Minute first, Work& left) {
  const auto& open = open_[static_cast<std::size_t>(choice.machine)];
  const auto last = static_cast<Minute>(open.size()) - 1;
  RunTimes times;
  taken_.clear();
  who_.clear();
  for (Minute t = first; t < last && left.setting + left.running > 0; ++t) {
    t = open[static_cast<std::size_t>(t)];
    if (t >= last) break;
    const bool sets = left.setting > 0;
    if (!at_hand(choice, t, left, (sets ? times.setup_from : times.run_from) == never)) continue;
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
  if (!named_.empty()) {
    for (std::size_t n = 0; n < taken_.size(); ++n)
      if (who_[n] >= 0)
        named_.occupy(who_[n], taken_[n], static_cast<Minute>(n) < setting ? 1000 : attended);
    return;
  }
  for (const Minute t : taken_) {
    const auto i = static_cast<std::size_t>(t);
    const bool sets = k++ < setting;
    present_[i] -= sets ? 1000 : attended;
    if (sets) setters_[i] -= 1000;
  }
  if (!taken_.empty()) touched_ = std::max(touched_, static_cast<std::size_t>(taken_.back()) + 1);
}

void Hands::tell(int operation, Minute setup, std::vector<Stint>& stints) const {
  const auto setting = static_cast<std::size_t>(steps(setup));
  for (std::size_t n = 0; n < who_.size(); ++n) {
    if (who_[n] < 0) continue;
    const Minute from = taken_[n] * time_step;
    const bool goes_on =
        n > 0 && n != setting && who_[n - 1] == who_[n] && taken_[n - 1] + 1 == taken_[n];
    if (goes_on)
      stints.back().to = from + time_step;
    else
      stints.push_back({operation, who_[n], from, from + time_step, n < setting});
  }
}

Minute Hands::first_free(const Choice& choice, Minute from, bool sets) const {
  const auto& open = open_[static_cast<std::size_t>(choice.machine)];
  const HandWork work{choice.machine, sets ? 1000 : choice.attended, sets, 1, true};
  for (auto i = static_cast<std::size_t>(steps(from)); i + 1 < open.size(); ++i) {
    const auto t = static_cast<Minute>(i);
    if (open[i] != t) continue;
    if (named_.empty() ? (sets ? std::min(setters_[i], present_[i]) : present_[i]) >= work.share
                       : work.share == 0 || named_.anybody(work, t))
      return t * time_step;
  }
  return never;
}

}  // namespace turnwright
