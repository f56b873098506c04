// SPDX-License-Identifier: MIT
#include <algorithm>
#include <tuple>

#include "free_steps.hpp"
#include "turnwright/week/hands.hpp"

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

NamedHands::NamedHands(const Presence& people, std::size_t machines)
    : people_(people), steps_(people.present.size()) {
  if (people.named.empty()) return;
  for (const NamedHand& hand : people.named) {
    for (std::size_t i = 0; i < steps_; ++i)
      at_first_.push_back(hand.present[i] != 0 ? whole_person : 0);
    skills_.push_back(skills_of(hand));
  }
  free_ = at_first_;
  for (std::size_t m = 0; m < machines; ++m) {
    set_.push_back(able_by(people, &NamedHand::sets, m));
    run_.push_back(able_by(people, &NamedHand::runs, m));
  }
}

void NamedHands::begin() { restore({}); }

void NamedHands::save(std::vector<Share>& free) const {
  free.clear();
  for (std::size_t h = 0; h < people_.named.size(); ++h) {
    const auto from = free_.begin() + static_cast<std::ptrdiff_t>(h * steps_);
    free.insert(free.end(), from, from + static_cast<std::ptrdiff_t>(touched_));
  }
}

void NamedHands::restore(const std::vector<Share>& free) {
  const std::size_t hands = people_.named.size();
  if (hands == 0) return;
  const std::size_t touched = free.size() / hands, last = std::max(touched, touched_);
  for (std::size_t h = 0; h < hands; ++h) {
    const auto at = [&](auto begin, std::size_t i) {
      return begin + static_cast<std::ptrdiff_t>(i);
    };
    std::copy(at(free.begin(), h * touched), at(free.begin(), (h + 1) * touched),
              at(free_.begin(), h * steps_));
    std::copy(at(at_first_.begin(), h * steps_ + touched), at(at_first_.begin(), h * steps_ + last),
              at(free_.begin(), h * steps_ + touched));
  }
  touched_ = touched;
}

Minute NamedHands::first_with_somebody(const HandWork& work, Minute from, Minute to) const {
  for (const int hand : able(work)) {
    if (to <= from) break;
    to = first_with(free_of(hand), from, to, work.share);
  }
  return to;
}

Minute NamedHands::stays(int hand, Minute from, Minute to, int share) const {
  return first_without(free_of(hand), from, to, share);
}

// For how many open steps he can stay, at most so many.
Minute NamedHands::goes_on(int hand, const HandWork& work, Minute step, std::span<const Span> open,
                           Minute most) const {
  Minute n = 0;
  for (const Span& span : open) {
    const Minute from = std::max(step, span.from);
    const Minute to = stays(hand, from, std::min(span.to, from + most - n), work.share);
    n += to - from;
    if (to < span.to) break;
  }
  return n;
}

int NamedHands::who(const HandWork& work, Minute step, int before,
                    std::span<const Span> open) const {
  if (before >= 0 && !work.begins && is_free(before, step, work.share) && can(before, work))
    return before;
  const auto stays_in_all = [&](int hand) { return goes_on(hand, work, step, open, work.steps); };
  int best = -1;
  std::tuple<Minute, bool, int, bool> most;
  for (const int hand : able(work)) {
    if (!is_free(hand, step, work.share)) continue;
    const std::tuple stays(goes_on(hand, work, step, open, std::min(work.steps, worth_coming)),
                           !is_free(hand, step, whole_person),
                           -skills_[static_cast<std::size_t>(hand)], hand == before);
    // Of two alike the one who can stay longer; how long that is is seldom asked.
    if (best >= 0 && (stays < most || (stays == most && stays_in_all(hand) <= stays_in_all(best))))
      continue;
    best = hand;
    most = stays;
  }
  return best;
}

void NamedHands::occupy(int hand, Minute from, Minute to, int share) {
  const std::size_t row = static_cast<std::size_t>(hand) * steps_;
  for (Minute i = from; i < to; ++i)
    free_[row + static_cast<std::size_t>(i)] =
        static_cast<Share>(free_[row + static_cast<std::size_t>(i)] - share);
  touched_ = std::max(touched_, static_cast<std::size_t>(to));
}

}  // namespace turnwright
