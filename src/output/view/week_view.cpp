// SPDX-License-Identifier: MIT
#include "view/week_view.hpp"

#include <cmath>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr double worth_a_word = 0.05;  // hours

LoadView view_of(const Week& week, const Load& load) {
  LoadView view;
  view.load = &load;
  view.required = load.sum_needed();
  view.available = load.sum_there();
  view.share = view.available > 0 ? view.required / view.available : 0;
  view.overloaded = view.required > view.available;
  view.quoted = load.quoted > worth_a_word;
  for (std::size_t d = 0; d < load.needed.size(); ++d) {
    const bool over = load.needed[d] > load.there[d] + worth_a_word;
    view.overloaded_on.push_back(over);
    if (over)
      view.days.push_back(
          {days_after(week.from, static_cast<int>(d)), load.needed[d], load.there[d]});
  }
  return view;
}

OrderView view_of(const Week& week, const WeekProblem& problem, const Plan& plan, std::size_t job) {
  OrderView view;
  view.job = job;
  view.order = &week.orders[problem.orders[job]];
  view.name = job_name(week, problem, job);
  view.pieces = job_pieces(week, problem, job);
  view.done = plan.done[job];
  view.fits = view.done != never;
  const Minute due = problem.problem.jobs[job].due;
  view.late = !view.fits || view.done > due;
  view.late_by = view.late && view.fits ? view.done - due : 0;
  view.quoted = view.order->state == OrderState::quoted;
  return view;
}

std::vector<RunView> runs_of(const Week& week, const WeekProblem& problem, const Plan& plan,
                             const std::vector<OrderView>& orders, int machine) {
  std::vector<RunView> views;
  for (const PlannedRun* run : runs_on(plan, machine)) {
    const std::size_t job = job_of(problem, run->operation);
    views.push_back(
        {run, work_name(week, problem, run->operation), job, orders[job].late, orders[job].quoted});
  }
  return views;
}

std::string two(int n) { return (n < 10 ? "0" : "") + std::to_string(n); }

}  // namespace

WeekView view_of(const Week& week, const WeekProblem& problem, const std::vector<Load>& loads,
                 const WeekPlan& plan) {
  WeekView view;
  for (const Load& load : loads) view.loads.push_back(view_of(week, load));
  for (std::size_t job = 0; job < problem.orders.size(); ++job)
    view.orders.push_back(view_of(week, problem, plan.plan, job));
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    view.runs.push_back(runs_of(week, problem, plan.plan, view.orders, static_cast<int>(m)));
  view.setup = static_cast<double>(plan.plan.ready) * unit::min;
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
