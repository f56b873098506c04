// SPDX-License-Identifier: MIT
#include "turnwright/week/bound.hpp"

#include "priced_lot.hpp"

namespace turnwright {
namespace {

constexpr int most_rounds = 300;
// Steps of work in all, one for each machine that is asked: half a second for 160 orders.
constexpr std::size_t steps_a_lot = 125000, most_steps = 100000000;
constexpr std::size_t most_stretches = 2000;  // some years
// A round would gain this share of the lateness, were the hours wanted the same afterwards; less
// where rounds bring nothing, more where they do. Tried on weeks of ours.
constexpr double first_gain = 0.1, gains_less = 0.7, gains_more = 1.05, worth_it = 0.1;
constexpr int in_vain = 5;

class Rounds {
 public:
  Rounds(const PlanProblem& problem, double found)
      : hours_(problem), buys_(hours_), found_(found), gain_(first_gain * found) {
    const LeastSetup setup(problem);
    for (const PlannedLot& lot : problem.lots)
      if (!lot.operations.empty()) lots_.push_back(priced_lot(problem, lot, setup, hours_));
  }
  LatenessBound best() {
    const std::size_t most = std::min(most_steps, steps_a_lot * lots_.size());
    for (int round = 0; round < most_rounds && buys_.steps() < most; ++round) {
      const double least = work();
      judge(least);
      if (best_.least >= found_ || !hours_.move(gain_)) break;
    }
    return best_;
  }

 private:
  double work() {
    hours_.begin_round();
    double sum = 0;
    for (const PricedLot& lot : lots_) {
      sum += buys_.least(lot);
      buys_.take(lot);
    }
    return sum - hours_.worth();
  }
  void judge(double least) {
    const bool more = least > best_.least + worth_it * gain_;
    if (least > best_.least) {
      best_.least = least;
      best_.cause = hours_.dearest(best_.machine);
    }
    if (!more && ++vain_ < in_vain) return;
    gain_ *= more ? gains_more : gains_less;
    vain_ = 0;
  }

  PricedHours hours_;
  LotBuys buys_;
  std::vector<PricedLot> lots_;
  double found_, gain_;
  int vain_ = 0;
  LatenessBound best_;
};

// Short calendars alone: a plan without an end has as many stretches.
bool few_stretches(const PlanProblem& problem) {
  std::size_t spans = 0;
  for (const PlannedMachine& machine : problem.machines) spans += machine.calendar.open().size();
  return spans < 1000000 &&
         end_of_calendars(problem) / minutes_a_day < static_cast<Minute>(most_stretches / 3);
}

}  // namespace

LatenessBound lateness_bound(const PlanProblem& problem, double found) {
  LatenessBound alone;
  alone.least = least_lateness(problem);
  if (problem.score == Score::makespan || found <= alone.least || !few_stretches(problem))
    return alone;
  LatenessBound bound = Rounds(problem, found).best();
  // What sums may be off by their last digits.
  bound.least -= 1e-9 * (1 + bound.least);
  return bound.least > alone.least ? bound : alone;
}

}  // namespace turnwright
