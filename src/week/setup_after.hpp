// SPDX-License-Identifier: MIT
#pragma once
#include <vector>

#include "turnwright/week/plan.hpp"

namespace turnwright {

inline int key_of(int key) { return key; }
inline int key_of(const SetupItem& item) { return item.key; }

/// Setup of a choice without proving, after work of that family (below 0: none) and with this
/// mounted, sorted by key.
template <class Item>
Minute setup_after(const PlanProblem& problem, const Choice& choice, int family,
                   const std::vector<Item>& mounted) {
  Minute setup = choice.setup;
  if (choice.family >= 0)
    setup += problem.changeover[family < 0 ? 0 : static_cast<std::size_t>(family) + 1]
                               [static_cast<std::size_t>(choice.family)];
  auto on = mounted.begin();
  for (const SetupItem& item : choice.items) {
    while (on != mounted.end() && key_of(*on) < item.key) ++on;
    if (on == mounted.end() || key_of(*on) != item.key) setup += item.minutes;
  }
  return setup;
}

}  // namespace turnwright
