// SPDX-License-Identifier: MIT
#include "critical_chain.hpp"

#include <algorithm>

namespace turnwright {

void CriticalChain::set(const std::vector<PlannedRun>& runs) {
  if (runs_ == &runs) return;
  runs_ = &runs;
  place_of_.resize(problem_.operations.size());
  for (std::size_t i = 0; i < runs.size(); ++i)
    place_of_[static_cast<std::size_t>(runs[i].operation)] = i;
}

std::size_t CriticalChain::last() const {
  const auto found =
      std::max_element(runs_->begin(), runs_->end(),
                       [](const PlannedRun& a, const PlannedRun& b) { return a.to < b.to; });
  return static_cast<std::size_t>(found - runs_->begin());
}
std::size_t CriticalChain::end_of(std::size_t lot) const {
  return place_of(problem_.lots[lot].operations.back());
}

// What a run waited for: the one before it on its machine, or its own lot's; nothing at the first
// cause.
std::optional<CriticalChain::Link> CriticalChain::before(std::size_t i) const {
  const std::vector<PlannedRun>& runs = *runs_;
  const PlannedRun& run = runs[i];
  const PlannedLot& lot = problem_.lot_with(run.operation);
  Minute ready = lot.release;
  std::optional<Link> own;
  if (run.operation != lot.operations.front()) {
    const auto at = std::find(lot.operations.begin(), lot.operations.end(), run.operation);
    own = Link{place_of(*std::prev(at)), false};
    ready = runs[own->place].to;
  }
  for (std::size_t k = i; k-- > 0;)
    if (runs[k].machine == run.machine && runs[k].to != never)
      return runs[k].to >= ready ? Link{k, true} : own;
  return own;
}

void CriticalChain::find(std::size_t at) {
  places_.assign(1, at);
  blocks_.clear();
  std::size_t first = 0;
  while (const auto link = before(at)) {
    at = link->place;
    if (!link->on_machine) {
      if (places_.size() - first > 1) blocks_.emplace_back(first, places_.size());
      first = places_.size();
    }
    places_.push_back(at);
  }
  if (places_.size() - first > 1) blocks_.emplace_back(first, places_.size());
}

}  // namespace turnwright
