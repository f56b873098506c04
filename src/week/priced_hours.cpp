// SPDX-License-Identifier: MIT
#include "priced_hours.hpp"

#include <algorithm>

namespace turnwright {
namespace {

// About a shift. Shorter ones gain a hundredth of the bound and take four times as long.
constexpr Minute usual_stretch = 480;
// Of the direction of the rounds before: what is left of it.
constexpr double kept_direction = 0.8;
constexpr double whole = whole_person;

// Steps of time that a stretch touches.
Span steps_of(const Span& s, std::size_t count) {
  return {s.from / time_step,
          std::min(static_cast<Minute>(count), (s.to + time_step - 1) / time_step)};
}

}  // namespace

PricedHours::PricedHours(const PlanProblem& problem) : problem_(problem) {
  cut_stretches();
  there_.assign((problem.machines.size() + 2) * stretches_.size(), 0);
  for (std::size_t m = 0; m < problem.machines.size(); ++m)
    for (std::size_t b = 0; b < stretches_.size(); ++b)
      there_[at(m, b)] = problem.machines[m].calendar.between(stretches_[b].from, stretches_[b].to);
  if (with_people()) count_people();
  price_.assign(there_.size(), 0);
  direction_ = taken_ = price_;
}

void PricedHours::cut_stretches() {
  std::vector<Span> open;
  for (const PlannedMachine& machine : problem_.machines)
    open.insert(open.end(), machine.calendar.open().begin(), machine.calendar.open().end());
  for (const Span& s : joined(std::move(open))) {
    const Minute length = s.to - s.from;
    const Minute parts = std::max(1, (length + usual_stretch / 2) / usual_stretch);
    for (Minute i = 0; i < parts; ++i)
      stretches_.push_back(
          {s.from + length / parts * i, i + 1 == parts ? s.to : s.from + length / parts * (i + 1)});
  }
}

void PricedHours::count_people() {
  const Presence& p = problem_.people;
  for (std::size_t b = 0; b < stretches_.size(); ++b) {
    const Span steps = steps_of(stretches_[b], p.present.size());
    for (Minute i = steps.from; i < steps.to; ++i) {
      const auto step = static_cast<std::size_t>(i);
      const int set = std::min(p.setters[step], p.present[step]) / whole_person;
      there_[at(people(), b)] += p.present[step] / whole * time_step;
      there_[at(setters(), b)] += set * time_step;
    }
  }
}

std::size_t PricedHours::stretch_at(Minute t) const {
  return static_cast<std::size_t>(std::partition_point(stretches_.begin(), stretches_.end(),
                                                       [t](const Span& s) { return s.to <= t; }) -
                                  stretches_.begin());
}

int PricedHours::number_of(int machine, int attended, bool sets) {
  const int share = sets ? whole_person : std::min(whole_person, attended);
  const auto [found, is_new] =
      numbers_.try_emplace({machine, share, sets}, static_cast<int>(works_.size()));
  if (is_new) {
    PricedWork work{machine, share, sets, {}, {}};
    for (const Span& s : stretches_) work.open.push_back(open_minutes(work, s));
    work.price.assign(stretches_.size(), 0);
    works_.push_back(std::move(work));
  }
  return found->second;
}

// With as many hands there as it takes.
double PricedHours::open_minutes(const PricedWork& work, const Span& stretch) const {
  const Calendar& calendar = problem_.calendar_of(work.machine);
  if (!with_people() || work.attended == 0) return calendar.between(stretch.from, stretch.to);
  const Presence& p = problem_.people;
  const Span steps = steps_of(stretch, p.present.size());
  double sum = 0;
  for (Minute i = steps.from; i < steps.to; ++i) {
    const auto step = static_cast<std::size_t>(i);
    if (p.present[step] < work.attended || (work.sets && p.setters[step] < whole_person)) continue;
    sum += calendar.between(std::max(stretch.from, i * time_step),
                            std::min(stretch.to, (i + 1) * time_step));
  }
  return sum;
}

void PricedHours::begin_round() {
  std::fill(taken_.begin(), taken_.end(), 0);
  for (PricedWork& work : works_)
    for (std::size_t b = 0; b < stretches_.size(); ++b)
      work.price[b] = price_[at(static_cast<std::size_t>(work.machine), b)] +
                      work.attended / whole * price_[at(people(), b)] +
                      (work.sets ? price_[at(setters(), b)] : 0);
}

void PricedHours::take(int number, std::size_t stretch, double minutes) {
  const PricedWork& work = works_[static_cast<std::size_t>(number)];
  taken_[at(static_cast<std::size_t>(work.machine), stretch)] += minutes;
  if (!with_people()) return;
  taken_[at(people(), stretch)] += minutes * work.attended / whole;
  if (work.sets) taken_[at(setters(), stretch)] += minutes;
}

double PricedHours::worth() const {
  double sum = 0;
  for (std::size_t i = 0; i < price_.size(); ++i) sum += price_[i] * there_[i];
  return sum;
}

bool PricedHours::move(double gain) {
  double square = 0;
  for (std::size_t i = 0; i < price_.size(); ++i) {
    double more = taken_[i] - there_[i];
    if (more < 0 && price_[i] <= 0) more = 0;
    direction_[i] = kept_direction * direction_[i] + (1 - kept_direction) * more;
    square += direction_[i] * direction_[i];
  }
  if (square <= 0) return false;
  for (std::size_t i = 0; i < price_.size(); ++i) {
    price_[i] = std::max(0.0, price_[i] + gain / square * direction_[i]);
    if (price_[i] <= 0) direction_[i] = std::max(0.0, direction_[i]);
  }
  return true;
}

LatenessBound::Cause PricedHours::dearest(int& machine) const {
  std::vector<double> worth;
  for (std::size_t row = 0; row <= setters(); ++row) {
    worth.push_back(0);
    for (std::size_t b = 0; b < stretches_.size(); ++b)
      worth.back() += price_[at(row, b)] * there_[at(row, b)];
  }
  const auto most =
      static_cast<std::size_t>(std::max_element(worth.begin(), worth.end()) - worth.begin());
  machine = -1;
  if (worth[most] <= 0) return LatenessBound::Cause::each_lot;
  if (most == people()) return LatenessBound::Cause::people;
  if (most == setters()) return LatenessBound::Cause::setters;
  machine = static_cast<int>(most);
  return LatenessBound::Cause::machine;
}

}  // namespace turnwright
