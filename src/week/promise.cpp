// SPDX-License-Identifier: MIT
#include "turnwright/week/promise.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "draws.hpp"
#include "reasons.hpp"
#include "setup_items.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/week/decoder.hpp"

namespace turnwright {
namespace {

// All of the last lot's work at one place of the list, on this machine where that can be.
DispatchOrder with_asked_at(const PlanProblem& p, const DispatchOrder& list, std::size_t machine,
                            std::size_t at) {
  const auto asked = static_cast<int>(p.lots.size()) - 1;
  const auto& operations = p.lots.back().operations;
  DispatchOrder tried = list;
  tried.choices.resize(p.operations.size(), 0);
  for (const int i : operations) {
    const auto& choices = p.operation(i).choices;
    for (std::size_t c = 0; c < choices.size(); ++c)
      if (choices[c].machine == static_cast<int>(machine))
        tried.choices[static_cast<std::size_t>(i)] = static_cast<int>(c);
  }
  tried.lots.insert(tried.lots.begin() + static_cast<std::ptrdiff_t>(at), operations.size(), asked);
  return tried;
}

// No other lot is later than its date and than before.
bool keeps_dates(const PlanProblem& p, const Plan& plan, const Plan& before) {
  for (std::size_t j = 0; j + 1 < p.lots.size(); ++j)
    if (plan.done[j] > std::max(before.done[j], p.lots[j].due)) return false;
  return true;
}

// Where the last lot's work goes into the list: the place that is done first and makes no other lot
// late, or later than it is; behind what is frozen.
DispatchOrder with_quote(const PlanProblem& p, const DispatchOrder& list, const Plan& before) {
  Decoder decoder(p);
  DispatchOrder best;
  Minute best_done = never;
  for (std::size_t machine = 0; machine < p.machines.size(); ++machine)
    for (auto at = static_cast<std::size_t>(list.frozen); at <= list.lots.size(); ++at) {
      DispatchOrder tried = with_asked_at(p, list, machine, at);
      const Plan plan = decoder.plan(tried);
      const bool keeps = keeps_dates(p, plan, before);
      const Minute done = plan.done.back();
      const bool last_resort = best.lots.empty() && machine == 0 && at == list.lots.size();
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
Minute at_confidence(const std::vector<Minute>& done, double share) {
  return done[static_cast<std::size_t>(std::ceil(share * promise_draws)) - 1];
}
int last_day_of(Minute t) { return (t - 1) / minutes_a_day; }

// Overtime added day by day, and the date that it gives.
class OvertimeDates {
 public:
  OvertimeDates(const Week& week, const WeekProblem& wp, const DispatchOrder& others,
                const std::set<int>& machines)
      : week_(week), more_(wp), others_(others), machines_(machines) {}

  // On the first open day, the first two, the first four, and so on; of the dates that are a day
  // sooner, the cheapest and the soonest.
  std::vector<Sooner> sooner_than(const Promise& promise) {
    std::vector<Sooner> found;
    Minute best = promise.p80;
    int tried = 1;
    const int last = std::min(promise.planned / minutes_a_day, week_.days() - 1);
    for (int d = week_.now / minutes_a_day, open = 0; d <= last; ++d) {
      open += add_day(d) > 0 ? 1 : 0;
      if (open < tried && d < last) continue;
      tried *= 2;
      const Sooner now = date();
      // Overtime that comes after the date does not bring it about: it lets others catch up.
      if (now.until > now.p80 || last_day_of(now.p80) >= last_day_of(best)) continue;
      best = now.p80;
      if (found.size() == 2) found.pop_back();
      found.push_back(now);
    }
    return found;
  }

 private:
  // Minutes that are open longer.
  Minute add_day(int d) {
    Minute here = 0;
    for (const int m : machines_) {
      const Minute from = d * minutes_a_day, before = open_after(m, from);
      add_overtime(more_.problem, {m, d, week_.relief.most});
      here += open_after(m, from) - before;
    }
    added_.push_back({d, here});
    return here;
  }
  Minute open_after(int machine, Minute from) const {
    return more_.problem.calendar_of(machine).between(from, week_.end());
  }
  Sooner date() const {
    Sooner now;
    const Plan plan = Decoder(without_last(more_.problem)).plan(others_);
    now.p80 = at_confidence(drawn_dates(more_, with_quote(more_.problem, others_, plan)), 0.8);
    for (const auto& [day, minutes] : added_) {
      if (minutes > 0) now.until = (day + 1) * minutes_a_day;
      now.minutes += minutes;
    }
    now.cost = Number(now.minutes / 60.0) * (week_.relief.overtime * (1.0 * unit::h));
    return now;
  }

  const Week& week_;
  WeekProblem more_;
  const DispatchOrder& others_;
  const std::set<int>& machines_;
  std::vector<std::pair<int, Minute>> added_;  // by day
};

std::set<int> machines_of_last(const PlanProblem& problem, const Plan& plan) {
  std::set<int> machines;
  for (const PlannedRun& run : plan.runs)
    if (problem.operation(run.operation).lot + 1 == static_cast<int>(problem.lots.size()))
      machines.insert(run.machine);
  return machines;
}

}  // namespace

PlanProblem drawn(const WeekProblem& wp, std::uint64_t draw) {
  PlanProblem p = wp.problem;
  Draws draws(0x9E3779B97F4A7C15ULL * (draw + 1));
  const double all = wp.common.share * on_triangle(draws.share(), wp.common.upward);
  for (const PlannedLot& lot : p.lots) {
    // What is wrong with an order's times is wrong with all of its operations: one draw a lot, on a
    // triangle from low over the planned to high.
    const double by = on_triangle(draws.share());
    for (const int o : lot.operations) {
      const double factor = 1 + wp.band[static_cast<std::size_t>(o)] * by + all;
      for (Choice& c : p.operations[static_cast<std::size_t>(o)].choices) {
        c.run = steps_up(c.run * factor);
        c.setup = steps_up(c.setup * factor);
        c.proving = steps_up(c.proving * factor);
        for (SetupItem& item : c.items) item.minutes = whole_minutes(item.minutes * factor);
      }
    }
  }
  return p;
}

PlanProblem without_last(const PlanProblem& problem) {
  PlanProblem others = problem;
  others.operations.resize(others.operations.size() - others.lots.back().operations.size());
  others.old_start.resize(std::min(others.old_start.size(), others.operations.size()));
  others.old_machine.resize(others.old_start.size());
  others.lots.pop_back();
  return others;
}

Promise promise_of(const Week& week, const WeekProblem& wp, const DispatchOrder& list) {
  Promise promise;
  promise.order = wp.orders.back();
  // The week without the quote first: nobody's date moves for it.
  const PlanProblem others = without_last(wp.problem);
  promise.list = with_quote(wp.problem, list, Decoder(others).plan(list));
  const Plan planned = Decoder(wp.problem).plan(promise.list);
  promise.planned = planned.done.back();
  const Reasons reasons(week, wp, planned);
  promise.chain = reasons.chain(wp.problem.lots.size() - 1);
  promise.bottleneck = reasons.bottleneck(wp.problem.lots.size() - 1);
  const std::vector<Minute> done = drawn_dates(wp, promise.list);
  promise.p50 = at_confidence(done, 0.5);
  promise.p80 = at_confidence(done, 0.8);
  promise.p95 = at_confidence(done, 0.95);
  const std::set<int> machines = machines_of_last(wp.problem, planned);
  for (const int m : machines) promise.machines.push_back(week.machine(m).name);
  if (week.relief.most > 0 && promise.planned != never)
    promise.sooner = OvertimeDates(week, wp, list, machines).sooner_than(promise);
  return promise;
}

}  // namespace turnwright
