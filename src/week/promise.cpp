// SPDX-License-Identifier: MIT
#include "turnwright/week/promise.hpp"

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "reasons.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/week/search.hpp"

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
PlanList with_quote(const WeekProblem& wp, const PlanList& list, const Plan& before) {
  const PlanProblem& p = wp.problem;
  const auto asked = static_cast<int>(p.jobs.size()) - 1;
  const auto& operations = p.jobs.back().operations;
  Decoder decoder(p);
  PlanList best;
  Minute best_done = never;
  for (std::size_t machine = 0; machine < p.machines.size(); ++machine)
    for (std::size_t at = 0; at <= list.jobs.size(); ++at) {
      PlanList tried = list;
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

}  // namespace

Promise promise_of(const Week& week, const WeekProblem& wp, int moves, int threads) {
  Promise promise;
  promise.order = wp.orders.back();
  // The week without the quote first: nobody's date moves for it.
  PlanProblem others = wp.problem;
  others.operations.resize(others.operations.size() - others.jobs.back().operations.size());
  others.jobs.pop_back();
  const PlanList list =
      search(others, earliest_first(others), {.moves = moves, .threads = threads});
  promise.list = with_quote(wp, list, Decoder(others).plan(list));
  const Plan planned = Decoder(wp.problem).plan(promise.list);
  promise.planned = planned.done.back();
  const Reasons reasons(week, wp, planned);
  promise.chain = reasons.chain(wp.problem.jobs.size() - 1);
  promise.bottleneck = reasons.bottleneck(wp.problem.jobs.size() - 1);
  std::vector<Minute> done;
  done.reserve(promise_draws);
  for (std::uint64_t i = 0; i < promise_draws; ++i) {
    const PlanProblem problem = drawn(wp, i);
    done.push_back(Decoder(problem).plan(promise.list).done.back());
  }
  std::sort(done.begin(), done.end());
  auto at = [&](double share) {
    return done[static_cast<std::size_t>(std::ceil(share * promise_draws)) - 1];
  };
  promise.p50 = at(0.5);
  promise.p80 = at(0.8);
  promise.p95 = at(0.95);
  return promise;
}

}  // namespace turnwright
