// SPDX-License-Identifier: MIT
#include <algorithm>
#include <set>
#include <utility>

#include "rescue.hpp"
#include "turnwright/quantity/money.hpp"
#include "turnwright/quantity/unit.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright {
namespace {

constexpr Minute usual_overtime = 120;  // a machine and day, common practice
constexpr double worth_a_word = 0.02;   // days

// The lot before all others, each of its operations from when it could begin were it alone: at the
// very front, what waits for outside work would keep a machine empty.
DispatchOrder to_the_front(const PlanProblem& problem, const WeekPlan& now, std::size_t lot) {
  DispatchOrder alone = now.list;
  alone.lots.assign(problem.lots[lot].operations.size(), static_cast<int>(lot));
  std::vector<Minute> begins;
  for (const PlannedRun& run : Decoder(problem).plan(alone).runs) begins.push_back(run.setup_from);
  DispatchOrder first = now.list;
  first.lots.clear();
  std::size_t next = 0;
  const auto frozen = static_cast<std::size_t>(now.list.frozen);
  for (std::size_t i = 0; i < now.list.lots.size(); ++i) {
    const int j = now.list.lots[i];
    const bool its_own = static_cast<std::size_t>(j) == lot;
    if (i >= frozen)
      for (; next < begins.size() && begins[next] <= now.plan.runs[i].setup_from; ++next)
        first.lots.push_back(static_cast<int>(lot));
    if (its_own && i < frozen) ++next;
    if (!its_own || i < frozen) first.lots.push_back(j);
  }
  for (; next < begins.size(); ++next) first.lots.push_back(static_cast<int>(lot));
  return first;
}

class RescueTrials {
 public:
  RescueTrials(const Week& week, const WeekProblem& wp, const WeekPlan& now, std::size_t lot)
      : week_(week), wp_(wp), p_(wp.problem), now_(now), lot_(lot) {}

  Messages trials() {
    alone();
    put_first();
    in_two();
    overtime();
    subcontracted();
    if (!no_gain_.empty()) trials_.push_back(Message{"week.no-gain", {{"trials", no_gain_}}});
    return std::move(trials_);
  }

 private:
  const PlannedLot& lot() const { return p_.lots[lot_]; }
  // What no order of work can change.
  void alone() {
    const Minute done = done_alone(p_, lot(), 0, lot().release);
    if (done == never)
      trials_.push_back("week.late-alone-beyond");
    else if (done > lot().due)
      trials_.push_back(Message{"week.late-alone", {{"done", moment_of(week_, done)}}});
  }
  void put_first() {
    PlanProblem held = p_;
    DispatchOrder first = to_the_front(p_, now_, lot_);
    hold_frozen(held, first);
    report_trial("week.try-first", held, rearranged(held, first), true);
  }
  // The others find their places anew around it, and it its machine, in a short search in which it
  // weighs much more.
  DispatchOrder rearranged(const PlanProblem& held, const DispatchOrder& first) const {
    constexpr double much_more = 20;
    constexpr double work = 2e5;  // moves times pieces of work: a tenth of a second
    PlanProblem weighted = held;
    weighted.lots[lot_].weight *= much_more;
    SearchEffort effort;
    effort.chains = 1;
    effort.heat = 0.003;
    effort.moves = std::max(50, static_cast<int>(work / static_cast<double>(std::max<std::size_t>(
                                                            p_.operations.size(), 1))));
    return search(weighted, first, effort);
  }
  // The second batch beside the first on another machine, or right after it.
  void in_two() {
    if (lot().operations.empty() || wp_.batches[lot_] > 0) return;
    PlanProblem split = p_;
    split_lot(split, lot_, 2);
    const std::size_t second = split.lots.size() - 1;
    DispatchOrder order = now_.list;
    order.lots.clear();
    std::vector<int> waiting;  // behind what is frozen
    for (std::size_t i = 0; i < now_.list.lots.size(); ++i) {
      order.lots.push_back(now_.list.lots[i]);
      if (now_.list.lots[i] == static_cast<int>(lot_)) waiting.push_back(static_cast<int>(second));
      if (i + 1 < static_cast<std::size_t>(now_.list.frozen)) continue;
      order.lots.insert(order.lots.end(), waiting.begin(), waiting.end());
      waiting.clear();
    }
    Plan beside = Decoder(split).plan(with_choices(order, 1));
    Plan after = Decoder(split).plan(with_choices(order, 0));
    Plan& best = after.lateness < beside.lateness ? after : beside;
    // The order is done with its last batch.
    best.done[lot_] = std::max(best.done[lot_], best.done[second]);
    report_trial("week.try-two-batches", split, best, true);
  }
  // Of the second batch: the machines of the first, or so many further on in the list of choices.
  DispatchOrder with_choices(DispatchOrder order, int further) const {
    order.frozen = 0;
    for (const int o : lot().operations) {
      const auto n = static_cast<int>(p_.operation(o).choices.size());
      order.choices.push_back((order.choices[static_cast<std::size_t>(o)] + further) % n);
    }
    return order;
  }
  void overtime() {
    const Minute most = week_.relief.most > 0 ? week_.relief.most : usual_overtime;
    PlanProblem more = p_;
    for (const int m : machines()) {
      std::set<int> days;
      for (const Span& s : p_.calendar_of(m).open()) days.insert((s.to - 1) / minutes_a_day);
      for (const int day : days) add_overtime(more, {m, day, most});
    }
    const Measure hours = measure(static_cast<double>(most) * unit::min, unit::h, 3);
    report_trial({"week.try-overtime", {{"hours", hours}}}, more, now_.list);
  }
  std::set<int> machines() const {
    std::set<int> found;
    for (const int o : lot().operations)
      for (const Choice& c : p_.operation(o).choices) found.insert(c.machine);
    return found;
  }
  void subcontracted() {
    if (week_.relief.subcontracted.si <= 0) return;
    // Its own outside work comes after what the other firm does.
    int days = week_.relief.days;
    double minutes = 0;
    for (const int o : lot().operations) {
      const Choice& c = p_.operation(o).choices.front();
      minutes += whole_setup(c) + c.run;
      days += p_.operation(o).days_after;
    }
    const Minute back = back_after(p_, std::max(lot().release, week_.now), days);
    const double cost = minutes / 60 * in(week_.relief.subcontracted, unit::money_per_h);
    const Message what{"week.try-subcontracted", {{"cost", rounded(cost * unit::money)}}};
    trials_.push_back(Message{"week.trial", {{"what", what}, {"late", late_by(lot(), back)}}});
  }

  void report_trial(Message what, const PlanProblem& problem, const DispatchOrder& order,
                    bool priced = false) {
    report_trial(std::move(what), problem, Decoder(problem).plan(order), priced);
  }
  // `priced`: with what the same hours cost more than in the plan, so that it is seen why the plan
  // does otherwise.
  void report_trial(Message what, const PlanProblem& problem, const Plan& plan, bool priced) {
    const PlannedLot& tried = problem.lots[lot_];
    if (days_late(tried, plan.done[lot_]) >=
        days_late(lot(), now_.plan.done[lot_]) - worth_a_word) {
      no_gain_.push_back(std::move(what));
      return;
    }
    Message trial{"week.trial",
                  {{"what", std::move(what)}, {"late", late_by(tried, plan.done[lot_])}}};
    add_others(trial, problem, plan);
    trials_.push_back(priced ? with_price(std::move(trial), problem, plan) : std::move(trial));
  }
  // Machine and people hours, and operations that are where they are posted now and then would not.
  Message with_price(Message trial, const PlanProblem& problem, const Plan& plan) const {
    constexpr double least = 1;  // money, worth a word
    const double more = (plan.work - now_.plan.work) * in(wp_.day_late, unit::money);
    if (more >= least)
      trial = {"week.trial-dearer",
               {{"trial", std::move(trial)}, {"cost", rounded(more * unit::money)}}};
    if (const int moves = moved(problem, plan) - moved(p_, now_.plan); moves > 0)
      trial = {"week.trial-moves", {{"trial", std::move(trial)}, {"n", moves}}};
    return trial;
  }
  static int moved(const PlanProblem& problem, const Plan& plan) {
    return static_cast<int>(
        std::count_if(plan.runs.begin(), plan.runs.end(), [&](const PlannedRun& run) {
          return change_of(problem, run.operation, run.machine, run.setup_from) > 0;
        }));
  }
  // Which others it makes later.
  void add_others(Message& trial, const PlanProblem& problem, const Plan& plan) const {
    std::size_t worst = lot_;
    double most = worth_a_word;
    int count = 0;
    for (std::size_t j = 0; j < p_.lots.size(); ++j) {
      const double more =
          days_late(problem.lots[j], plan.done[j]) - days_late(p_.lots[j], now_.plan.done[j]);
      if (j == lot_ || more <= worth_a_word) continue;
      ++count;
      if (more <= most) continue;
      most = more;
      worst = j;
    }
    if (count == 0) return;
    trial.id = count == 1 ? "week.trial-one-later" : "week.trial-others-later";
    if (count > 1) trial.places.push_back({"n", count});
    trial.places.push_back({"order", lot_title(week_, wp_, worst)});
    trial.places.push_back(
        {"by", plan.done[worst] == never ? Message("week.beyond-all") : span_of(most)});
  }

  const Week& week_;
  const WeekProblem& wp_;
  const PlanProblem& p_;
  const WeekPlan& now_;
  std::size_t lot_;
  Messages trials_;
  Messages no_gain_;  // what was tried in vain
};

}  // namespace

Messages rescue_trials(const Week& week, const WeekProblem& problem, const WeekPlan& now,
                       std::size_t lot) {
  return RescueTrials(week, problem, now, lot).trials();
}

}  // namespace turnwright
