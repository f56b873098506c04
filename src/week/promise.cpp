// SPDX-License-Identifier: MIT
#include "turnwright/week/promise.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "draws.hpp"
#include "reasons.hpp"
#include "turnwright/estimate/band.hpp"

namespace turnwright {

PlanProblem drawn(const WeekProblem& wp, std::uint64_t draw) {
  PlanProblem p = wp.problem;
  Draws draws(0x9E3779B97F4A7C15ULL * (draw + 1));
  for (const PlannedJob& job : p.jobs) {
    // What is wrong with an order's times is wrong with all of its operations: one draw an order,
    // on a triangle from low over the planned to high.
    const double by = on_triangle(draws.share());
    for (const int o : job.operations) {
      const double factor = 1 + wp.band[static_cast<std::size_t>(o)] * by;
      for (Choice& c : p.operations[static_cast<std::size_t>(o)].choices) {
        c.run = steps_up(c.run * factor);
        c.ready = steps_up(c.ready * factor);
      }
    }
  }
  return p;
}

namespace {

// Where the last job's work goes into the list: the place that is done first and makes no other
// order late, or later than it is.
DispatchOrder with_quote(const WeekProblem& wp, const DispatchOrder& list, const Plan& before) {
  const PlanProblem& p = wp.problem;
  const auto asked = static_cast<int>(p.jobs.size()) - 1;
  const auto& operations = p.jobs.back().operations;
  Decoder decoder(p);
  DispatchOrder best;
  Minute best_done = never;
  for (std::size_t machine = 0; machine < p.machines.size(); ++machine)
    for (std::size_t at = 0; at <= list.jobs.size(); ++at) {
      DispatchOrder tried = list;
      tried.choices.resize(p.operations.size(), 0);
      // All of it on this machine where that can be.
      for (const int i : operations) {
        const auto& choices = p.operations[static_cast<std::size_t>(i)].choices;
        for (std::size_t c = 0; c < choices.size(); ++c)
          if (choices[c].machine == static_cast<int>(machine))
            tried.choices[static_cast<std::size_t>(i)] = static_cast<int>(c);
      }
      tried.jobs.insert(tried.jobs.begin() + static_cast<std::ptrdiff_t>(at), operations.size(),
                        asked);
      const Plan plan = decoder.plan(tried);
      bool keeps = true;
      for (std::size_t j = 0; j + 1 < p.jobs.size() && keeps; ++j)
        keeps = plan.done[j] <= std::max(before.done[j], p.jobs[j].due);
      const Minute done = plan.done.back();
      const bool last_resort = best.jobs.empty() && machine == 0 && at == list.jobs.size();
      if (!(keeps && done < best_done) && !last_resort) continue;
      best = std::move(tried);
      if (keeps) best_done = done;
    }
  return best;
}

// When the quote is done, in each draw; the soonest first.
std::vector<Minute> drawn_dates(const WeekProblem& wp, const DispatchOrder& list) {
  std::vector<Minute> done;
  done.reserve(promise_draws);
  for (std::uint64_t i = 0; i < promise_draws; ++i) {
    const PlanProblem problem = drawn(wp, i);
    done.push_back(Decoder(problem).plan(list).done.back());
  }
  std::sort(done.begin(), done.end());
  return done;
}
Minute kept_in(const std::vector<Minute>& done, double share) {
  return done[static_cast<std::size_t>(std::ceil(share * promise_draws)) - 1];
}

// Overtime on the quote's machines on the first open day, the first two, the first four, and so on;
// of the dates that are a day sooner, the cheapest and the soonest.
std::vector<Sooner> dates_by_overtime(const Week& week, const WeekProblem& wp,
                                      const DispatchOrder& others, const Promise& promise,
                                      const std::set<int>& machines) {
  if (week.relief.most <= 0 || promise.planned == never) return {};
  WeekProblem more = wp;
  std::vector<std::pair<int, Minute>> added;  // by day
  std::vector<Sooner> found;
  Minute best = promise.p80;
  int tried = 1;
  const int last = std::min(promise.planned / minutes_a_day, week.days() - 1);
  for (int d = week.now / minutes_a_day, open = 0; d <= last; ++d) {
    Minute here = 0;
    for (const int m : machines) {
      const Calendar& calendar = more.problem.machines[static_cast<std::size_t>(m)].calendar;
      const Minute from = d * minutes_a_day, open_before = calendar.between(from, week.end());
      add_overtime(more.problem, {m, d, week.relief.most});
      here += calendar.between(from, week.end()) - open_before;
    }
    open += here > 0 ? 1 : 0;
    added.push_back({d, here});
    if (open < tried && d < last) continue;
    tried *= 2;
    Sooner now;
    const Plan plan = Decoder(without_last(more.problem)).plan(others);
    now.p80 = kept_in(drawn_dates(more, with_quote(more, others, plan)), 0.8);
    // What comes after the date does not count.
    for (const auto& [day, minutes] : added) {
      if (day > (now.p80 - 1) / minutes_a_day) break;
      now.until = (day + 1) * minutes_a_day;
      now.minutes += minutes;
    }
    now.cost = Number(now.minutes / 60.0) * (week.relief.overtime * (1.0 * unit::h));
    if ((now.p80 - 1) / minutes_a_day >= (best - 1) / minutes_a_day) continue;
    best = now.p80;
    if (found.size() == 2) found.pop_back();
    found.push_back(now);
  }
  return found;
}

}  // namespace

PlanProblem without_last(const PlanProblem& problem) {
  PlanProblem others = problem;
  others.operations.resize(others.operations.size() - others.jobs.back().operations.size());
  others.old_start.resize(std::min(others.old_start.size(), others.operations.size()));
  others.old_machine.resize(others.old_start.size());
  others.jobs.pop_back();
  return others;
}

Promise promise_of(const Week& week, const WeekProblem& wp, const DispatchOrder& list) {
  Promise promise;
  promise.order = wp.orders.back();
  // The week without the quote first: nobody's date moves for it.
  const PlanProblem others = without_last(wp.problem);
  promise.list = with_quote(wp, list, Decoder(others).plan(list));
  const Plan planned = Decoder(wp.problem).plan(promise.list);
  promise.planned = planned.done.back();
  const Reasons reasons(week, wp, planned);
  promise.chain = reasons.chain(wp.problem.jobs.size() - 1);
  promise.bottleneck = reasons.bottleneck(wp.problem.jobs.size() - 1);
  const std::vector<Minute> done = drawn_dates(wp, promise.list);
  promise.p50 = kept_in(done, 0.5);
  promise.p80 = kept_in(done, 0.8);
  promise.p95 = kept_in(done, 0.95);
  std::set<int> machines;
  for (const PlannedRun& run : planned.runs)
    if (wp.problem.operations[static_cast<std::size_t>(run.operation)].job + 1 ==
        static_cast<int>(wp.problem.jobs.size()))
      machines.insert(run.machine);
  for (const int m : machines)
    promise.machines.push_back(week.machines[static_cast<std::size_t>(m)].name);
  promise.sooner = dates_by_overtime(week, wp, list, promise, machines);
  return promise;
}

}  // namespace turnwright
