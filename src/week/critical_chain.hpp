// SPDX-License-Identifier: MIT
#pragma once
// What makes a lot late: the chain of work that it waited for, back to the first cause.
#include <optional>
#include <utility>
#include <vector>

#include "turnwright/week/plan.hpp"

namespace turnwright {

class CriticalChain {
 public:
  explicit CriticalChain(const PlanProblem& problem) : problem_(problem) {}

  /// The runs in dispatch order; kept until `forget`.
  void set(const std::vector<PlannedRun>& runs);
  void forget() { runs_ = nullptr; }
  /// The place of the run that ends last, and of a lot's last.
  std::size_t last() const;
  std::size_t end_of(std::size_t lot) const;
  /// The chain that ends there.
  void find(std::size_t at);
  /// Its places in dispatch order, the last first.
  const std::vector<std::size_t>& places() const { return places_; }
  /// From and to in `places()`, where two and more follow each other on one machine.
  const std::vector<std::pair<std::size_t, std::size_t>>& blocks() const { return blocks_; }

 private:
  struct Link {
    std::size_t place = 0;
    bool on_machine = false;
  };
  std::optional<Link> before(std::size_t i) const;
  std::size_t place_of(int operation) const {
    return place_of_[static_cast<std::size_t>(operation)];
  }

  const PlanProblem& problem_;
  const std::vector<PlannedRun>* runs_ = nullptr;
  std::vector<std::size_t> place_of_;  // by operation
  std::vector<std::size_t> places_;
  std::vector<std::pair<std::size_t, std::size_t>> blocks_;
};

}  // namespace turnwright
