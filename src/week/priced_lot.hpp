// SPDX-License-Identifier: MIT
#pragma once
#include <vector>

#include "cheapest_minutes.hpp"
#include "least_setup.hpp"

namespace turnwright {

/// A lot as it buys hours.
struct PricedLot {
  struct Choice {
    int runs = 0, sets = 0;  // sorts of work
    double run = 0, set = 0;
  };
  struct Operation {
    std::vector<Choice> choices;
    std::size_t from = 0;  // the first stretch in which it can be
  };
  /// Operations that may overlap; `next`: by the stretch in which they end, the one in which the
  /// next may begin.
  struct Stage {
    std::vector<Operation> operations;
    std::vector<std::size_t> next;
  };
  std::vector<Stage> stages;
  std::size_t first = 0;
  // By the stretch in which it ends: how late it is at least, and by how much more with each minute
  // of its last run there. And when it does not fit.
  std::vector<double> late, each_minute;
  double undone = 0;
};
PricedLot priced_lot(const PlanProblem& problem, const PlannedLot& lot, const LeastSetup& setup,
                     PricedHours& hours);

/// Finds the minutes that cost a lot least together with its lateness, stage by stage: an operation
/// takes any minutes between the end of the one before and its own.
class LotBuys {
 public:
  explicit LotBuys(PricedHours& hours) : hours_(hours) {}
  double least(const PricedLot& lot);
  /// Takes the minutes of the lot that was asked for last.
  void take(const PricedLot& lot);
  /// Steps of work in all: the same on every machine.
  std::size_t steps() const { return steps_; }

 private:
  struct Ending {
    double cost = no_cost;
    std::size_t begun = 0;
  };
  struct Offer {
    CheapestMinutes run, set;
  };
  void stage(const PricedLot& lot, std::size_t k);
  void from(const PricedLot& lot, std::size_t k, std::size_t begin, double cost);
  double ending_in(const PricedLot& lot, std::size_t k, std::size_t t) const;
  void carry_on(const PricedLot::Stage& stage, std::size_t k);
  void begin_offers(const PricedLot::Stage& stage, std::size_t begin);
  void take_stage(const PricedLot& lot, std::size_t k, std::size_t t);

  PricedHours& hours_;
  std::vector<Offer> offers_;  // by operation and choice of a stage
  std::vector<double> begins_;
  std::vector<std::vector<Ending>> ends_;       // by stage and stretch
  std::vector<std::vector<std::size_t>> came_;  // by stage and beginning: the end before
  double best_ = 0;
  std::size_t end_ = 0, steps_ = 0;
};

}  // namespace turnwright
