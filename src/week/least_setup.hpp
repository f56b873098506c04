// SPDX-License-Identifier: MIT
#pragma once
#include <map>
#include <utility>
#include <vector>

#include "turnwright/week/plan.hpp"

namespace turnwright {

/// The least that setting up takes, whatever ran before.
class LeastSetup {
 public:
  explicit LeastSetup(const PlanProblem& problem);
  Minute of(const PlannedOperation& operation, const Choice& choice) const;

 private:
  const PlanProblem& problem_;
  using Left = std::pair<int, std::vector<int>>;  // family, keys
  std::vector<std::map<Left, int>> left_;         // by machine: how many operations leave it
  std::vector<int> jobs_;                         // operations of each
};

}  // namespace turnwright
