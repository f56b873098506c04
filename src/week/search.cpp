// SPDX-License-Identifier: MIT
#include "turnwright/week/search.hpp"
#include "turnwright/quantity/in_parallel.hpp"

#include <algorithm>
#include <cmath>

#include "draws.hpp"

namespace turnwright {
namespace {

// Of the first temperature: tried on job shops, flexible job shops and weeks of ours.
constexpr double last_share = 1e-3;
constexpr double most_heat = 0.3, enough_moves = 900;  // of each entry

class Chain {
 public:
  Chain(const PlanProblem& problem, const DispatchOrder& from, const SearchEffort& effort,
        int index)
      : problem_(problem),
        decoder_(problem),
        draws_(effort.first_draw * 1000003 + static_cast<std::uint64_t>(index)),
        effort_(effort),
        now_(from),
        best_(from) {
    for (std::size_t o = 0; o < problem.operations.size(); ++o)
      if (problem.operations[o].choices.size() > 1) free_.push_back(static_cast<int>(o));
    movable_ = now_.lots.size() - static_cast<std::size_t>(now_.frozen);
  }

  void anneal() {
    score_ = best_score_ = decoder_.score(now_);
    look_for_late();
    if (movable_ < 2) return;
    const double hot = first_temperature();
    const double cold = std::max(hot * last_share, 1e-12);
    const double ratio = std::pow(cold / hot, 1.0 / effort_.moves);
    double temperature = hot;
    for (int i = 0; i < effort_.moves && best_score_ > effort_.target; ++i) {
      step(temperature);
      temperature *= ratio;
    }
  }
  double score() const { return best_score_; }
  const DispatchOrder& best() const { return best_; }

 private:
  enum class Move { swap, shift, machine, pull };
  struct Undo {
    Move kind = Move::swap;
    std::size_t a = 0, b = 0;  // places; of `machine` and `pull`, a is an operation
    int choice = 0;
  };

  // From what random moves change, up or down: the list to start from may be the worst.
  double first_temperature() {
    std::vector<double> apart;
    for (int i = 0; i < 100; ++i) {
      const Undo undo = change();
      const double by = std::abs(decoder_.score(now_) - score_);
      undo_change(undo);
      if (by > 1e-9) apart.push_back(by);
    }
    if (apart.empty()) return 1e-6;
    // The middle one: a few orders that no longer fit into the calendar would hide the rest.
    const auto middle = apart.begin() + static_cast<std::ptrdiff_t>(apart.size() / 2);
    std::nth_element(apart.begin(), middle, apart.end());
    if (effort_.heat > 0) return *middle * effort_.heat;
    const double each = effort_.moves / static_cast<double>(std::max<std::size_t>(movable_, 1));
    return *middle * most_heat * std::clamp(std::pow(each / enough_moves, 1.5), 0.01, 1.0);
  }
  // Of the list that was worked last; what does not fit into the calendar counts more.
  void look_for_late() {
    late_.clear();
    if (problem_.score == Score::makespan) return;
    for (std::size_t j = 0; j < problem_.lots.size(); ++j)
      if (decoder_.done()[j] > problem_.lots[j].due)
        late_.insert(late_.end(), decoder_.done()[j] == never ? 5 : 1, static_cast<int>(j));
  }
  auto place(std::size_t i) { return now_.lots.begin() + static_cast<std::ptrdiff_t>(i); }
  // An operation goes to another of its machines.
  void change_machine(Undo& undo, std::size_t o) {
    const std::size_t n = problem_.operations[o].choices.size();
    now_.choices[o] =
        static_cast<int>((static_cast<std::size_t>(undo.choice) + 1 + draws_.below(n - 1)) % n);
  }
  // All the work of a late lot, some places nearer to the front, and every other time on another
  // machine, too.
  Undo pull_forward() {
    Undo undo;
    undo.kind = Move::pull;
    saved_ = now_.lots;
    const int lot = late_[draws_.below(late_.size())];
    const auto frozen = static_cast<std::size_t>(now_.frozen);
    const std::size_t by = 1 + draws_.below(reach());
    for (std::size_t i = frozen; i < now_.lots.size(); ++i)
      if (now_.lots[i] == lot)
        std::rotate(place(std::max(frozen, i - std::min(i, by))), place(i), place(i + 1));
    const auto& operations = problem_.lots[static_cast<std::size_t>(lot)].operations;
    undo.a = static_cast<std::size_t>(operations[draws_.below(operations.size())]);
    undo.choice = now_.choices[undo.a];
    if (problem_.operations[undo.a].choices.size() > 1 && draws_.below(2) == 0)
      change_machine(undo, undo.a);
    return undo;
  }
  // Mostly near: a list is good already in the large.
  std::size_t reach() {
    return draws_.below(2) == 0 ? movable_ : std::min<std::size_t>(movable_, 12);
  }
  Undo change() {
    if (!late_.empty() && draws_.below(3) == 0) return pull_forward();
    Undo undo;
    if (!free_.empty() && draws_.below(4) == 0) {
      undo.kind = Move::machine;
      undo.a = static_cast<std::size_t>(free_[draws_.below(free_.size())]);
      undo.choice = now_.choices[undo.a];
      change_machine(undo, undo.a);
      return undo;
    }
    const auto frozen = static_cast<std::size_t>(now_.frozen);
    do {
      undo.a = frozen + draws_.below(movable_);
      const std::size_t b = undo.a + 1 + draws_.below(reach());
      undo.b = frozen + (b - frozen) % movable_;
    } while (undo.a == undo.b || now_.lots[undo.a] == now_.lots[undo.b]);
    undo.kind = draws_.below(2) == 0 ? Move::swap : Move::shift;
    if (undo.kind == Move::swap)
      std::swap(now_.lots[undo.a], now_.lots[undo.b]);
    else
      shift(undo.a, undo.b);
    return undo;
  }
  // The one at a goes to b.
  void shift(std::size_t a, std::size_t b) {
    if (a < b)
      std::rotate(place(a), place(a + 1), place(b + 1));
    else
      std::rotate(place(b), place(a), place(a + 1));
  }
  void undo_change(const Undo& undo) {
    switch (undo.kind) {
      case Move::swap:
        std::swap(now_.lots[undo.a], now_.lots[undo.b]);
        break;
      case Move::shift:
        shift(undo.b, undo.a);
        break;
      case Move::pull:
        std::swap(now_.lots, saved_);
        now_.choices[undo.a] = undo.choice;
        break;
      case Move::machine:
        now_.choices[undo.a] = undo.choice;
    }
  }
  void step(double temperature) {
    const Undo undo = change();
    const double score = decoder_.score(now_);
    if (score <= score_ || draws_.share() < std::exp((score_ - score) / temperature)) {
      score_ = score;
      look_for_late();
      if (score < best_score_) {
        best_score_ = score;
        best_ = now_;
      }
    } else {
      undo_change(undo);
    }
  }

  const PlanProblem& problem_;
  Decoder decoder_;
  Draws draws_;
  const SearchEffort& effort_;
  DispatchOrder now_, best_;
  double score_ = 0, best_score_ = 0;
  std::vector<int> free_;   // operations with more than one machine
  std::vector<int> late_;   // lots
  std::vector<int> saved_;  // the list before one was pulled forward
  std::size_t movable_ = 0;
};

}  // namespace

int moves_for(const PlanProblem& problem, double effort) {
  constexpr double least = 20, most = 1e9;
  const auto operations = static_cast<double>(std::max<std::size_t>(problem.operations.size(), 1));
  const double usual = std::clamp(12e6 / operations, 100.0, 20000.0);
  return static_cast<int>(std::clamp(usual * effort, least, most));
}
int moves_again(const PlanProblem& problem, double effort) {
  return moves_for(problem, effort / 3);
}

DispatchOrder search(const PlanProblem& problem, const DispatchOrder& from,
                     const SearchEffort& effort) {
  return search(problem, std::vector{from}, effort);
}

DispatchOrder search(const PlanProblem& problem, const std::vector<DispatchOrder>& lists,
                     const SearchEffort& effort) {
  const DispatchOrder& from = lists.front();
  // One lot cannot change places with itself: a list of a single lot has no move.
  const bool two = std::any_of(from.lots.begin() + from.frozen, from.lots.end(), [&](int j) {
    return j != from.lots[static_cast<std::size_t>(from.frozen)];
  });
  if (from.lots.size() <= static_cast<std::size_t>(from.frozen) || !two) return from;
  std::vector<Chain> chains;
  chains.reserve(static_cast<std::size_t>(effort.chains));
  for (int i = 0; i < effort.chains; ++i)
    chains.emplace_back(problem, lists[static_cast<std::size_t>(i) % lists.size()], effort, i);
  in_parallel(chains.size(), effort.threads, [&](std::size_t i) { chains[i].anneal(); });
  const Chain* best = &chains.front();
  for (const Chain& chain : chains)
    if (chain.score() < best->score()) best = &chain;
  return best->best();
}

DispatchOrder search_on(const PlanProblem& problem, const std::vector<DispatchOrder>& lists,
                        SearchEffort effort) {
  constexpr int rounds = 4;
  constexpr double enough = 100;  // moves of each entry with which one chain does
  if (effort.moves >= enough * static_cast<double>(lists.front().lots.size()))
    return search(problem, lists, effort);
  effort.moves = std::max(1, effort.moves / rounds);
  DispatchOrder best = search(problem, lists, effort);
  for (int k = 1; k < rounds; ++k) {
    effort.first_draw += 1000;
    best = search(problem, std::vector{best}, effort);
  }
  return best;
}

}  // namespace turnwright
