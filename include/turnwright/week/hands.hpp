// SPDX-License-Identifier: MIT
#pragma once
// Whose hands are free when: people as capacities, given out step by step.
#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "turnwright/week/plan.hpp"

namespace turnwright {

/// When a piece of work is set up, runs, is done so far that the next may begin, and ends.
struct RunTimes {
  Minute setup_from = never, run_from = never, first_share = never, to = never;

  /// No times; in the place of the first share's, the minutes that did not fit.
  static RunTimes unfit(Minute left) { return {never, never, left, never}; }
};

/// Work that hands are looked for: `sets`: it is to be set up, else attended.
struct HandWork {
  int machine = 0, share = 0;  // thousandths of a person
  bool sets = false;
  Minute steps = 0;     // that are left of it
  bool begins = false;  // none of its steps is given out
};

/// People who are told apart. Who has begun goes on. Else somebody takes over who can stay for an
/// hour, and rather one who attends other machines already, or who can do less: whole people, and
/// those who can do more, are left for other work.
class NamedHands {
 public:
  using Share = std::int16_t;  // thousandths of a person

  NamedHands(const Presence& people, std::size_t machines);
  bool empty() const { return people_.named.empty(); }
  /// All are free again.
  void begin();
  void save(std::vector<Share>& free) const;
  void restore(const std::vector<Share>& free);
  /// The first step with somebody for it; `to`: none.
  Minute first_with_somebody(const HandWork& work, Minute from, Minute to) const;
  /// Who does a step that somebody can do, which is in the first of the open times of the machine;
  /// `before` did the one before.
  int who(const HandWork& work, Minute step, int before, std::span<const Span> open) const;
  /// Until when he can go on.
  Minute stays(int hand, Minute from, Minute to, int share) const;
  void occupy(int hand, Minute from, Minute to, int share);

 private:
  bool is_free(int hand, Minute step, int share) const { return free_of(hand)[step] >= share; }
  const Share* free_of(int hand) const {
    return free_.data() + static_cast<std::ptrdiff_t>(static_cast<std::size_t>(hand) * steps_);
  }
  Minute goes_on(int hand, const HandWork& work, Minute step, std::span<const Span> open,
                 Minute most) const;
  const std::vector<int>& able(const HandWork& work) const {
    return (work.sets ? set_ : run_)[static_cast<std::size_t>(work.machine)];
  }
  bool can(int hand, const HandWork& work) const {
    const NamedHand& of = people_.named[static_cast<std::size_t>(hand)];
    return (work.sets ? of.sets : of.runs)[static_cast<std::size_t>(work.machine)] != 0;
  }

  const Presence& people_;
  std::size_t steps_ = 0;
  std::vector<Share> at_first_, free_;       // by hand, then by step
  std::vector<int> skills_;                  // by hand: how much he can do
  std::vector<std::vector<int>> set_, run_;  // by machine: who can, who can do least first
  std::size_t touched_ = 0;                  // steps from which on nobody is taken
};

/// The hands of people, given out step by step: a machine waits while nobody has one free.
class Hands {
 public:
  explicit Hands(const PlanProblem& problem);
  /// False where nobody is required.
  bool count() const { return !problem_.people.present.empty(); }
  /// All hands are free again.
  void begin();
  /// When there are hands for a piece of work. Only looks.
  RunTimes look(const Choice& choice, Minute from, Minute setup, Minute share);
  /// Takes those of the work that was looked at last.
  void occupy(int attended);
  /// Who does what of it, where people are told apart.
  void tell(const PlannedRun& run, std::vector<Stint>& stints) const;
  /// The first moment with a hand for it, or with somebody who sets; never when there is none.
  Minute first_free(const Choice& choice, Minute from, bool sets);

  /// Whose hands are free by step, in thousandths.
  struct Free {
    std::vector<int> present, setters;
    std::vector<NamedHands::Share> named;  // by hand and step, where people are told apart
    std::size_t touched = 0;               // steps from which on nobody is taken
  };
  void save(Free& free) const;
  void restore(const Free& free);

 private:
  struct Taken {  // steps in a row
    Minute from = 0, to = 0;
    bool sets = false;
    int who = -1;  // does it, where people are told apart
  };
  std::span<const Span> open_from(const Choice& choice, Minute first) const;
  Minute look_on(const Choice& choice, Minute from, Minute to, bool sets) const;
  Minute work_on(const Choice& choice, Minute from, Minute to, bool sets) const;
  Minute take(const Choice& choice, Minute first, Minute work, bool sets);
  Minute take_named(const Choice& choice, Minute first, Minute work, bool sets);
  void take_steps(const Taken& steps);
  Minute look_for_anybody(const Choice& choice, Minute from, Minute to, bool sets) const;
  Minute next_free(const Choice& choice, Minute from, bool sets);
  Minute end_of_step(Minute n) const;

  const PlanProblem& problem_;
  Free free_;
  NamedHands named_;
  std::vector<Taken> taken_;  // by the run that is looked at
  // The first step with hands for such work that was found last, from a step on: it is that of all
  // between, until somebody is taken.
  struct Found {
    int share = -1;
    Minute from = 0, step = 0;
  };
  std::array<Found, 2> found_;           // to attend it, to set it up
  std::vector<std::vector<Span>> open_;  // by machine, in steps
};

}  // namespace turnwright
