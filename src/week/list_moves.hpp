// SPDX-License-Identifier: MIT
#pragma once
// How a search changes a list: one step at a time, that can be taken back.
#include <optional>
#include <utility>
#include <vector>

#include "critical_chain.hpp"
#include "draws.hpp"
#include "turnwright/week/decoder.hpp"

namespace turnwright {

class ListMoves {
 public:
  /// What takes a change back.
  struct Undo {
    enum class Kind { swap, shift, machine, pull } kind = Kind::swap;
    std::size_t a = 0, b = 0;   // places
    std::size_t operation = 0;  // of `pull`, and of `machine` beside its places
    int choice = 0;
  };

  ListMoves(const PlanProblem& problem, DispatchOrder from, std::uint64_t first_draw);

  const DispatchOrder& list() const { return now_; }
  std::size_t movable() const { return movable_; }
  Draws& draws() { return draws_; }
  Undo change();
  void undo_change(const Undo& undo);
  /// Where the list is another than before.
  ChangedPlaces changed_by(const Undo& undo) const;
  /// The list stays as it is, with the runs from that place on as the decoder has worked them.
  void accept(std::size_t changed, const std::vector<PlannedRun>& worked, const Decoder& decoder);

 private:
  using Move = Undo::Kind;

  void look_for_late(const Decoder& decoder);
  void find_critical();
  std::optional<Undo> move_in_block();
  std::optional<Undo> off_the_chain();
  Undo to_other_machine(std::size_t o);
  void go_beside(Undo& undo);
  int machine_of(std::size_t o) const;
  std::size_t beside(std::size_t place, int machine);
  std::optional<Undo> structured();
  void change_machine(Undo& undo, std::size_t o);
  Undo pull_forward();
  Undo whole_lots();
  std::optional<Undo> join_job();
  Undo whole_list();
  Undo one_entry();
  std::size_t reach();
  std::size_t frozen() const { return static_cast<std::size_t>(now_.frozen); }
  void shift(std::size_t a, std::size_t b);
  auto place(std::size_t i) { return now_.lots.begin() + static_cast<std::ptrdiff_t>(i); }

  const PlanProblem& problem_;
  Draws draws_;
  DispatchOrder now_;
  std::vector<int> free_;   // operations with more than one machine
  std::vector<int> late_;   // lots
  std::vector<int> saved_;  // the list before its last change as a whole
  std::vector<PlannedRun> runs_;
  std::vector<std::size_t> place_of_;  // in them, by operation
  CriticalChain chain_;
  bool critical_known_ = false;
  std::size_t movable_ = 0;
};

}  // namespace turnwright
