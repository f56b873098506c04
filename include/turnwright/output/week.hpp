// SPDX-License-Identifier: MIT
#pragma once
// The week as the planner reads it: hours first, then the plan, the orders, what is late and why.
#include <string>
#include <vector>

#include "turnwright/week/actuals.hpp"
#include "turnwright/week/hours.hpp"
#include "turnwright/week/plan_week.hpp"
#include "turnwright/week/promise.hpp"

namespace turnwright {

std::string week_text(const Week& week, const WeekProblem& problem, const std::vector<Load>& loads,
                      const WeekPlan& plan);
std::string week_json(const Week& week, const WeekProblem& problem, const std::vector<Load>& loads,
                      const WeekPlan& plan);
/// One page: hours as bars, machines against time, orders; no script, no network.
std::string week_page(const Week& week, const WeekProblem& problem, const std::vector<Load>& loads,
                      const WeekPlan& plan);
/// Load with live sums and a chart, orders, plan; throws CannotWrite.
void write_week_workbook(const Week& week, const WeekProblem& problem,
                         const std::vector<Load>& loads, const WeekPlan& plan,
                         const std::string& path);
/// The dates on which orders are done, as a calendar (RFC 5545).
std::string week_calendar(const Week& week, const WeekProblem& problem, const WeekPlan& plan);
std::string promise_text(const Week& week, const Promise& promise);
std::string promise_json(const Week& week, const Promise& promise);
/// An order's price each before and after the corrections.
struct Repriced {
  std::string order;
  Money before, after;
};
std::string actuals_text(const std::vector<Factor>& factors, const Bookings& bookings,
                         const std::vector<Repriced>& prices);
std::string actuals_json(const std::vector<Factor>& factors, const Bookings& bookings);
/// A line a piece of work: machine, order, times.
std::string week_table(const Week& week, const WeekProblem& problem, const WeekPlan& plan);

}  // namespace turnwright
