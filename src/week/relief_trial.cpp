// SPDX-License-Identifier: MIT
#include <algorithm>
#include <utility>

#include "rescue.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright {
namespace {

// The lots that are late in either plan, first those that are late now.
std::vector<LotRelieved> late_in_either(const PlanProblem& problem, const WeekPlan& now,
                                        const Plan& with) {
  std::vector<LotRelieved> lots;
  std::vector<bool> told(problem.lots.size(), false);
  const auto is_late = [&](std::size_t j) { return days_late(problem.lots[j], with.done[j]) > 0; };
  for (const LateReason& reason : now.late) {
    lots.push_back({reason.lot, with.done[reason.lot], true, is_late(reason.lot)});
    told[reason.lot] = true;
  }
  for (std::size_t j = 0; j < problem.lots.size(); ++j)
    if (!told[j] && is_late(j)) lots.push_back({j, with.done[j], false, true});
  return lots;
}

// Nothing of the lot is left to do here but to wait for it, and for its own outside work.
void send_out(PlanProblem& problem, std::size_t lot, int days) {
  const std::vector<int>& operations = problem.lots[lot].operations;
  for (const int o : operations) {
    PlannedOperation& operation = problem.operations[static_cast<std::size_t>(o)];
    days += operation.days_after;
    operation.days_after = 0;
    for (Choice& c : operation.choices) c.run = c.setup = c.proving = 0, c.items.clear();
  }
  problem.operations[static_cast<std::size_t>(operations.back())].days_after = days;
}

PlanProblem relieved(const PlanProblem& problem, const Relief& relief, int days) {
  PlanProblem with = problem;
  for (const Overtime& o : relief.overtime) add_overtime(with, o);
  for (const std::size_t j : relief.subcontracted) send_out(with, j, days);
  return with;
}

}  // namespace

void hold_frozen(PlanProblem& problem, DispatchOrder& list) {
  std::vector<std::size_t> next(problem.lots.size(), 0);
  for (int i = 0; i < list.frozen; ++i) {
    const auto lot = static_cast<std::size_t>(list.lots[static_cast<std::size_t>(i)]);
    const auto o = static_cast<std::size_t>(problem.lots[lot].operations[next[lot]++]);
    std::vector<Choice>& choices = problem.operations[o].choices;
    choices = {choices[static_cast<std::size_t>(std::exchange(list.choices[o], 0))]};
  }
}

int ReliefTried::late() const {
  return static_cast<int>(
      std::count_if(lots.begin(), lots.end(), [](const LotRelieved& l) { return l.late; }));
}
int ReliefTried::before() const {
  return static_cast<int>(
      std::count_if(lots.begin(), lots.end(), [](const LotRelieved& l) { return l.was_late; }));
}

std::optional<ReliefTried> try_relief(const Week& week, const PlanProblem& p, const WeekPlan& now,
                                      int moves, int threads) {
  const bool offered = week.relief.most > 0 || week.relief.subcontracted.si > 0;
  if (!offered || now.plan.lateness <= now.bound.least + 1e-6) return std::nullopt;
  for (const double share : {1.0, 0.9, 0.8, 0.7, 0.6}) {
    const auto relief = cheapest_relief(p, week.relief, share);
    if (!relief) return std::nullopt;
    if (relief->overtime.empty() && relief->subcontracted.empty()) continue;
    PlanProblem with = relieved(p, *relief, week.relief.days);
    DispatchOrder list = now.list;
    hold_frozen(with, list);
    const DispatchOrder order = search(
        with, list, {.moves = std::max(100, moves / 4), .heat = mild_heat, .threads = threads});
    const Plan plan = Decoder(with).plan(order);
    if (plan.lateness >= now.plan.lateness - 1e-6) continue;
    ReliefTried tried{*relief, plan.lateness, late_in_either(with, now, plan)};
    // Nobody pays for another order that is late in the place of one.
    if (tried.late() < tried.before()) return tried;
  }
  return std::nullopt;
}

}  // namespace turnwright
