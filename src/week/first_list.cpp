// SPDX-License-Identifier: MIT
#include "turnwright/week/first_list.hpp"

#include <algorithm>
#include <numeric>

namespace turnwright {
namespace {

// Where and when the next work of a job could begin.
struct Beginning {
  int choice = 0, machine = -1;
  Minute start = never, end = never;
};
// On the machine of `only`, or of all choices where that is below 0.
Beginning beginning_of(const PlanProblem& problem, const Decoder& decoder, std::size_t job,
                       int only) {
  Beginning best;
  const auto o = static_cast<std::size_t>(decoder.next_operation(job));
  const auto& choices = problem.operations[o].choices;
  for (std::size_t c = 0; c < choices.size(); ++c) {
    if (only >= 0 && static_cast<int>(c) != only) continue;
    const Calendar& calendar =
        problem.machines[static_cast<std::size_t>(choices[c].machine)].calendar;
    const Minute start = decoder.could_begin(job, choices[c]);
    const Minute end =
        start == never ? never : calendar.after(start, choices[c].ready + choices[c].run);
    if (best.machine >= 0 && (start > best.start || (start == best.start && end >= best.end)))
      continue;
    best = {static_cast<int>(c), choices[c].machine, start, end};
  }
  return best;
}

}  // namespace

DispatchOrder earliest_first(const PlanProblem& problem, const FirstList& how) {
  DispatchOrder list;
  list.choices.assign(problem.operations.size(), 0);
  Decoder decoder(problem);
  decoder.begin();
  std::vector<Beginning> could(problem.jobs.size());
  auto look = [&](std::size_t j) {
    if (decoder.finished(j)) return;
    const auto o = static_cast<std::size_t>(decoder.next_operation(j));
    could[j] = beginning_of(problem, decoder, j, how.choices.empty() ? -1 : how.choices[o]);
  };
  auto rank = [&](std::size_t j) {
    return how.rank.empty() ? static_cast<double>(problem.jobs[j].due)
                            : how.rank[static_cast<std::size_t>(decoder.next_operation(j))];
  };
  std::vector<std::size_t> waiting;
  for (std::size_t j = 0; j < problem.jobs.size(); ++j) {
    look(j);
    if (!problem.jobs[j].operations.empty()) waiting.push_back(j);
  }
  while (!waiting.empty()) {
    auto best = waiting.begin();
    if (list.jobs.size() < how.front.size()) {
      best = std::find(waiting.begin(), waiting.end(),
                       static_cast<std::size_t>(how.front[list.jobs.size()]));
    } else {
      Minute first = never;
      for (const std::size_t j : waiting) first = std::min(first, could[j].start);
      const Minute until = first == never ? never : first + how.window;
      for (auto at = waiting.begin(); at != waiting.end(); ++at) {
        if (could[*at].start > until) continue;
        if (could[*best].start > until || rank(*at) < rank(*best)) best = at;
      }
    }
    const std::size_t j = *best;
    const Beginning taken = could[j];
    list.choices[static_cast<std::size_t>(decoder.next_operation(j))] = taken.choice;
    list.jobs.push_back(static_cast<int>(j));
    decoder.put(j, taken.choice);
    if (decoder.finished(j)) waiting.erase(best);
    // A machine is only ever free later: who would begin on another one still would, but for the
    // people, who are looked for again when it comes to it.
    for (const std::size_t other : waiting)
      if (other == j || could[other].machine == taken.machine) look(other);
  }
  return list;
}

std::vector<DispatchOrder> first_lists(const PlanProblem& problem) {
  // Slack: due less the work that is left.
  std::vector<double> slack(problem.operations.size());
  for (const PlannedJob& job : problem.jobs) {
    double left = job.due;
    for (auto o = job.operations.rbegin(); o != job.operations.rend(); ++o) {
      const PlannedOperation& operation = problem.operations[static_cast<std::size_t>(*o)];
      left -= operation.choices.front().run + operation.choices.front().ready +
              operation.days_after * minutes_a_day;
      slack[static_cast<std::size_t>(*o)] = left;
    }
  }
  constexpr std::size_t many = 2000;  // orders, for which one list takes long
  std::vector<std::pair<double, DispatchOrder>> found;
  Decoder decoder(problem);
  for (const Minute window : {0, 60, 240, 480}) {
    for (const bool by_slack : {false, true}) {
      DispatchOrder list =
          earliest_first(problem, {.window = window,
                                   .rank = by_slack ? slack : std::vector<double>(),
                                   .front = {},
                                   .choices = {}});
      const double score = decoder.score(list);
      found.emplace_back(score, std::move(list));
    }
    if (problem.jobs.size() > many) break;
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<DispatchOrder> lists;
  lists.reserve(found.size());
  for (auto& [score, list] : found) lists.push_back(std::move(list));
  return lists;
}

DispatchOrder by_due_date(const PlanProblem& problem) {
  std::vector<int> order(problem.jobs.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return problem.jobs[static_cast<std::size_t>(a)].due <
           problem.jobs[static_cast<std::size_t>(b)].due;
  });
  DispatchOrder list;
  list.choices.assign(problem.operations.size(), 0);
  // First operations of all, then second ones: a job's later work does not stand before another's
  // first.
  for (std::size_t k = 0; list.jobs.size() < problem.operations.size(); ++k)
    for (const int j : order)
      if (k < problem.jobs[static_cast<std::size_t>(j)].operations.size()) list.jobs.push_back(j);
  return list;
}

}  // namespace turnwright
