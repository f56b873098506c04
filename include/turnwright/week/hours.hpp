// SPDX-License-Identifier: MIT
#pragma once
// What a planner looks at first: the hours that orders ask for, beside those that are there.
#include <string>
#include <vector>

#include "turnwright/week/week_problem.hpp"

namespace turnwright {

/// Hours asked for and hours there, of a machine or of all people, without any order of work: each
/// operation lies as late as its due date lets it, on the least loaded machine that can do it.
struct Load {
  std::string name;
  bool people = false;
  std::vector<double> needed, there;  // by day, in hours
  double quoted = 0;                  // of the needed, by quotes times their probability
  double sum_needed() const;
  double sum_there() const;
};
std::vector<Load> infinite_load(const Week& week, const WeekProblem& problem);

}  // namespace turnwright
