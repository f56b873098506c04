// SPDX-License-Identifier: MIT
#include "bring_forward.hpp"

#include <algorithm>

#include "turnwright/week/decoder.hpp"

namespace turnwright {
namespace {

constexpr Minute worth_moving = 30;  // minutes earlier, from memory
constexpr double no_worse = 1e-9;
constexpr int most_passes = 3;

class BringingForward {
 public:
  BringingForward(const PlanProblem& problem, DispatchOrder order)
      : problem_(problem), decoder_(problem), order_(std::move(order)) {
    score_ = decoder_.score(order_, 1e300, runs_);
    // Whole lists are worked: as many as take no longer than a part of the search.
    constexpr double entries = 4e6, fewest = 50, most = 2000;
    tries_ =
        static_cast<int>(std::clamp(entries / static_cast<double>(runs_.size() + 1), fewest, most));
  }
  DispatchOrder done() {
    for (int pass = 0; pass < most_passes; ++pass) {
      bool moved = false;
      for (std::size_t i = first(); i < runs_.size() && tries_ > 0; ++i) moved |= move(i);
      for (std::size_t i = first(); i < runs_.size() && tries_ > 0; ++i) moved |= due_first(i);
      if (!moved) break;
    }
    return std::move(order_);
  }

 private:
  std::size_t first() const { return static_cast<std::size_t>(order_.frozen); }

  // The place behind the lot's entry before, and when its work is there.
  std::pair<std::size_t, Minute> earliest(std::size_t i) const {
    const int lot = order_.lots[i];
    const PlannedOperation& operation = problem_.operation(runs_[i].operation);
    const Minute there = std::max(operation.pinned, operation.ready);
    for (std::size_t k = i; k-- > 0;)
      if (order_.lots[k] == lot) {
        const PlannedOperation& before = problem_.operation(runs_[k].operation);
        return {std::max(k + 1, first()),
                std::max(there, back_after(problem_, runs_[k].to, before.days_after))};
      }
    return {first(), std::max(there, problem_.lots[static_cast<std::size_t>(lot)].release)};
  }
  // Into the first gap of its machine that it could begin in.
  bool move(std::size_t i) {
    const PlannedRun& run = runs_[i];
    if (run.to == never) return false;
    const auto [from, ready] = earliest(i);
    Minute free = 0;
    for (std::size_t k = 0; k < i; ++k) {
      if (runs_[k].machine != run.machine || runs_[k].to == never) continue;
      const Minute begins = std::max(free, ready);
      if (begins + worth_moving > run.setup_from) return false;
      if (k >= from && begins + worth_moving <= runs_[k].setup_from) return moved_to(i, k);
      free = runs_[k].to;
    }
    return false;
  }
  // Of the same job, one right behind the other, the one that is due first.
  bool due_first(std::size_t i) {
    const std::size_t k = next_on_machine(i);
    if (k == runs_.size() || runs_[k].setup > 0 || runs_[k].to == never) return false;
    const int job = problem_.operation(runs_[i].operation).job;
    if (job < 0 || job != problem_.operation(runs_[k].operation).job || due(k) >= due(i))
      return false;
    --tries_;
    DispatchOrder other = order_;
    std::swap(other.lots[i], other.lots[k]);
    const double score = decoder_.score(other, score_ + no_worse, trial_);
    // It gains room: what waits for something else would only hold up the other.
    return score <= score_ + no_worse && trial_[i].operation == runs_[k].operation &&
           trial_[i].to < runs_[k].to && take(std::move(other), score);
  }
  std::size_t next_on_machine(std::size_t i) const {
    std::size_t k = i + 1;
    while (k < runs_.size() && runs_[k].machine != runs_[i].machine) ++k;
    return k;
  }
  Minute due(std::size_t i) const {
    return problem_.lots[static_cast<std::size_t>(order_.lots[i])].due;
  }
  bool take(DispatchOrder other, double score) {
    order_ = std::move(other);
    runs_ = trial_;
    score_ = std::min(score_, score);
    return true;
  }
  bool moved_to(std::size_t i, std::size_t place) {
    --tries_;
    DispatchOrder other = order_;
    const auto at = other.lots.begin();
    std::rotate(at + static_cast<std::ptrdiff_t>(place), at + static_cast<std::ptrdiff_t>(i),
                at + static_cast<std::ptrdiff_t>(i) + 1);
    const double score = decoder_.score(other, score_ + no_worse, trial_);
    return score <= score_ + no_worse && sum_of_ends(trial_) < sum_of_ends(runs_) &&
           take(std::move(other), score);
  }
  static double sum_of_ends(const std::vector<PlannedRun>& runs) {
    double sum = 0;
    for (const PlannedRun& run : runs) sum += run.to == never ? 0 : run.to;
    return sum;
  }

  const PlanProblem& problem_;
  Decoder decoder_;
  DispatchOrder order_;
  std::vector<PlannedRun> runs_, trial_;
  double score_ = 0;
  int tries_ = 0;
};

}  // namespace

DispatchOrder brought_forward(const PlanProblem& problem, DispatchOrder order) {
  return BringingForward(problem, std::move(order)).done();
}

}  // namespace turnwright
