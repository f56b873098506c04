// SPDX-License-Identifier: MIT
#include "turnwright/week/hours.hpp"

#include <algorithm>
#include <numeric>

namespace turnwright {
namespace {

double hours(Minute m) { return m / 60.0; }

Minute all_ready(const Choice& c) {
  Minute ready = c.ready;
  for (const ReadyPart& part : c.parts) ready += part.minutes;
  return ready;
}
// Of the machines that can do it, the one that is then the least loaded.
const Choice& lightest(const PlannedOperation& operation, const std::vector<Load>& loads) {
  const Choice* best = &operation.choices.front();
  double least = 1e300;
  for (const Choice& c : operation.choices) {
    const Load& load = loads[static_cast<std::size_t>(c.machine)];
    const double there = load.sum_there();
    if (there <= 0) continue;
    const double share = (load.sum_needed() + hours(all_ready(c) + c.run)) / there;
    if (share >= least) continue;
    least = share;
    best = &c;
  }
  return *best;
}

}  // namespace

double Load::sum_needed() const { return std::accumulate(needed.begin(), needed.end(), 0.0); }
double Load::sum_there() const { return std::accumulate(there.begin(), there.end(), 0.0); }

std::vector<Load> infinite_load(const Week& week, const WeekProblem& wp) {
  const auto days = static_cast<std::size_t>(week.days());
  std::vector<Load> loads;
  for (const WeekMachine& m : week.machines) {
    Load load{m.name, false, std::vector<double>(days), std::vector<double>(days), 0};
    for (std::size_t d = 0; d < days; ++d) {
      const auto from = static_cast<Minute>(d) * minutes_a_day;
      load.there[d] = m.rated() * hours(m.open.between(from, from + minutes_a_day));
    }
    loads.push_back(std::move(load));
  }
  Load people{"people", true, std::vector<double>(days), std::vector<double>(days), 0};
  for (const Person& p : week.people)
    for (std::size_t d = 0; d < days; ++d) {
      const auto from = static_cast<Minute>(d) * minutes_a_day;
      people.there[d] += hours(p.there.between(from, from + minutes_a_day));
    }
  for (std::size_t j = 0; j < wp.problem.jobs.size(); ++j) {
    const Order& order = week.orders[wp.orders[j]];
    const double share = order.state == OrderState::quoted ? order.probability : 1;
    const auto& operations = wp.problem.jobs[j].operations;
    auto last = static_cast<int>(
        std::clamp<Minute>(wp.problem.jobs[j].due / minutes_a_day - 1, 0, week.days() - 1));
    // Backwards from the due date: each operation on the last days that are open before the next.
    for (auto o = operations.rbegin(); o != operations.rend(); ++o) {
      const PlannedOperation& operation = wp.problem.operations[static_cast<std::size_t>(*o)];
      last -= operation.days_after;
      const Choice& c = lightest(operation, loads);
      Load& load = loads[static_cast<std::size_t>(c.machine)];
      const Minute ready = all_ready(c);
      const double rated = week.machines[static_cast<std::size_t>(c.machine)].rated();
      double left = rated * hours(ready + c.run);
      const double attended =
          left > 0 ? (hours(ready) + hours(c.run) * c.attended / 1000) / left : 0;  // open hours
      load.quoted += order.state == OrderState::quoted ? left * share : 0;
      const int first = order.release / minutes_a_day;
      int d = std::max(last, first);
      while (left > 0) {
        const auto i = static_cast<std::size_t>(std::clamp(d, 0, week.days() - 1));
        const bool earliest = d <= first || d <= 0;
        const double here = earliest ? left : std::min(left, load.there[i]);
        load.needed[i] += here * share;
        people.needed[i] += here * share * attended;
        left -= here;
        if (left > 1e-9) --d;
        if (earliest) break;
      }
      last = std::max(std::min(last, d), first);
    }
  }
  if (!week.people.empty()) loads.push_back(std::move(people));
  return loads;
}

}  // namespace turnwright
