// SPDX-License-Identifier: MIT
#include "list_moves.hpp"

#include <algorithm>

namespace turnwright {
namespace {

constexpr std::size_t structured_share = 40, lots_share = 40;  // of a hundred moves

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

// Where two lists differ; at the usual place where they do not.
ChangedPlaces mismatch(const std::vector<int>& before, const std::vector<int>& now,
                       std::size_t usual) {
  const auto first = std::mismatch(before.begin(), before.end(), now.begin()).first;
  if (first == before.end()) return {usual, usual};
  const auto last = std::mismatch(before.rbegin(), before.rend(), now.rbegin()).first;
  return {static_cast<std::size_t>(first - before.begin()),
          static_cast<std::size_t>(before.rend() - last) - 1};
}

}  // namespace

ListMoves::ListMoves(const PlanProblem& problem, DispatchOrder from, std::uint64_t first_draw)
    : problem_(problem),
      draws_(first_draw),
      now_(std::move(from)),
      place_of_(problem.operations.size()),
      chain_(problem) {
  for (std::size_t o = 0; o < problem.operations.size(); ++o)
    if (problem.operations[o].choices.size() > 1) free_.push_back(static_cast<int>(o));
  movable_ = now_.lots.size() - frozen();
}

void ListMoves::accept(std::size_t changed, const std::vector<PlannedRun>& worked,
                       const Decoder& decoder) {
  const auto from = static_cast<std::ptrdiff_t>(changed);
  runs_.resize(worked.size());
  std::copy(worked.begin() + from, worked.end(), runs_.begin() + from);
  for (std::size_t i = changed; i < runs_.size(); ++i)
    place_of_[static_cast<std::size_t>(runs_[i].operation)] = i;
  look_for_late(decoder);
  critical_known_ = false;
  chain_.forget();
}

// Of the list that was worked last; what does not fit into the calendar counts more.
void ListMoves::look_for_late(const Decoder& decoder) {
  late_.clear();
  if (problem_.score == Score::makespan) return;
  for (std::size_t j = 0; j < problem_.lots.size(); ++j)
    if (const Minute done = decoder.done(j); done > problem_.lots[j].due)
      late_.insert(late_.end(), done == never ? 5 : 1, static_cast<int>(j));
}
// The chain that ends with what ends last, or with a late lot.
void ListMoves::find_critical() {
  if (critical_known_ && problem_.score == Score::makespan) return;
  critical_known_ = true;
  chain_.set(runs_);
  chain_.find(problem_.score == Score::makespan
                  ? chain_.last()
                  : chain_.end_of(static_cast<std::size_t>(late_[draws_.below(late_.size())])));
}
// Of a block its first or last goes inside, or one of it to the front or the end: nothing else of
// one machine makes the chain shorter (J. Grabowski, E. Nowicki, S. Zdrzalka, EJOR 26, 1986).
std::optional<ListMoves::Undo> ListMoves::move_in_block() {
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
  if (undo.a < frozen() || undo.b < frozen() || now_.lots[undo.a] == now_.lots[undo.b])
    return std::nullopt;
  shift(undo.a, undo.b);
  return undo;
}
// One of the chain to another of its machines, there at any near place.
std::optional<ListMoves::Undo> ListMoves::off_the_chain() {
  const std::size_t place = chain_.places()[draws_.below(chain_.places().size())];
  const auto o = static_cast<std::size_t>(runs_[place].operation);
  if (problem_.operations[o].choices.size() < 2 || place < frozen()) return std::nullopt;
  Undo undo = to_other_machine(o);
  if (draws_.below(2) > 0) go_beside(undo);
  return undo;
}
ListMoves::Undo ListMoves::to_other_machine(std::size_t o) {
  Undo undo;
  undo.kind = Move::machine;
  undo.operation = o;
  undo.choice = now_.choices[o];
  undo.a = undo.b = place_of_[o];
  change_machine(undo, o);
  return undo;
}
// There at any near place.
void ListMoves::go_beside(Undo& undo) {
  undo.b = beside(undo.a, machine_of(undo.operation));
  if (undo.a != undo.b) shift(undo.a, undo.b);
}
int ListMoves::machine_of(std::size_t o) const {
  return problem_.operations[o].choices[static_cast<std::size_t>(now_.choices[o])].machine;
}
// A place near to this one, of a run on that machine.
std::size_t ListMoves::beside(std::size_t place, int machine) {
  const std::size_t by = draws_.below(std::min<std::size_t>(movable_, 24));
  if (draws_.below(2) == 0) {
    for (std::size_t k = place - std::min(place, by); k-- > frozen();)
      if (runs_[k].machine == machine) return k;
    return frozen();
  }
  for (std::size_t k = place + by + 1; k < runs_.size(); ++k)
    if (runs_[k].machine == machine) return k;
  return runs_.size() - 1;
}
std::optional<ListMoves::Undo> ListMoves::structured() {
  if (problem_.score != Score::makespan && late_.empty()) return std::nullopt;
  find_critical();
  if (!free_.empty() && draws_.below(2) == 0) return off_the_chain();
  return move_in_block();
}
// An operation goes to another of its machines.
void ListMoves::change_machine(Undo& undo, std::size_t o) {
  const std::size_t n = problem_.operations[o].choices.size();
  now_.choices[o] =
      static_cast<int>((static_cast<std::size_t>(undo.choice) + 1 + draws_.below(n - 1)) % n);
}
// All the work of a late lot, some places nearer to the front, and every other time on another
// machine, too.
ListMoves::Undo ListMoves::pull_forward() {
  Undo undo;
  undo.kind = Move::pull;
  saved_ = now_.lots;
  const int lot = late_[draws_.below(late_.size())];
  const std::size_t by = 1 + draws_.below(reach());
  for (std::size_t i = frozen(); i < now_.lots.size(); ++i)
    if (now_.lots[i] == lot)
      std::rotate(place(std::max(frozen(), i - std::min(i, by))), place(i), place(i + 1));
  const auto& operations = problem_.lots[static_cast<std::size_t>(lot)].operations;
  undo.operation = static_cast<std::size_t>(operations[draws_.below(operations.size())]);
  undo.choice = now_.choices[undo.operation];
  if (problem_.operations[undo.operation].choices.size() > 1 && draws_.below(2) == 0)
    change_machine(undo, undo.operation);
  return undo;
}
// Two lots change places, or one that has time lets others go before it.
ListMoves::Undo ListMoves::whole_lots() {
  Undo undo = whole_list();
  const std::size_t a = draws_.below(movable_), by = 1 + draws_.below(reach());
  const int lot = now_.lots[frozen() + a];
  if (draws_.below(2) == 0)
    swap_lots(now_.lots, frozen(), lot, now_.lots[frozen() + (a + by) % movable_]);
  else
    push_back(now_.lots, frozen(), lot, by);
  return undo;
}
// The same job again comes right behind, on the same machine: there is nothing to set up.
std::optional<ListMoves::Undo> ListMoves::join_job() {
  const std::size_t i = frozen() + draws_.below(movable_);
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
ListMoves::Undo ListMoves::whole_list() {
  Undo undo;
  undo.kind = Move::pull;
  undo.operation = static_cast<std::size_t>(runs_.front().operation);
  undo.choice = now_.choices[undo.operation];
  saved_ = now_.lots;
  return undo;
}
// Mostly near: a list is good already in the large.
std::size_t ListMoves::reach() {
  return draws_.below(2) == 0 ? movable_ : std::min<std::size_t>(movable_, 12);
}
ListMoves::Undo ListMoves::change() {
  if (draws_.below(100) < structured_share)
    if (const auto undo = structured()) return *undo;
  if (problem_.score == Score::convex_lateness && draws_.below(100) < lots_share) {
    if (draws_.below(3) > 0) return whole_lots();
    if (const auto undo = join_job()) return *undo;
  }
  if (!late_.empty() && draws_.below(3) == 0) return pull_forward();
  if (!free_.empty() && draws_.below(4) == 0) {
    Undo undo = to_other_machine(static_cast<std::size_t>(free_[draws_.below(free_.size())]));
    if (undo.a >= frozen() && draws_.below(4) > 0) go_beside(undo);
    return undo;
  }
  return one_entry();
}
// One entry beside another of its machine, or two that change places, or one goes to any place.
ListMoves::Undo ListMoves::one_entry() {
  Undo undo;
  if (draws_.below(2) == 0) {
    undo.kind = Move::shift;
    undo.a = frozen() + draws_.below(movable_);
    undo.b = beside(undo.a, runs_[undo.a].machine);
    if (undo.a != undo.b && now_.lots[undo.a] != now_.lots[undo.b]) {
      shift(undo.a, undo.b);
      return undo;
    }
  }
  do {
    undo.a = frozen() + draws_.below(movable_);
    const std::size_t b = undo.a + 1 + draws_.below(reach());
    undo.b = frozen() + (b - frozen()) % movable_;
  } while (undo.a == undo.b || now_.lots[undo.a] == now_.lots[undo.b]);
  undo.kind = draws_.below(2) == 0 ? Move::swap : Move::shift;
  if (undo.kind == Move::swap)
    std::swap(now_.lots[undo.a], now_.lots[undo.b]);
  else
    shift(undo.a, undo.b);
  return undo;
}
// The one at a goes to b.
void ListMoves::shift(std::size_t a, std::size_t b) {
  if (a < b)
    std::rotate(place(a), place(a + 1), place(b + 1));
  else
    std::rotate(place(b), place(a), place(a + 1));
}
void ListMoves::undo_change(const Undo& undo) {
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
ChangedPlaces ListMoves::changed_by(const Undo& undo) const {
  if (undo.kind != Move::pull) return {std::min(undo.a, undo.b), std::max(undo.a, undo.b)};
  const std::size_t place = place_of_[undo.operation];
  const ChangedPlaces changed = mismatch(saved_, now_.lots, place);
  if (now_.choices[undo.operation] == undo.choice) return changed;
  return {std::min(changed.first, place), std::max(changed.last, place)};
}

}  // namespace turnwright
