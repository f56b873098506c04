// SPDX-License-Identifier: MIT
#pragma once
// Why work begins when it does, from a plan alone.
#include <map>
#include <string>
#include <vector>

#include "turnwright/week/week_problem.hpp"

namespace turnwright {

class Reasons {
 public:
  Reasons(const Week& week, const WeekProblem& problem, const Plan& plan);
  /// What an order waited for, from its end down to the first cause.
  std::vector<std::string> chain(std::size_t job) const;
  /// Open time of a machine between two pieces of work, when it is long: what the second waits for.
  std::vector<std::string> gaps() const;
  /// The machine that the order waits longest for.
  std::string bottleneck(std::size_t job) const;

 private:
  std::string waits_for(const PlannedRun& run) const;
  std::string name(int operation) const;
  const std::string& machine(int m) const;

  const Week& week_;
  const WeekProblem& wp_;
  std::map<int, std::vector<const PlannedRun*>> on_;  // by machine, in order
  std::map<int, const PlannedRun*> by_operation_;
};

}  // namespace turnwright
