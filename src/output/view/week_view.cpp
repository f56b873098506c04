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

LoadView load_view(const Week& week, const MachineLoad& load, std::vector<double> planned_on,
                   const DaysOfWeek& shown) {
  LoadView view;
  view.load = &load;
  view.planned_on = std::move(planned_on);
  const bool all = shown.days() == week.days();
  view.quoted = all && load.quoted > worth_a_word;
  for (std::size_t d = 0; d < load.required.size(); ++d) {
    const bool over = load.required[d] > load.available[d] + worth_a_word;
    view.overloaded_on.push_back(over);
    if (!shown.has(static_cast<int>(d))) continue;
    view.required += load.required[d];
    view.available += load.available[d];
    view.planned += view.planned_on[d];
    if (over)
      view.days.push_back(
          {days_after(week.from, static_cast<int>(d)), load.required[d], load.available[d]});
  }
  view.share = view.available > 0 ? view.required / view.available : 0;
  return view;
}

// From the day of now on.
DaysOfWeek shown_days(const Week& week, WeekShown shown) {
  constexpr int days_a_week = 7;
  const int last = week.days() - 1;
  if (shown.weeks == 0) return {0, last};
  const int first = std::min(week.now / minutes_a_day, last);
  // What is more than the week has is no number of weeks to multiply.
  return {first, std::min(last, first + days_a_week * std::min(shown.weeks, week.days()) - 1)};
}

// The last of those days on which a machine is open.
int last_open_day(const Week& week, const DaysOfWeek& shown) {
  for (int d = shown.last; d > shown.first; --d)
    for (const WeekMachine& machine : week.machines)
      if (machine.open.between(d * minutes_a_day, (d + 1) * minutes_a_day) > 0) return d;
  return shown.last;
}

// Due or done by then, or not done in time for it.
bool is_shown(const Week& week, const OrderView& order, const DaysOfWeek& shown) {
  return days_between(week.from, order.order->due) <= shown.last ||
         (order.fits && order.done <= shown.to());
}

OrderView order_view(const Week& week, const WeekProblem& problem, const Plan& plan,
                     std::size_t lot) {
  OrderView view;
  view.lot = lot;
  view.order = &week.orders[problem.orders[lot]];
  view.name = lot_title(week, problem, lot);
  view.pieces = lot_pieces(week, problem, lot);
  view.short_by = short_by(week, problem, lot);
  view.done = plan.done[lot];
  view.fits = view.done != never;
  const PlannedLot& planned = problem.problem.lots[lot];
  view.late = !view.fits || view.done > planned.due;
  view.lateness = late_by(planned, view.done);
  view.quoted = view.order->state == OrderState::quoted;
  return view;
}

// How long each is in work, and what it waits for.
void put_flow(const PlanProblem& problem, const Plan& plan, std::vector<OrderView>& orders) {
  const std::vector<Minute> begins = beginnings(problem, plan);
  const std::vector<Waiting> waits = waiting_by_lot(problem, plan);
  for (OrderView& order : orders) {
    order.begins = begins[order.lot];
    order.waiting = waits[order.lot];
    if (order.fits && order.begins != never)
      order.days_in_work = (order.done - order.begins) / static_cast<double>(minutes_a_day);
  }
}

std::vector<RunView> runs_of(const Week& week, const WeekProblem& problem, const Plan& plan,
                             const WeekView& view, int machine) {
  std::vector<RunView> views;
  const std::vector<OrderView>& orders = view.orders;
  for (const PlannedRun* run : runs_on(plan, machine)) {
    if (!view.shown.has({run->setup_from, run->to})) continue;
    const std::size_t lot = lot_of(problem, run->operation);
    const Message name = work_name(week, problem, run->operation);
    views.push_back({run,
                     name,
                     orders[lot].quoted ? only_quoted(name) : name,
                     lot,
                     orders[lot].late,
                     orders[lot].quoted,
                     {}});
  }
  return views;
}

std::vector<const PlannedRun*> all_runs(const Plan& plan) {
  std::vector<const PlannedRun*> runs;
  for (const PlannedRun& run : plan.runs) runs.push_back(&run);
  return runs;
}

std::vector<Downtime> downtimes(const Week& week, const WeekMachine& machine,
                                const DaysOfWeek& shown) {
  std::vector<Downtime> found;
  for (const Downtime& down : machine.down)
    if (down.span.to > week.now && shown.has(down.span)) found.push_back(down);
  return found;
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

std::vector<DaysOfWeek> calendar_weeks(const Week& week, const DaysOfWeek& shown) {
  std::vector<DaysOfWeek> weeks;
  for (int d = shown.first; d <= shown.last; ++d) {
    const bool monday = weekday_number(days_after(week.from, d)) == 0;
    if (weeks.empty() || monday) weeks.push_back({d, d});
    weeks.back().last = d;
  }
  return weeks;
}

std::vector<OutsideView> outside_of(const Week& week, const WeekProblem& problem,
                                    const Plan& plan) {
  std::vector<OutsideView> found;
  for (const SentOut& out : problem.out) {
    const std::string& order = week.orders[out.order].number;
    found.push_back(
        {order, verbatim(order), 0, out.pieces, out.operation, out.what, out.from, out.back});
  }
  for (const PlannedRun& run : plan.runs) {
    const auto outside = problem.outside.find(run.operation);
    if (run.to == never || outside == problem.outside.end()) continue;
    const int days = problem.problem.operation(run.operation).days_after;
    const std::size_t lot = lot_of(problem, run.operation);
    found.push_back({lot_name(week, problem, lot), lot_title(week, problem, lot), lot,
                     lot_pieces(week, problem, lot),
                     problem.names[static_cast<std::size_t>(run.operation)].operation,
                     outside->second, run.to, back_after(problem.problem, run.to, days)});
  }
  std::stable_sort(found.begin(), found.end(), [](const OutsideView& a, const OutsideView& b) {
    return std::tie(a.out, a.lot) < std::tie(b.out, b.lot);
  });
  return found;
}

WeekView view_of(const Week& week, const WeekProblem& problem,
                 const std::vector<MachineLoad>& loads, const WeekPlan& plan, WeekShown shown) {
  WeekView view;
  view.shown = shown_days(week, shown);
  std::vector<std::vector<double>> planned = planned_load(week, problem, plan.plan);
  for (std::size_t i = 0; i < loads.size(); ++i)
    view.loads.push_back(load_view(week, loads[i], std::move(planned[i]), view.shown));
  for (std::size_t lot = 0; lot < problem.orders.size(); ++lot)
    view.orders.push_back(order_view(week, problem, plan.plan, lot));
  put_flow(problem.problem, plan.plan, view.orders);
  for (OrderView& order : view.orders) {
    order.shown = is_shown(week, order, view.shown);
    if (order.shown) view.due_out.push_back(&order);
  }
  std::stable_sort(
      view.due_out.begin(), view.due_out.end(),
      [](const OrderView* a, const OrderView* b) { return a->order->due < b->order->due; });
  view.outside = outside_of(week, problem, plan.plan);
  std::erase_if(view.outside, [&](const OutsideView& v) {
    return !view.shown.has({v.out, v.back});
  });
  for (std::size_t m = 0; m < week.machines.size(); ++m) {
    view.runs.push_back(runs_of(week, problem, plan.plan, view, static_cast<int>(m)));
    view.down.push_back(downtimes(week, week.machines[m], view.shown));
  }
  view.beyond = beyond_line(week, view.shown, all_runs(plan.plan));
  view.setup = static_cast<double>(plan.plan.setup) * unit::min;
  view.in_work = in_work(problem.problem, plan.plan);
  view.work = planned_work(problem, plan.plan);
  if (week.people_by_name()) put_people(week, problem, plan.plan, view);
  return view;
}

Messages changes_of(const WeekPlan& plan) {
  if (!plan.changes) return {};
  return plan.changes->empty() ? Messages{"weekpage.no-changes"} : *plan.changes;
}

Message only_quoted(const Message& what) { return {"weekpage.only-quoted", {{"what", what}}}; }

Messages gap_lines(const WeekPlan& plan, const WeekView& view) {
  Messages lines;
  for (const Gap& gap : plan.gaps)
    if (gap.from < view.shown.to()) lines.push_back(gap.says);
  return lines;
}

Message title_of(const Week& week, const DaysOfWeek& days) {
  return {"weekpage.title",
          {{"from", days_after(week.from, days.first)}, {"to", days_after(week.from, days.last)}}};
}

Message beyond_line(const Week& week, const DaysOfWeek& shown,
                    const std::vector<const PlannedRun*>& runs) {
  const auto n = std::count_if(runs.begin(), runs.end(), [&](const PlannedRun* run) {
    return run->to != never && run->setup_from >= shown.to();
  });
  if (n == 0) return {};
  return {"weekpage.beyond",
          {{"n", static_cast<int>(n)},
           {"day", day_of(days_after(week.from, last_open_day(week, shown)))}}};
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
    std::vector<Place> places{{"out", moment_of(week, v.out)},
                              {"order", v.name},
                              {"what", verbatims(v.what)},
                              {"n", v.pieces}};
    if (v.back != never) places.push_back({"back", day_of(week.ending_on(v.back))});
    lines.push_back(
        {v.back != never ? "weekpage.sent-out" : "weekpage.sent-out-beyond", std::move(places)});
  }
  return lines;
}

Message late_not_tried(const WeekPlan& plan) {
  if (plan.tried == plan.late.size()) return {};
  return {"weekpage.not-tried", {{"tried", plan.tried}, {"n", plan.late.size() - plan.tried}}};
}

Messages short_orders(const Week& week, const WeekProblem& problem) {
  Messages lines;
  for (const ShortOrder& s : problem.shorts) {
    const WeekOrder& o = week.orders[s.order];
    lines.push_back({"weekpage.short-order",
                     {{"order", o.number},
                      {"there", s.good},
                      {"quantity", o.quantity},
                      {"n", o.quantity - s.good}}});
  }
  return lines;
}

Messages reasons_of(const LeftOut& left) {
  Messages lines;
  for (const Message& why : left.why) {
    lines.push_back(left.named || left.order.empty()
                        ? why
                        : Message{"weekpage.refused-order", {{"order", left.order}, {"why", why}}});
  }
  return lines;
}

Messages not_planned(const WeekProblem& problem) {
  Messages lines;
  for (const LeftOut& left : problem.left_out)
    for (Message& line : reasons_of(left)) lines.push_back(std::move(line));
  return lines;
}

std::vector<LeftOut> all_left_out(const Week& week, const WeekProblem& problem) {
  std::vector<LeftOut> all = problem.left_out;
  for (const WeekOrder& o : week.orders)
    if (!o.hold.empty()) all.push_back({o.number, o.due, {verbatim(o.hold)}, false});
  return all;
}

Messages held_orders(const Week& week) {
  Messages lines;
  for (const WeekOrder& o : week.orders)
    if (!o.hold.empty())
      lines.push_back({"weekpage.held-order", {{"order", o.number}, {"why", o.hold}}});
  return lines;
}

Message relief_summary(const ReliefTried& tried) {
  const int before = tried.before();
  if (tried.late() == 0)
    return {"weekpage.relief-all", {{"cost", rounded(tried.relief.cost)}, {"n", before}}};
  const auto saved =
      std::count_if(tried.lots.begin(), tried.lots.end(),
                    [](const LotRelieved& lot) { return lot.was_late && !lot.late; });
  return {
      "weekpage.relief",
      {{"cost", rounded(tried.relief.cost)}, {"n", before}, {"saved", static_cast<int>(saved)}}};
}

Messages relieved_orders(const Week& week, const WeekProblem& problem, const ReliefTried& tried) {
  Messages lines;
  for (const LotRelieved& lot : tried.lots) {
    std::vector<Place> places{{"order", lot_title(week, problem, lot.lot)},
                              {"late", late_by(problem.problem.lots[lot.lot], lot.done)}};
    if (lot.done == never) {
      lines.push_back({"weekpage.relieved-beyond", std::move(places)});
      continue;
    }
    places.push_back({"done", moment_of(week, lot.done)});
    lines.push_back(
        {lot.was_late ? "weekpage.relieved" : "weekpage.relieved-later", std::move(places)});
  }
  return lines;
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
