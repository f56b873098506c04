// SPDX-License-Identifier: MIT
#pragma once
// From the orders of a week to its plan: each part planned and costed on every machine of the week.
// What a program calls, in this order:
//   read_week, unknown_machines           (problems: the week cannot be used)
//   read_posted                           (where a plan is posted)
//   planned_week                          or promise_for, put_delivery_weeks, booked_ratios
// The disk stays with the caller: a part file is asked for through `PartReader`.
#include <functional>
#include <vector>

#include "turnwright/estimate/band.hpp"
#include "turnwright/week/hours.hpp"
#include "turnwright/week/plan_week.hpp"

namespace turnwright {

/// The part of an order, by the path that the week file gives; or the problems of its file, or that
/// there is none (`problem_in` has the place). Asked for each order, and again for each date: what
/// takes long to read the caller keeps.
using PartReader = std::function<Checked<Part>(const Week& week, const WeekOrder& order)>;

/// What plans are made with beside the week.
struct Planning {
  const Shop& shop;
  PartReader part;
  const std::vector<PostedRun>* posted = nullptr;  // null: everything is planned anew
  int threads = 1;                                 // changes no plan
  double effort = 1;                               // of the usual moves of the search
  // A plan of a like week: nothing becomes other than in it without a gain; null: none.
  const std::vector<PostedRun>* like = nullptr;
};

/// Machines of the week that the shop has not.
Problems unknown_machines(const Week& week, const Shop& shop);

struct RoutedOrders {
  std::vector<OrderRoutes> routes;   // of the orders that can be made, in their order
  Problems problems;                 // of all others
  std::vector<std::size_t> refused;  // these, of the week
  std::vector<LeftOut> left_out;     // each with its reasons
};
RoutedOrders route_orders(const Week& week, const Shop& shop, const PartReader& part);

/// How far the times of a lot may be off, beside what all times of the shop are off by together:
/// the bands of the rows that are times, by what they weigh in its cost.
double time_band(const std::vector<BandRow>& rows);

/// A week from orders to plan.
struct PlannedWeek {
  WeekProblem problem;
  std::vector<MachineLoad> loads;
  WeekPlan plan;
  Problems doubts;                   // of what is booked, which the plan takes as well as it can
  Problems problems;                 // of orders that are not in the plan
  std::vector<std::size_t> refused;  // these, of the week
  int orders = 0;                    // that are in it; 0: there is nothing to plan, and no plan

  /// Every order is in it, whole and on time, and no machine overloaded.
  bool holds() const;
};
PlannedWeek planned_week(const Week& week, const Planning& planning);

}  // namespace turnwright
