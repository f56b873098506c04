// SPDX-License-Identifier: MIT
#include "least_setup.hpp"

#include <algorithm>

#include "setup_after.hpp"

namespace turnwright {
namespace {

std::vector<int> keys_of(const Choice& choice) {
  std::vector<int> keys;
  for (const SetupItem& item : choice.items) keys.push_back(item.key);
  return keys;
}

}  // namespace

LeastSetup::LeastSetup(const PlanProblem& problem)
    : problem_(problem),
      left_(problem.machines.size()),
      jobs_(static_cast<std::size_t>(problem.jobs), 0) {
  for (const PlannedOperation& operation : problem.operations) {
    if (operation.job >= 0) ++jobs_[static_cast<std::size_t>(operation.job)];
    // Twice on one machine is one operation there all the same: it does not run before itself.
    std::vector<std::pair<int, Left>> seen;
    for (const Choice& c : operation.choices) seen.push_back({c.machine, {c.family, keys_of(c)}});
    std::sort(seen.begin(), seen.end());
    seen.erase(std::unique(seen.begin(), seen.end()), seen.end());
    for (auto& [machine, left] : seen) ++left_[static_cast<std::size_t>(machine)][std::move(left)];
  }
}

Minute LeastSetup::of(const PlannedOperation& operation, const Choice& choice) const {
  const auto m = static_cast<std::size_t>(choice.machine);
  const Left own{choice.family, keys_of(choice)};
  Minute least = setup_after(problem_, choice, -1, problem_.machines[m].mounted);
  for (const auto& [left, operations] : left_[m]) {
    if (least == choice.setup) break;
    if (operations == 1 && left == own) continue;
    least = std::min(least, setup_after(problem_, choice, left.first, left.second));
  }
  const bool proves = operation.job >= 0 && jobs_[static_cast<std::size_t>(operation.job)] == 1;
  return least + (proves ? choice.proving : 0);
}

}  // namespace turnwright
