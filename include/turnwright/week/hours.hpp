// SPDX-License-Identifier: MIT
#pragma once
// What a planner looks at first: the hours that orders require, beside those available.
#include <string>
#include <vector>

#include "turnwright/week/week_problem.hpp"

namespace turnwright {

/// Hours required and available, of a machine or of all people, without any order of work: each
/// operation lies as late as its due date lets it, on the least loaded machine that can do it.
struct MachineLoad {
  std::string name;  // as data spell it; a sentence takes `title`
  bool people = false;
  std::vector<double> required, available;  // by day, in hours
  double quoted = 0;                        // of the required, by quotes times their probability

  double sum_required() const;
  double sum_available() const;
  bool overloaded() const { return sum_required() > sum_available(); }
  /// The machine's name, or the word for people.
  Message title() const;
};
/// By machine of the week, in its order; then all people, where the week names any.
std::vector<MachineLoad> infinite_load(const Week& week, const WeekProblem& problem);
/// Hours that a plan works, by the same machines and people, then by day of the week: what waits
/// for people in between is shared out evenly.
std::vector<std::vector<double>> planned_load(const Week& week, const WeekProblem& problem,
                                              const Plan& plan);

}  // namespace turnwright
