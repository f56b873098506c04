// SPDX-License-Identifier: MIT
#include "least_setup.hpp"

#include <algorithm>

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

Minute LeastSetup::missing(const Choice& choice, const std::vector<int>& on) {
  Minute sum = 0;
  auto key = on.begin();
  for (const SetupItem& item : choice.items) {
    while (key != on.end() && *key < item.key) ++key;
    if (key == on.end() || *key != item.key) sum += item.minutes;
  }
  return sum;
}

Minute LeastSetup::after(const Choice& choice, const std::vector<int>& on, int family) const {
  const Minute change =
      choice.family < 0 ? 0
                        : problem_.changeover[family < 0 ? 0 : static_cast<std::size_t>(family) + 1]
                                             [static_cast<std::size_t>(choice.family)];
  return change + missing(choice, on);
}

Minute LeastSetup::of(const PlannedOperation& operation, const Choice& choice) const {
  const auto m = static_cast<std::size_t>(choice.machine);
  const Left own{choice.family, keys_of(choice)};
  Minute least = after(choice, problem_.machines[m].mounted, -1);
  for (const auto& [left, operations] : left_[m]) {
    if (least == 0) break;
    if (operations == 1 && left == own) continue;
    least = std::min(least, after(choice, left.second, left.first));
  }
  const bool proves = operation.job >= 0 && jobs_[static_cast<std::size_t>(operation.job)] == 1;
  return choice.setup + least + (proves ? choice.proving : 0);
}

}  // namespace turnwright
