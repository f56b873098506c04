// SPDX-License-Identifier: MIT
#include "turnwright/week/first_list.hpp"

#include <algorithm>
#include <numeric>

#include "turnwright/quantity/in_parallel.hpp"
#include "turnwright/week/decoder.hpp"

namespace turnwright {
namespace {

// Where and when the next work of a lot could begin.
struct Beginning {
  int choice = 0, machine = -1;
  Minute start = never, end = never;
};
// On the machine of `only`, or of all choices where that is below 0.
Beginning beginning_of(const PlanProblem& problem, Decoder& decoder, std::size_t lot, int only) {
  Beginning best;
  const auto o = static_cast<std::size_t>(decoder.next_operation(lot));
  const auto& choices = problem.operations[o].choices;
  for (std::size_t c = 0; c < choices.size(); ++c) {
    if (only >= 0 && static_cast<int>(c) != only) continue;
    const Calendar& calendar =
        problem.machines[static_cast<std::size_t>(choices[c].machine)].calendar;
    const Minute start = decoder.could_begin(lot, choices[c], best.start);
    if (best.machine >= 0 && start > best.start) continue;
    const Minute end =
        start == never ? never : calendar.after(start, whole_setup(choices[c]) + choices[c].run);
    if (best.machine >= 0 && start == best.start && end >= best.end) continue;
    best = {static_cast<int>(c), choices[c].machine, start, end};
  }
  return best;
}

class ListBuilder {
 public:
  ListBuilder(const PlanProblem& problem, const FirstList& how)
      : problem_(problem), how_(how), decoder_(problem), could_(problem.lots.size()) {
    list_.choices.assign(problem.operations.size(), 0);
    decoder_.begin();
    for (std::size_t j = 0; j < problem.lots.size(); ++j) {
      look(j);
      if (!problem.lots[j].operations.empty()) waiting_.push_back(j);
    }
  }
  DispatchOrder build() {
    while (!waiting_.empty()) {
      const auto next = next_lot();
      const std::size_t j = *next;
      const Beginning taken = could_[j];
      list_.choices[operation_of(j)] = taken.choice;
      list_.lots.push_back(static_cast<int>(j));
      decoder_.dispatch(j, taken.choice);
      if (decoder_.finished(j)) waiting_.erase(next);
      // A machine is only ever free later: who would begin on another one still would, but for the
      // people, who are looked for again when it comes to it.
      for (const std::size_t other : waiting_)
        if (other == j || could_[other].machine == taken.machine) look(other);
    }
    return std::move(list_);
  }

 private:
  std::size_t operation_of(std::size_t j) const {
    return static_cast<std::size_t>(decoder_.next_operation(j));
  }
  void look(std::size_t j) {
    if (decoder_.finished(j)) return;
    could_[j] = beginning_of(problem_, decoder_, j,
                             how_.choices.empty() ? -1 : how_.choices[operation_of(j)]);
  }
  double rank(std::size_t j) const {
    return how_.rank.empty() ? static_cast<double>(problem_.lots[j].due)
                             : how_.rank[operation_of(j)];
  }
  std::vector<std::size_t>::iterator next_lot() {
    if (list_.lots.size() < how_.front.size())
      return std::find(waiting_.begin(), waiting_.end(),
                       static_cast<std::size_t>(how_.front[list_.lots.size()]));
    Minute first = never;
    for (const std::size_t j : waiting_) first = std::min(first, could_[j].start);
    const Minute until = first == never ? never : first + how_.window;
    auto best = waiting_.begin();
    for (auto at = waiting_.begin(); at != waiting_.end(); ++at) {
      if (could_[*at].start > until) continue;
      if (could_[*best].start > until || rank(*at) < rank(*best)) best = at;
    }
    return best;
  }

  const PlanProblem& problem_;
  const FirstList& how_;
  Decoder decoder_;
  std::vector<Beginning> could_;  // by lot
  std::vector<std::size_t> waiting_;
  DispatchOrder list_;
};

// By operation: when its lot is due, less the work that is left.
std::vector<double> slack_of(const PlanProblem& problem) {
  std::vector<double> slack(problem.operations.size());
  for (const PlannedLot& lot : problem.lots) {
    double left = lot.due;
    for (auto o = lot.operations.rbegin(); o != lot.operations.rend(); ++o) {
      const PlannedOperation& operation = problem.operation(*o);
      left -= operation.choices.front().run + whole_setup(operation.choices.front()) +
              operation.days_after * minutes_a_day;
      slack[static_cast<std::size_t>(*o)] = left;
    }
  }
  return slack;
}

std::vector<int> cheapest_choices(const PlanProblem& problem) {
  std::vector<int> cheapest;
  for (const PlannedOperation& operation : problem.operations)
    cheapest.push_back(cheapest_choice(operation));
  return cheapest;
}

bool has_prices(const PlanProblem& problem) {
  return std::any_of(problem.operations.begin(), problem.operations.end(),
                     [](const PlannedOperation& o) { return o.choices.front().run_price > 0; });
}

std::vector<int> running_lots(const PlanProblem& problem) {
  std::vector<int> lots;
  for (const PlannedOperation& operation : problem.operations)
    if (operation.runs) lots.push_back(operation.lot);
  return lots;
}

// Each rule on whatever machine is free, and where work costs least.
std::vector<FirstList> first_rules(const PlanProblem& problem, const std::vector<int>& front) {
  const std::vector<double> slack = slack_of(problem);
  std::vector<std::vector<int>> machines{{}};
  if (has_prices(problem)) machines.push_back(cheapest_choices(problem));
  // Lots, and machines of all operations, for which one list takes long.
  constexpr std::size_t many_lots = 2000, many_choices = 200000;
  std::size_t choices = 0;
  for (const PlannedOperation& operation : problem.operations) choices += operation.choices.size();
  std::vector<FirstList> rules;
  for (const Minute window : {0, 60, 240, 480}) {
    for (const std::vector<int>& where : machines)
      for (const bool by_slack : {false, true})
        rules.push_back({.window = window,
                         .rank = by_slack ? slack : std::vector<double>(),
                         .front = front,
                         .choices = where});
    if (problem.lots.size() > many_lots || choices > many_choices) break;
  }
  return rules;
}

struct Scored {
  double score = 0;
  DispatchOrder list;
};

// A list by each of the rules, then, where `plain`, the plain one; each is worked once. The best
// first.
std::vector<DispatchOrder> best_first(const PlanProblem& problem, const std::vector<int>& front,
                                      bool plain, int threads) {
  const std::vector<FirstList> rules = first_rules(problem, front);
  std::vector<Scored> found(rules.size() + (plain ? 1 : 0));
  in_parallel(found.size(), threads, [&](std::size_t i) {
    DispatchOrder& list = found[i].list;
    list = i < rules.size() ? earliest_first(problem, rules[i]) : plain_dispatch(problem);
    list.frozen = static_cast<int>(front.size());
    found[i].score = Decoder(problem).score(list);
  });
  std::stable_sort(found.begin(), found.end(),
                   [](const Scored& a, const Scored& b) { return a.score < b.score; });
  std::vector<DispatchOrder> lists;
  lists.reserve(found.size());
  for (Scored& scored : found) lists.push_back(std::move(scored.list));
  return lists;
}

}  // namespace

DispatchOrder earliest_first(const PlanProblem& problem, const FirstList& how) {
  return ListBuilder(problem, how).build();
}

std::vector<DispatchOrder> lists_behind(const PlanProblem& problem, const std::vector<int>& front,
                                        int threads) {
  return best_first(problem, front, false, threads);
}

std::vector<DispatchOrder> first_lists(const PlanProblem& problem, int threads) {
  return best_first(problem, running_lots(problem), true, threads);
}

DispatchOrder plain_dispatch(const PlanProblem& problem) {
  const std::vector<int> cheapest = cheapest_choices(problem);
  std::vector<std::size_t> order;
  for (const PlannedOperation& operation : problem.operations)
    if (operation.runs) order.push_back(static_cast<std::size_t>(operation.lot));
  const std::size_t running = order.size();
  for (std::size_t j = 0; j < problem.lots.size(); ++j) order.push_back(j);
  std::stable_sort(
      order.begin() + static_cast<std::ptrdiff_t>(running), order.end(),
      [&](std::size_t a, std::size_t b) { return problem.lots[a].due < problem.lots[b].due; });
  Decoder decoder(problem);
  decoder.begin();
  DispatchOrder list;
  list.choices.assign(problem.operations.size(), 0);
  list.frozen = static_cast<int>(running);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const std::size_t j = order[i];
    const std::size_t turns = i < running ? 1 : problem.lots[j].operations.size();
    for (std::size_t k = 0;
         k < turns && !problem.lots[j].operations.empty() && !decoder.finished(j); ++k) {
      const auto o = static_cast<std::size_t>(decoder.next_operation(j));
      const auto& choices = problem.operations[o].choices;
      const Beginning quoted = beginning_of(problem, decoder, j, cheapest[o]);
      const Beginning soonest = beginning_of(problem, decoder, j, -1);
      const bool waits = soonest.start + minutes_a_day / 2 < quoted.start;
      const int choice = choices.size() > 1 && waits ? soonest.choice : cheapest[o];
      list.choices[o] = choice;
      list.lots.push_back(static_cast<int>(j));
      decoder.dispatch(j, choice);
    }
  }
  return list;
}

DispatchOrder by_due_date(const PlanProblem& problem) {
  std::vector<int> order(problem.lots.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return problem.lots[static_cast<std::size_t>(a)].due <
           problem.lots[static_cast<std::size_t>(b)].due;
  });
  DispatchOrder list;
  list.choices.assign(problem.operations.size(), 0);
  // First operations of all, then second ones: a lot's later work does not stand before another's
  // first.
  for (std::size_t k = 0; list.lots.size() < problem.operations.size(); ++k)
    for (const int j : order)
      if (k < problem.lots[static_cast<std::size_t>(j)].operations.size()) list.lots.push_back(j);
  return list;
}

}  // namespace turnwright
