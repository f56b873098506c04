// SPDX-License-Identifier: MIT
#pragma once
// The week as the planner reads it: hours first, then the plan, the orders, what is late and why.
#include <string>
#include <vector>

#include "turnwright/output/paper.hpp"
#include "turnwright/output/text.hpp"
#include "turnwright/week/actuals.hpp"
#include "turnwright/week/hours.hpp"
#include "turnwright/week/plan_week.hpp"
#include "turnwright/week/promise.hpp"

namespace turnwright {

/// What of a plan is shown: all of it, or so many weeks of seven days from the day of `now` on.
struct WeekShown {
  int weeks = 0;  // 0: all
};
/// With `why` also the score and its bound, with `full` what each operation needs.
std::string week_text(const Week& week, const WeekProblem& problem,
                      const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                      const Words& words, const TextOptions& options = {}, WeekShown shown = {});
std::string week_json(const Week& week, const WeekProblem& problem,
                      const std::vector<MachineLoad>& loads, const WeekPlan& plan);
/// One of two plans that are held against each other.
struct WeekSide {
  std::string name;
  const Week& week;
  const WeekProblem& problem;
  const WeekPlan& plan;
};
/// Sums of both, and the orders that are done at another time.
std::string weeks_text(const WeekSide& a, const WeekSide& b, const Words& words);
std::string weeks_json(const WeekSide& a, const WeekSide& b);
/// One page: hours as bars, machines against time, orders; no script, no network.
std::string week_page(const Week& week, const WeekProblem& problem,
                      const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                      const Words& words, WeekShown shown = {});
/// What is posted beside each machine, a page a machine and week, and what each person does.
paper::Paper week_lists_paper(const Week& week, const WeekProblem& problem,
                              const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                              const Words& words, WeekShown shown = {});
/// Load with live sums and a chart, orders, plan; throws CannotWrite.
void write_week_workbook(const Week& week, const WeekProblem& problem,
                         const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                         const Words& words, const std::string& path, WeekShown shown = {});
enum class CalendarEvents { orders, operations };
/// A calendar (RFC 5545): the dates on which orders are done, or what each machine does, with who
/// sets it up and attends it.
std::string week_calendar(const Week& week, const WeekProblem& problem,
                          const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                          const Words& words, CalendarEvents events = CalendarEvents::orders);
std::string promise_text(const Week& week, const Promise& promise, const Words& words);
std::string promise_json(const Week& week, const Promise& promise);
std::string actuals_text(const std::vector<Factor>& factors, const Bookings& bookings,
                         const std::vector<Repriced>& prices, const Words& words);
std::string actuals_json(const std::vector<Factor>& factors, const Bookings& bookings);
/// A line a piece of work: machine, order, times; and of each order that is not in the plan,
/// without a machine, with the reason.
std::string week_table(const Week& week, const WeekProblem& problem, const WeekPlan& plan);

}  // namespace turnwright
