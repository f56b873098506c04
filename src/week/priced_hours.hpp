// SPDX-License-Identifier: MIT
#pragma once
#include <map>
#include <tuple>
#include <vector>

#include "turnwright/week/bound.hpp"

namespace turnwright {

/// Work of one sort: on a machine, with so much of a person; or setting it up.
struct PricedWork {
  int machine = 0, attended = 0;
  bool sets = false;
  std::vector<double> open;   // by stretch: minutes in which it can be done
  std::vector<double> price;  // of one of them
};

/// The hours of machines, of people and of those who set up, in stretches of about a shift, and
/// what a minute of each costs.
class PricedHours {
 public:
  explicit PricedHours(const PlanProblem& problem);
  const std::vector<Span>& stretches() const { return stretches_; }
  /// The first that ends after t; their number when there is none.
  std::size_t stretch_at(Minute t) const;
  int number_of(int machine, int attended, bool sets);
  const PricedWork& work(int number) const { return works_[static_cast<std::size_t>(number)]; }

  /// Works out what the work costs; nothing is taken yet.
  void begin_round();
  void take(int work, std::size_t stretch, double minutes);
  /// Of all hours at their prices.
  double worth() const;
  /// Moves prices to where more was taken than there is, by a step that would gain so much were all
  /// as it is now. False: nothing is asked for in vain.
  bool move(double gain);
  /// Whose hours are worth most.
  LatenessBound::Cause dearest(int& machine) const;

 private:
  std::size_t at(std::size_t row, std::size_t stretch) const {
    return row * stretches_.size() + stretch;
  }
  std::size_t people() const { return problem_.machines.size(); }
  std::size_t setters() const { return people() + 1; }
  bool with_people() const { return !problem_.people.present.empty(); }
  void cut_stretches();
  void count_people();
  double open_minutes(const PricedWork& work, const Span& stretch) const;

  const PlanProblem& problem_;
  std::vector<Span> stretches_;
  // By row (machines, then people, then setters) and stretch.
  std::vector<double> there_, price_, taken_, direction_;
  std::vector<PricedWork> works_;
  std::map<std::tuple<int, int, bool>, int> numbers_;
};

}  // namespace turnwright
