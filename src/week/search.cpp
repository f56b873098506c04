// SPDX-License-Identifier: MIT
#include "turnwright/week/search.hpp"
#include "turnwright/quantity/in_parallel.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "critical_chain.hpp"
#include "draws.hpp"

namespace turnwright {
namespace {

// Of the first temperature: tried on job shops, flexible job shops and weeks of ours.
constexpr double last_share = 0.03;
constexpr double most_heat = 0.1, enough_moves = 300;  // of each entry

// Two lots change places with all of their work behind `frozen`.
void swap_lots(std::vector<int>& lots, std::size_t frozen, int one, int other) {
  const std::vector<int> before = lots;
  std::size_t i = frozen, k = frozen;
  for (;; ++i, ++k) {
    while (i < lots.size() && before[i] != one) ++i;
    while (k < lots.size() && before[k] != other) ++k;
    if (i >= lots.size() || k >= lots.size()) return;
    std::swap(lots[i], lots[k]);
  }
}
// All work of a lot some places further back.
void push_back(std::vector<int>& lots, std::size_t frozen, int lot, std::size_t by) {
  const auto place = [&](std::size_t i) { return lots.begin() + static_cast<std::ptrdiff_t>(i); };
  for (std::size_t i = lots.size(); i-- > frozen;)
    if (lots[i] == lot)
      std::rotate(place(i), place(i + 1), place(std::min(lots.size(), i + 1 + by)));
}

class Chain {
 public:
  Chain(const PlanProblem& problem, const DispatchOrder& from, const SearchEffort& effort,
        int index)
      : problem_(problem),
        decoder_(problem),
        draws_(effort.first_draw * 1000003 + static_cast<std::uint64_t>(index)),
        effort_(effort),
        now_(from),
        best_(from),
        chain_(problem) {
    for (std::size_t o = 0; o < problem.operations.size(); ++o)
      if (problem.operations[o].choices.size() > 1) free_.push_back(static_cast<int>(o));
    movable_ = now_.lots.size() - static_cast<std::size_t>(now_.frozen);
  }

  void anneal() {
    score_ = best_score_ = decoder_.score_changed({0, now_.lots.size() - 1}, now_, 1e300, trial_);
    accepted(0);
    if (movable_ < 2) return;
    const double hot = first_temperature();
    cool(hot, effort_.moves);
  }
  double score() const { return best_score_; }
  const DispatchOrder& best() const { return best_; }

 private:
  enum class Move { swap, shift, machine, pull };
  struct Undo {
    Move kind = Move::swap;
    std::size_t a = 0, b = 0;   // places
    std::size_t operation = 0;  // of `pull`, and of `machine` beside its places
    int choice = 0;
  };

  void cool(double hot, int moves) {
    const double cold = std::max(hot * last_share, 1e-12);
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
      const Undo undo = change();
      const double by =
          std::abs(decoder_.score_changed(changed_by(undo), now_, 1e300, trial_) - score_);
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
      if (const Minute done = decoder_.done(j); done > problem_.lots[j].due)
        late_.insert(late_.end(), done == never ? 5 : 1, static_cast<int>(j));
  }
  // What was worked last is where the search is now.
  void accepted(std::size_t changed) {
    decoder_.keep(changed, score_);
    const auto from = static_cast<std::ptrdiff_t>(changed);
    runs_.resize(trial_.size());
    std::copy(trial_.begin() + from, trial_.end(), runs_.begin() + from);
    place_of_.resize(problem_.operations.size());
    for (std::size_t i = changed; i < runs_.size(); ++i)
      place_of_[static_cast<std::size_t>(runs_[i].operation)] = i;
    look_for_late();
    critical_known_ = false;
    chain_.forget();
  }
  // The chain that ends with what ends last, or with a late lot.
  void find_critical() {
    if (critical_known_ && problem_.score == Score::makespan) return;
    critical_known_ = true;
    chain_.set(runs_);
    chain_.find(problem_.score == Score::makespan
                    ? chain_.last()
                    : chain_.end_of(static_cast<std::size_t>(late_[draws_.below(late_.size())])));
  }
  // Of a block its first or last goes inside, or one of it to the front or the end: nothing else of
  // one machine makes the chain shorter (J. Grabowski, E. Nowicki, S. Zdrzalka, EJOR 26, 1986).
  std::optional<Undo> move_in_block() {
    const auto& blocks = chain_.blocks();
    const auto& critical = chain_.places();
    if (blocks.empty()) return std::nullopt;
    const auto [from, to] = blocks[draws_.below(blocks.size())];
    const std::size_t last = critical[from], first = critical[to - 1];
    const std::size_t n = to - from;
    Undo undo;
    undo.kind = Move::shift;
    const std::size_t near = draws_.below(2) == 0 ? 1 : 1 + draws_.below(n - 1);
    switch (draws_.below(4)) {
      case 0:  // the last one forward
        undo.a = last, undo.b = critical[from + near];
        break;
      case 1:  // the first one back
        undo.a = first, undo.b = critical[to - 1 - near];
        break;
      case 2:  // one to the front
        undo.a = critical[to - 1 - near], undo.b = first;
        break;
      default:  // one to the end
        undo.a = critical[from + near], undo.b = last;
    }
    const auto frozen = static_cast<std::size_t>(now_.frozen);
    if (undo.a < frozen || undo.b < frozen || now_.lots[undo.a] == now_.lots[undo.b])
      return std::nullopt;
    shift(undo.a, undo.b);
    return undo;
  }
  // One of the chain to another of its machines, there at any near place.
  std::optional<Undo> off_the_chain() {
    const std::size_t place = chain_.places()[draws_.below(chain_.places().size())];
    const auto o = static_cast<std::size_t>(runs_[place].operation);
    const auto frozen = static_cast<std::size_t>(now_.frozen);
    if (problem_.operations[o].choices.size() < 2 || place < frozen) return std::nullopt;
    Undo undo;
    undo.kind = Move::machine;
    undo.operation = o;
    undo.choice = now_.choices[o];
    undo.a = undo.b = place;
    change_machine(undo, o);
    if (draws_.below(2) == 0) return undo;
    undo.b = beside(place, machine_of(o));
    if (undo.a != undo.b) shift(undo.a, undo.b);
    return undo;
  }
  int machine_of(std::size_t o) const {
    return problem_.operations[o].choices[static_cast<std::size_t>(now_.choices[o])].machine;
  }
  // A place near to this one, of a run on that machine.
  std::size_t beside(std::size_t place, int machine) {
    const auto frozen = static_cast<std::size_t>(now_.frozen);
    const std::size_t by = draws_.below(std::min<std::size_t>(movable_, 24));
    if (draws_.below(2) == 0) {
      for (std::size_t k = place - std::min(place, by); k-- > frozen;)
        if (runs_[k].machine == machine) return k;
      return frozen;
    }
    for (std::size_t k = place + by + 1; k < runs_.size(); ++k)
      if (runs_[k].machine == machine) return k;
    return runs_.size() - 1;
  }
  std::optional<Undo> structured() {
    if (problem_.score != Score::makespan && late_.empty()) return std::nullopt;
    find_critical();
    if (!free_.empty() && draws_.below(2) == 0) return off_the_chain();
    return move_in_block();
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
    undo.operation = static_cast<std::size_t>(operations[draws_.below(operations.size())]);
    undo.choice = now_.choices[undo.operation];
    if (problem_.operations[undo.operation].choices.size() > 1 && draws_.below(2) == 0)
      change_machine(undo, undo.operation);
    return undo;
  }
  // Two lots change places, or one that has time lets others go before it.
  Undo whole_lots() {
    Undo undo = whole_list();
    const std::size_t frozen = now_.lots.size() - movable_, a = draws_.below(movable_);
    const std::size_t by = 1 + draws_.below(reach());
    const int lot = now_.lots[frozen + a];
    if (draws_.below(2) == 0)
      swap_lots(now_.lots, frozen, lot, now_.lots[frozen + (a + by) % movable_]);
    else
      push_back(now_.lots, frozen, lot, by);
    return undo;
  }
  // The same job again comes right behind, on the same machine: there is nothing to set up.
  std::optional<Undo> join_job() {
    const std::size_t i = now_.lots.size() - movable_ + draws_.below(movable_);
    const PlannedRun& run = runs_[i];
    const int job = problem_.operation(run.operation).job;
    for (std::size_t k = i + 1; job >= 0 && k < runs_.size(); ++k) {
      const auto o = static_cast<std::size_t>(runs_[k].operation);
      if (problem_.operations[o].job != job || now_.lots[k] == now_.lots[i]) continue;
      const auto& choices = problem_.operations[o].choices;
      const auto there = std::find_if(choices.begin(), choices.end(),
                                      [&](const Choice& c) { return c.machine == run.machine; });
      if (there == choices.end()) continue;
      Undo undo = whole_list();
      undo.operation = o;
      undo.choice = now_.choices[o];
      now_.choices[o] = static_cast<int>(there - choices.begin());
      shift(k, i + 1);
      return undo;
    }
    return std::nullopt;
  }
  // To be undone by the whole list and a choice.
  Undo whole_list() {
    Undo undo;
    undo.kind = Move::pull;
    undo.operation = static_cast<std::size_t>(runs_.front().operation);
    undo.choice = now_.choices[undo.operation];
    saved_ = now_.lots;
    return undo;
  }
  // Mostly near: a list is good already in the large.
  std::size_t reach() {
    return draws_.below(2) == 0 ? movable_ : std::min<std::size_t>(movable_, 12);
  }
  Undo change() {
    if (draws_.below(100) < structured_share_)
      if (const auto undo = structured()) return *undo;
    if (problem_.score == Score::convex_lateness && draws_.below(100) < lots_share_) {
      if (draws_.below(3) > 0) return whole_lots();
      if (const auto undo = join_job()) return *undo;
    }
    if (!late_.empty() && draws_.below(3) == 0) return pull_forward();
    Undo undo;
    if (!free_.empty() && draws_.below(4) == 0) {
      undo.kind = Move::machine;
      undo.operation = static_cast<std::size_t>(free_[draws_.below(free_.size())]);
      undo.choice = now_.choices[undo.operation];
      undo.a = undo.b = place_of_[undo.operation];
      change_machine(undo, undo.operation);
      if (undo.a >= now_.lots.size() - movable_ && draws_.below(4) > 0) {
        undo.b = beside(undo.a, machine_of(undo.operation));
        if (undo.a != undo.b) shift(undo.a, undo.b);
      }
      return undo;
    }
    const auto frozen = static_cast<std::size_t>(now_.frozen);
    if (draws_.below(2) == 0) {
      undo.kind = Move::shift;
      undo.a = frozen + draws_.below(movable_);
      undo.b = beside(undo.a, runs_[undo.a].machine);
      if (undo.a != undo.b && now_.lots[undo.a] != now_.lots[undo.b]) {
        shift(undo.a, undo.b);
        return undo;
      }
    }
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
        now_.choices[undo.operation] = undo.choice;
        break;
      case Move::machine:
        if (undo.a != undo.b) shift(undo.b, undo.a);
        now_.choices[undo.operation] = undo.choice;
    }
  }
  // Where the list is another than before.
  ChangedPlaces changed_by(const Undo& undo) const {
    const std::size_t place = place_of_[undo.operation];
    ChangedPlaces changed{std::min(undo.a, undo.b), std::max(undo.a, undo.b)};
    if (undo.kind == Move::machine && undo.a == undo.b) changed = {place, place};
    if (undo.kind == Move::pull) changed = mismatch(place);
    if (now_.choices[undo.operation] == undo.choice || undo.kind == Move::swap ||
        undo.kind == Move::shift)
      return changed;
    return {std::min(changed.first, place), std::max(changed.last, place)};
  }
  ChangedPlaces mismatch(std::size_t usual) const {
    const auto first = std::mismatch(saved_.begin(), saved_.end(), now_.lots.begin()).first;
    if (first == saved_.end()) return {usual, usual};
    const auto last = std::mismatch(saved_.rbegin(), saved_.rend(), now_.lots.rbegin()).first;
    return {static_cast<std::size_t>(first - saved_.begin()),
            static_cast<std::size_t>(saved_.rend() - last) - 1};
  }
  void step(double temperature) {
    const Undo undo = change();
    const ChangedPlaces changed = changed_by(undo);
    // How much worse it may be, drawn before it is known: what is sure to be more is not worked
    // out.
    const double limit = score_ - temperature * std::log(std::max(draws_.share(), 1e-300));
    const double score = decoder_.score_changed(changed, now_, limit, trial_);
    if (score <= limit) {
      score_ = score;
      accepted(changed.first);
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
  std::vector<PlannedRun> runs_, trial_;
  std::vector<std::size_t> place_of_;  // in them, by operation
  CriticalChain chain_;
  bool critical_known_ = false;
  static constexpr std::size_t structured_share_ = 40, lots_share_ = 40;  // of a hundred moves
  std::size_t movable_ = 0;
};

}  // namespace

int moves_for(const PlanProblem& problem, double effort) {
  constexpr double least = 20, most = 1e9;
  const auto operations = static_cast<double>(std::max<std::size_t>(problem.operations.size(), 1));
  // Small weeks are soon as good as they get, and large ones take long for each move.
  const double usual = std::max(100.0, std::min({2000 * operations, 120000.0, 40e6 / operations}));
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
  constexpr int most_rounds = 16, least_moves = 500;  // of each
  // Where only the longest chain counts, a list that is better is seldom near to one that is good.
  const int rounds =
      problem.score == Score::makespan ? 1 : std::clamp(effort.moves / least_moves, 1, most_rounds);
  effort.moves = std::max(1, effort.moves / rounds);
  DispatchOrder best = search(problem, lists, effort);
  for (int k = 1; k < rounds; ++k) {
    effort.first_draw += 1000;
    best = search(problem, std::vector{best}, effort);
  }
  return best;
}

}  // namespace turnwright
