// SPDX-License-Identifier: MIT
#include "turnwright/week/plan_week.hpp"

#include <algorithm>
#include <utility>

#include "reasons.hpp"
#include "rescue.hpp"
#include "turnwright/quantity/in_parallel.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/search.hpp"
#include "with_reasons.hpp"

namespace turnwright {
namespace {

// Late orders for which it is looked for what would save them: a planner reads no more, and each
// takes a tenth of a second.
constexpr std::size_t most_tried = 40;

// What begins later than it is pinned to, and behind what on its machine.
Message pinned_later(const Week& week, const WeekProblem& wp, const Plan& plan,
                     const PlannedRun& run, Minute pinned) {
  Message later{"week.pinned-later",
                {{"work", work_name(week, wp, run.operation)},
                 {"pinned", moment_of(week, pinned)},
                 {"from", moment_of(week, run.setup_from)}}};
  for (const PlannedRun* before : runs_on(plan, run.machine))
    if (before->to > pinned && before->setup_from < run.setup_from) {
      later.id = "week.pinned-later-behind";
      later.places.push_back({"before", work_name(week, wp, before->operation)});
      later.places.push_back({"machine", week.machine(run.machine).name});
      later.places.push_back({"until", moment_of(week, before->to)});
      break;
    }
  return later;
}

}  // namespace

std::vector<Minute> beginnings(const PlanProblem& problem, const Plan& plan) {
  std::vector<Minute> begins(problem.lots.size(), never);
  for (const PlannedRun& run : plan.runs) {
    Minute& first = begins[static_cast<std::size_t>(problem.operation(run.operation).lot)];
    first = std::min(first, run.setup_from);
  }
  return begins;
}

WeekPlan with_reasons(const Week& week, const WeekProblem& wp, DispatchOrder order, int moves,
                      int threads) {
  WeekPlan out;
  out.list = std::move(order);
  out.plan = Decoder(wp.problem).plan(out.list);
  out.faults = faults_of(wp.problem, out.plan);
  out.bound = lateness_bound(wp.problem, out.plan.lateness);
  const Reasons reasons(week, wp, out.plan);
  out.gaps = reasons.gaps();
  for (const PlannedRun& run : out.plan.runs)
    if (const Minute pinned = wp.problem.operation(run.operation).pinned;
        pinned >= 0 && run.setup_from > pinned && run.to != never)
      out.gaps.push_back({pinned_later(week, wp, out.plan, run, pinned), pinned});
  for (std::size_t j = 0; j < wp.problem.lots.size(); ++j) {
    const double late = days_late(wp.problem.lots[j], out.plan.done[j]);
    if (late > 0) out.late.push_back({j, late, {}, {}});
  }
  std::stable_sort(out.late.begin(), out.late.end(),
                   [](const LateReason& a, const LateReason& b) { return a.days > b.days; });
  out.tried = std::min(out.late.size(), most_tried);
  in_parallel(out.late.size(), threads, [&](std::size_t i) {
    LateReason& reason = out.late[i];
    reason.chain = reasons.chain(reason.lot);
    if (i < out.tried) reason.trials = rescue_trials(week, wp, out, reason.lot);
  });
  out.relief = try_relief(week, wp.problem, out, moves, threads);
  return out;
}

InWork in_work(const PlanProblem& problem, const Plan& plan) {
  const std::vector<Minute> begins = beginnings(problem, plan);
  InWork found;
  Minute from = never, to = 0;
  int count = 0;
  double sum = 0;
  for (std::size_t j = 0; j < begins.size(); ++j) {
    if (begins[j] == never || plan.done[j] == never) continue;
    sum += plan.done[j] - begins[j];
    from = std::min(from, begins[j]);
    to = std::max(to, plan.done[j]);
    ++count;
  }
  if (count == 0 || to <= from) return found;
  found.days = static_cast<double>(to - from) / minutes_a_day;
  found.days_each = sum / count / minutes_a_day;
  found.orders = sum / (to - from);
  return found;
}

PlannedWork planned_work(const WeekProblem& wp, const Plan& plan) {
  PlannedWork work;
  const auto add = [&](WorkCost& sum, const Choice& choice, Minute setup) {
    sum.machine += static_cast<double>(setup + choice.run) * unit::min;
    sum.cost += work_of(choice, setup) * wp.day_late;
  };
  for (const PlannedRun& run : plan.runs) add(work.planned, choice_of(wp.problem, run), run.setup);
  for (const PlannedOperation& operation : wp.problem.operations) {
    const Choice& best = operation.choices[static_cast<std::size_t>(cheapest_choice(operation))];
    add(work.quoted, best, whole_setup(best));
  }
  return work;
}

WeekPlan plan_week(const Week& week, const WeekProblem& wp, int moves, int threads,
                   const std::vector<PostedRun>* like) {
  std::vector<DispatchOrder> lists = first_lists(wp.problem, threads);
  const SearchEffort effort{.moves = moves, .threads = threads};
  return with_reasons(week, wp,
                      like == nullptr ? search_on(wp.problem, lists, effort)
                                      : search_near(wp.problem, {list_like(week, wp, *like)},
                                                    std::move(lists), effort),
                      moves, threads);
}

}  // namespace turnwright
