// SPDX-License-Identifier: MIT
#include "view/week_view.hpp"

#include <cmath>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr double worth_a_word = 0.05;  // hours

LoadView view_of(const Week& week, const MachineLoad& load) {
  LoadView view;
  view.load = &load;
  view.required = load.sum_required();
  view.available = load.sum_available();
  view.share = view.available > 0 ? view.required / view.available : 0;
  view.overloaded = view.required > view.available;
  view.quoted = load.quoted > worth_a_word;
  for (std::size_t d = 0; d < load.required.size(); ++d) {
    const bool over = load.required[d] > load.available[d] + worth_a_word;
    view.overloaded_on.push_back(over);
    if (over)
      view.days.push_back(
          {days_after(week.from, static_cast<int>(d)), load.required[d], load.available[d]});
  }
  return view;
}

OrderView view_of(const Week& week, const WeekProblem& problem, const Plan& plan, std::size_t lot) {
  OrderView view;
  view.lot = lot;
  view.order = &week.orders[problem.orders[lot]];
  view.name = lot_name(week, problem, lot);
  view.pieces = lot_pieces(week, problem, lot);
  view.done = plan.done[lot];
  view.fits = view.done != never;
  const Minute due = problem.problem.lots[lot].due;
  view.late = !view.fits || view.done > due;
  view.late_by = view.late && view.fits ? view.done - due : 0;
  view.quoted = view.order->state == OrderState::quoted;
  return view;
}

std::vector<RunView> runs_of(const Week& week, const WeekProblem& problem, const Plan& plan,
                             const std::vector<OrderView>& orders, int machine) {
  std::vector<RunView> views;
  for (const PlannedRun* run : runs_on(plan, machine)) {
    const std::size_t lot = lot_of(problem, run->operation);
    views.push_back(
        {run, work_name(week, problem, run->operation), lot, orders[lot].late, orders[lot].quoted});
  }
  return views;
}

std::string two(int n) { return (n < 10 ? "0" : "") + std::to_string(n); }

}  // namespace

WeekView view_of(const Week& week, const WeekProblem& problem,
                 const std::vector<MachineLoad>& loads, const WeekPlan& plan) {
  WeekView view;
  for (const MachineLoad& load : loads) view.loads.push_back(view_of(week, load));
  for (std::size_t lot = 0; lot < problem.orders.size(); ++lot)
    view.orders.push_back(view_of(week, problem, plan.plan, lot));
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    view.runs.push_back(runs_of(week, problem, plan.plan, view.orders, static_cast<int>(m)));
  view.setup = static_cast<double>(plan.plan.setup) * unit::min;
  view.in_work = in_work(problem.problem, plan.plan);
  return view;
}

std::string clock_text(Minute t) {
  return two(t % minutes_a_day / 60) + ":" + two(t % minutes_a_day % 60);
}

Message moment(const Week& week, Minute t) {
  // Midnight is the end of a day, not the beginning of one.
  const bool end = t > 0 && t % minutes_a_day == 0;
  return {"weekpage.moment",
          {{"day", day_of_week(week, end ? t / minutes_a_day - 1 : t / minutes_a_day)},
           {"clock", end ? "24:00" : clock_text(t)}}};
}

Message day_of_week(Date day) {
  const std::chrono::weekday weekday{std::chrono::sys_days(day)};
  return {
      "weekpage.day",
      {{"weekday", Message("weekpage.weekday-" + std::to_string(weekday.iso_encoding()))},
       {"day", static_cast<int>(static_cast<unsigned>(day.day()))},
       {"month", Message("weekpage.month-" + std::to_string(static_cast<unsigned>(day.month())))}}};
}
Message day_of_week(const Week& week, int day) { return day_of_week(days_after(week.from, day)); }

Message lateness(Minute late) {
  if (late < minutes_a_day)
    return {"weekpage.late-hours", {{"hours", Figure{std::round(late / 6.0) / 10, 3}}}};
  const double days = std::round(10.0 * late / minutes_a_day) / 10;
  if (days == 1) return "weekpage.late-a-day";
  return {"weekpage.late-days", {{"days", Figure{days, 3}}}};
}

FactorView view_of(const Factor& factor) {
  FactorView view;
  view.factor = &factor;
  for (const BookedRatio& order : factor.orders)
    (order.outlier ? view.outliers : view.used).push_back(&order);
  return view;
}

}  // namespace turnwright
