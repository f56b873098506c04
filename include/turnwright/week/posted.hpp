// SPDX-License-Identifier: MIT
#pragma once
// The posted plan: what people work to, and what a new plan keeps of it.
#include <string>
#include <vector>

#include "turnwright/document/table.hpp"
#include "turnwright/week/week_problem.hpp"

namespace turnwright {

/// A line of it.
struct PostedRun {
  std::string machine, order;  // the machine as the week calls it
  int operation = 0;
  Minute from = 0;
  int place = -1;  // in the list that made the plan; below 0: not said
};

/// A table as `load --output plan.csv` writes it: by their headings, the columns "machine",
/// "order", "operation", "setup from" and, where there is one, "place"; more is not read, nor a
/// line of an order that is not in the plan. Each other line that is none is a problem with its
/// place.
Checked<std::vector<PostedRun>> read_posted(const Week& week, RowReader& table);

/// The posted plan as a dispatch order; what is new comes after it, first due first. The problem
/// learns what is posted where.
DispatchOrder posted_list(const Week& week, WeekProblem& problem,
                          const std::vector<PostedRun>& posted);

/// A plan as it would be posted.
std::vector<PostedRun> as_posted(const Week& week, const WeekProblem& problem, const Plan& plan);
/// The list of a plan of a like week, which is another problem: to begin a search from.
DispatchOrder list_like(const Week& week, WeekProblem problem, const std::vector<PostedRun>& plan);

}  // namespace turnwright
