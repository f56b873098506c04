// SPDX-License-Identifier: MIT
#include <algorithm>
#include <tuple>

#include "turnwright/week/plan.hpp"

namespace turnwright {
namespace {

// Who takes work over stays with it for so long, where somebody can; common practice.
constexpr Minute worth_coming = 60 / time_step;

int skills_of(const NamedHand& hand) {
  return static_cast<int>(std::count(hand.runs.begin(), hand.runs.end(), 1) +
                          std::count(hand.sets.begin(), hand.sets.end(), 1));
}

// Those who can, who can do least first.
std::vector<int> able_by(const Presence& people, std::vector<char> NamedHand::*skill,
                         std::size_t machine) {
  std::vector<int> able;
  for (std::size_t h = 0; h < people.named.size(); ++h)
    if ((people.named[h].*skill)[machine] != 0) able.push_back(static_cast<int>(h));
  std::stable_sort(able.begin(), able.end(), [&](int a, int b) {
    return skills_of(people.named[static_cast<std::size_t>(a)]) <
           skills_of(people.named[static_cast<std::size_t>(b)]);
  });
  return able;
}

}  // namespace

NamedHands::NamedHands(const Presence& people, std::size_t machines) : people_(people) {
  if (people.named.empty()) return;
  for (std::size_t i = 0; i < people.present.size(); ++i)
    for (const NamedHand& hand : people.named)
      at_first_.push_back(hand.present[i] != 0 ? whole_person : 0);
  free_ = at_first_;
  for (const NamedHand& hand : people.named) skills_.push_back(skills_of(hand));
  for (std::size_t m = 0; m < machines; ++m) {
    set_.push_back(able_by(people, &NamedHand::sets, m));
    run_.push_back(able_by(people, &NamedHand::runs, m));
  }
}

void NamedHands::begin() {
  const auto touched = static_cast<std::ptrdiff_t>(touched_ * people_.named.size());
  std::copy(at_first_.begin(), at_first_.begin() + touched, free_.begin());
  touched_ = 0;
}

void NamedHands::save(std::vector<int>& free) const {
  const auto touched = static_cast<std::ptrdiff_t>(touched_ * people_.named.size());
  free.assign(free_.begin(), free_.begin() + touched);
}

void NamedHands::restore(const std::vector<int>& free) {
  begin();
  if (people_.named.empty()) return;
  std::copy(free.begin(), free.end(), free_.begin());
  touched_ = free.size() / people_.named.size();
}

// For how many open steps he can stay, at most what is left of it.
Minute NamedHands::goes_on(int hand, const HandWork& work, Minute step,
                           std::span<const Span> open) const {
  Minute n = 0;
  for (const Span& span : open)
    for (Minute t = std::max(step, span.from); t < span.to; ++t, ++n)
      if (n == work.steps || !is_free(hand, t, work.share)) return n;
  return n;
}

int NamedHands::who(const HandWork& work, Minute step, int before,
                    std::span<const Span> open) const {
  const std::vector<int>& can = able(work);
  if (before >= 0 && !work.begins && is_free(before, step, work.share) &&
      std::find(can.begin(), can.end(), before) != can.end())
    return before;
  int best = -1;
  std::tuple<Minute, bool, int, bool, Minute> most;
  for (const int hand : can) {
    if (!is_free(hand, step, work.share)) continue;
    const Minute steps = goes_on(hand, work, step, open);
    const std::tuple stays(std::min(steps, worth_coming), !is_free(hand, step, whole_person),
                           -skills_[static_cast<std::size_t>(hand)], hand == before, steps);
    if (best >= 0 && stays <= most) continue;
    best = hand;
    most = stays;
  }
  return best;
}

bool NamedHands::anybody(const HandWork& work, Minute step) const {
  const std::vector<int>& can = able(work);
  return std::any_of(can.begin(), can.end(),
                     [&](int hand) { return is_free(hand, step, work.share); });
}

void NamedHands::occupy(int hand, Minute step, int share) {
  const auto i = static_cast<std::size_t>(step);
  free_[i * people_.named.size() + static_cast<std::size_t>(hand)] -= share;
  touched_ = std::max(touched_, i + 1);
}

}  // namespace turnwright
