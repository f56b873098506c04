// SPDX-License-Identifier: MIT
#include "turnwright/week/search.hpp"
#include "turnwright/quantity/in_parallel.hpp"

#include <algorithm>
#include <cmath>

#include "bring_forward.hpp"
#include "list_moves.hpp"
#include "rescue.hpp"
#include "turnwright/week/decoder.hpp"

namespace turnwright {
namespace {

// Of a usual change, the first temperature, and of that the last, in so many rounds: tried on job
// shops, where a list that is better is seldom near to one that is good; on one machine, where a
// round is short; on weeks of ours, where a hot beginning spoils what a list is good for already.
struct Heat {
  double most = 0, last_share = 0;
  int rounds = 1;
};
constexpr Heat of_longest{0.6, 1e-3, 1}, of_tardiness{0.3, 3e-3, 30}, of_weeks{0.1, 0.1, 5};

const Heat& heat_of(Score score) {
  switch (score) {
    case Score::makespan:
      return of_longest;
    case Score::weighted_tardiness:
      return of_tardiness;
    case Score::convex_lateness:
      break;
  }
  return of_weeks;
}
constexpr double enough_moves = 300;  // of each entry

class Chain {
 public:
  Chain(const PlanProblem& problem, const DispatchOrder& from, const SearchEffort& effort,
        int index)
      : decoder_(problem),
        heat_(heat_of(problem.score)),
        moves_(problem, from, effort.first_draw * 1000003 + static_cast<std::uint64_t>(index)),
        effort_(effort),
        best_(from) {}

  void anneal() {
    score_ = best_score_ = decoder_.score_changed({0, best_.lots.size() - 1}, best_, 1e300, trial_);
    accepted(0);
    if (moves_.movable() < 2) return;
    const double hot = first_temperature();
    cool(hot, effort_.moves);
  }
  double score() const { return best_score_; }
  const DispatchOrder& best() const { return best_; }

 private:
  void accepted(std::size_t changed) {
    decoder_.keep(changed, score_);
    moves_.accept(changed, trial_, decoder_);
  }
  void cool(double hot, int moves) {
    const double cold = std::max(hot * heat_.last_share, 1e-12);
    const double ratio = std::pow(cold / hot, 1.0 / moves);
    double temperature = hot;
    for (int i = 0; i < moves && best_score_ > effort_.target; ++i) {
      step(temperature);
      temperature *= ratio;
    }
  }
  // From what random moves change, up or down: the list to start from may be the worst.
  double first_temperature() {
    std::vector<double> apart;
    for (int i = 0; i < 100; ++i) {
      const ListMoves::Undo undo = moves_.change();
      const double by = std::abs(
          decoder_.score_changed(moves_.changed_by(undo), moves_.list(), 1e300, trial_) - score_);
      moves_.undo_change(undo);
      if (by > 1e-9) apart.push_back(by);
    }
    if (apart.empty()) return 1e-6;
    // The middle one: a few orders that no longer fit into the calendar would hide the rest.
    const auto middle = apart.begin() + static_cast<std::ptrdiff_t>(apart.size() / 2);
    std::nth_element(apart.begin(), middle, apart.end());
    if (effort_.heat > 0) return *middle * effort_.heat;
    const double each =
        effort_.moves / static_cast<double>(std::max<std::size_t>(moves_.movable(), 1));
    return *middle * heat_.most * std::clamp(std::pow(each / enough_moves, 1.5), 0.01, 1.0);
  }
  void step(double temperature) {
    const ListMoves::Undo undo = moves_.change();
    const ChangedPlaces changed = moves_.changed_by(undo);
    // How much worse it may be, drawn before it is known: what is sure to be more is not worked
    // out.
    const double limit = score_ - temperature * std::log(std::max(moves_.draws().share(), 1e-300));
    const double score = decoder_.score_changed(changed, moves_.list(), limit, trial_);
    if (score <= limit) {
      score_ = score;
      accepted(changed.first);
      if (score < best_score_) {
        best_score_ = score;
        best_ = moves_.list();
      }
    } else {
      moves_.undo_change(undo);
    }
  }

  Decoder decoder_;
  const Heat& heat_;
  ListMoves moves_;
  const SearchEffort& effort_;
  DispatchOrder best_;
  double score_ = 0, best_score_ = 0;
  std::vector<PlannedRun> trial_;
};

}  // namespace

int moves_for(const PlanProblem& problem, double effort) {
  constexpr double least = 20, most = 1e9;
  const auto operations = static_cast<double>(std::max<std::size_t>(problem.operations.size(), 1));
  // Small weeks are soon as good as they get; large ones take long for each move, and longer where
  // twenty people and more are told apart.
  const double each = operations * (1 + static_cast<double>(problem.people.named.size()) / 20);
  const double usual = std::max(200.0, std::min({4000 * operations, 240000.0, 80e6 / each}));
  return static_cast<int>(std::clamp(usual * effort, least, most));
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
  constexpr int least_moves = 2000;  // of a round
  const int rounds = std::clamp(effort.moves / least_moves, 1, heat_of(problem.score).rounds);
  effort.moves = std::max(1, effort.moves / rounds);
  DispatchOrder best = search(problem, lists, effort);
  for (int k = 1; k < rounds; ++k) {
    effort.first_draw += 1000;
    best = search(problem, std::vector{best}, effort);
  }
  return problem.score == Score::makespan ? best : brought_forward(problem, std::move(best));
}

DispatchOrder search_near(const PlanProblem& problem, const std::vector<DispatchOrder>& near,
                          std::vector<DispatchOrder> others, SearchEffort effort) {
  const int all = effort.moves;
  effort.moves = std::max(1, all / 3);
  effort.heat = mild_heat;
  const DispatchOrder kept = search(problem, near, effort);
  others.insert(others.begin(), kept);
  effort.moves = std::max(1, all - effort.moves);
  effort.heat = 0;
  DispatchOrder found = search_on(problem, others, effort);
  Decoder decoder(problem);
  return decoder.score(found) < decoder.score(kept) ? found : kept;
}

}  // namespace turnwright
