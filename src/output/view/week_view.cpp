// SPDX-License-Identifier: MIT
#include "view/week_view.hpp"

#include "formatting.hpp"
#include "view/week_people.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace turnwright {
namespace {

constexpr double worth_a_word = 0.05;  // hours

LoadView view_of(const Week& week, const MachineLoad& load) {
  LoadView view;
  view.load = &load;
  view.required = load.sum_required();
  view.available = load.sum_available();
  view.share = view.available > 0 ? view.required / view.available : 0;
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
  view.name = lot_title(week, problem, lot);
  view.pieces = lot_pieces(week, problem, lot);
  view.done = plan.done[lot];
  view.fits = view.done != never;
  const PlannedLot& planned = problem.problem.lots[lot];
  view.late = !view.fits || view.done > planned.due;
  view.lateness = late_by(planned, view.done);
  view.quoted = view.order->state == OrderState::quoted;
  return view;
}

std::vector<RunView> runs_of(const Week& week, const WeekProblem& problem, const Plan& plan,
                             const std::vector<OrderView>& orders, int machine) {
  std::vector<RunView> views;
  for (const PlannedRun* run : runs_on(plan, machine)) {
    const std::size_t lot = lot_of(problem, run->operation);
    views.push_back({run,
                     work_name(week, problem, run->operation),
                     lot,
                     orders[lot].late,
                     orders[lot].quoted,
                     {}});
  }
  return views;
}

// The same hours on one working day after the other are one line.
struct OvertimeRun {
  Overtime first;
  int last = 0;  // its day
};

bool follows(const Week& week, const OvertimeRun& run, const Overtime& next) {
  return run.first.machine == next.machine && run.first.minutes == next.minutes &&
         run.last < next.day &&
         week.machine(next.machine)
                 .open.between((run.last + 1) * minutes_a_day, next.day * minutes_a_day) == 0;
}

std::vector<OvertimeRun> overtime_runs(const Week& week, std::vector<Overtime> list) {
  std::sort(list.begin(), list.end(), [](const Overtime& a, const Overtime& b) {
    return std::tie(a.machine, a.day) < std::tie(b.machine, b.day);
  });
  std::vector<OvertimeRun> runs;
  for (const Overtime& o : list)
    if (!runs.empty() && follows(week, runs.back(), o))
      runs.back().last = o.day;
    else
      runs.push_back({o, o.day});
  return runs;
}

}  // namespace

std::vector<OutsideView> outside_of(const WeekProblem& problem, const Plan& plan) {
  std::vector<OutsideView> found;
  for (const PlannedRun& run : plan.runs) {
    const auto outside = problem.outside.find(run.operation);
    if (run.to == never || outside == problem.outside.end()) continue;
    const int days = problem.problem.operation(run.operation).days_after;
    found.push_back({lot_of(problem, run.operation),
                     problem.names[static_cast<std::size_t>(run.operation)].operation,
                     outside->second, run.to, back_after(problem.problem, run.to, days)});
  }
  std::stable_sort(found.begin(), found.end(), [](const OutsideView& a, const OutsideView& b) {
    return std::tie(a.out, a.lot) < std::tie(b.out, b.lot);
  });
  return found;
}

WeekView view_of(const Week& week, const WeekProblem& problem,
                 const std::vector<MachineLoad>& loads, const WeekPlan& plan) {
  WeekView view;
  for (const MachineLoad& load : loads) view.loads.push_back(view_of(week, load));
  for (std::size_t lot = 0; lot < problem.orders.size(); ++lot)
    view.orders.push_back(view_of(week, problem, plan.plan, lot));
  for (const OrderView& order : view.orders) view.due_out.push_back(&order);
  std::stable_sort(
      view.due_out.begin(), view.due_out.end(),
      [](const OrderView* a, const OrderView* b) { return a->order->due < b->order->due; });
  view.outside = outside_of(problem, plan.plan);
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    view.runs.push_back(runs_of(week, problem, plan.plan, view.orders, static_cast<int>(m)));
  view.setup = static_cast<double>(plan.plan.setup) * unit::min;
  view.in_work = in_work(problem.problem, plan.plan);
  view.work = planned_work(problem, plan.plan);
  if (week.people_by_name()) put_people(week, problem, plan.plan, view);
  return view;
}

Message work_summary(const PlannedWork& work, const Words& words) {
  return {"weekpage.work-cost",
          {{"hours", hours_text(work.planned.machine, words)},
           {"cost", rounded(work.planned.cost)},
           {"quoted", hours_text(work.quoted.machine, words)},
           {"price", rounded(work.quoted.cost)}}};
}

Messages outside_lines(const Week& week, const WeekView& view) {
  Messages lines;
  for (const OutsideView& v : view.outside) {
    Messages what;
    for (const std::string& name : v.what) what.push_back(verbatim(name));
    std::vector<Place> places{{"out", moment_of(week, v.out)},
                              {"order", view.orders[v.lot].name},
                              {"what", std::move(what)},
                              {"n", view.orders[v.lot].pieces}};
    if (v.back != never) places.push_back({"back", day_of(week.ending_on(v.back))});
    lines.push_back(
        {v.back != never ? "weekpage.sent-out" : "weekpage.sent-out-beyond", std::move(places)});
  }
  return lines;
}

Messages held_orders(const Week& week) {
  Messages lines;
  for (const WeekOrder& o : week.orders)
    if (!o.hold.empty())
      lines.push_back({"weekpage.held-order", {{"order", o.number}, {"why", o.hold}}});
  return lines;
}

Message relief_summary(const ReliefTried& tried) {
  if (tried.late == 0)
    return {"weekpage.relief-all", {{"cost", rounded(tried.relief.cost)}, {"n", tried.before}}};
  return {"weekpage.relief",
          {{"cost", rounded(tried.relief.cost)}, {"n", tried.before}, {"late", tried.late}}};
}

Messages proposed_changes(const Week& week, const WeekProblem& problem, const Relief& relief) {
  Messages changes;
  for (const OvertimeRun& run : overtime_runs(week, relief.overtime)) {
    const Overtime& o = run.first;
    std::vector<Place> places{{"machine", week.machine(o.machine).name},
                              {"day", day_of(days_after(week.from, o.day))},
                              {"hours", Figure{std::round(o.minutes / 6.0) / 10, 3}}};
    if (run.last > o.day) places.emplace_back("to", day_of(days_after(week.from, run.last)));
    changes.push_back(
        {run.last > o.day ? "weekpage.overtime-daily" : "weekpage.overtime", std::move(places)});
  }
  for (const std::size_t lot : relief.subcontracted)
    changes.push_back({"weekpage.to-another-firm", {{"order", lot_title(week, problem, lot)}}});
  return changes;
}

FactorView view_of(const Factor& factor) {
  FactorView view;
  view.factor = &factor;
  for (const BookedRatio& order : factor.orders)
    (order.outlier ? view.outliers : view.used).push_back(&order);
  return view;
}

}  // namespace turnwright
