// SPDX-License-Identifier: MIT
#include "turnwright/week/hours.hpp"

#include <algorithm>
#include <numeric>
#include <set>

namespace turnwright {
namespace {

double hours(Minute m) { return m / 60.0; }

// Of the machines that can do it, the one that is then the least loaded.
const Choice& lightest(const PlannedOperation& operation, const std::vector<MachineLoad>& loads) {
  const Choice* best = &operation.choices.front();
  double least = 1e300;
  for (const Choice& c : operation.choices) {
    const MachineLoad& load = loads[static_cast<std::size_t>(c.machine)];
    const double available = load.sum_available();
    if (available <= 0) continue;
    const double share = (load.sum_required() + hours(whole_setup(c) + c.run)) / available;
    if (share >= least) continue;
    least = share;
    best = &c;
  }
  return *best;
}

MachineLoad load_of(std::string name, bool people, int days) {
  const auto n = static_cast<std::size_t>(days);
  return {std::move(name), people, std::vector<double>(n), std::vector<double>(n), 0};
}
// Open hours by day, a share of which counts.
void add_available(MachineLoad& load, const Calendar& open, double share) {
  for (std::size_t d = 0; d < load.available.size(); ++d) {
    const auto from = static_cast<Minute>(d) * minutes_a_day;
    load.available[d] += share * hours(open.between(from, from + minutes_a_day));
  }
}

class InfiniteLoad {
 public:
  InfiniteLoad(const Week& week, const WeekProblem& wp)
      : week_(week), wp_(wp), people_(load_of("people", true, week.days())) {
    for (const WeekMachine& m : week.machines) {
      loads_.push_back(load_of(m.name, false, week.days()));
      add_available(loads_.back(), m.open, m.rated());
    }
    for (const Person& p : week.people) add_available(people_, p.available, 1);
  }

  std::vector<MachineLoad> loads() {
    for (std::size_t j = 0; j < wp_.problem.lots.size(); ++j)
      add_lot(wp_.problem.lots[j], week_.orders[wp_.orders[j]]);
    if (!week_.people.empty()) loads_.push_back(std::move(people_));
    return std::move(loads_);
  }

 private:
  // Backwards from the due date: each operation on the last days that are open before the next.
  void add_lot(const PlannedLot& lot, const WeekOrder& order) {
    auto last =
        static_cast<int>(std::clamp<Minute>(lot.due / minutes_a_day - 1, 0, week_.days() - 1));
    const int first = order.release / minutes_a_day;
    for (auto o = lot.operations.rbegin(); o != lot.operations.rend(); ++o) {
      const PlannedOperation& operation = wp_.problem.operation(*o);
      last -= operation.days_after;
      const Choice& choice = lightest(operation, loads_);
      const bool again = operation.job >= 0 && !proved_.insert(operation.job).second;
      const Minute setup = whole_setup(choice) - (again ? choice.proving : 0);
      const int day = add_operation(choice, setup, order, first, last);
      last = std::max(std::min(last, day), first);
    }
  }
  // The first day of it.
  int add_operation(const Choice& c, Minute setup, const WeekOrder& order, int first, int last) {
    const bool quoted = order.state == OrderState::quoted;
    const double share = quoted ? order.probability : 1;
    MachineLoad& load = loads_[static_cast<std::size_t>(c.machine)];
    double left = week_.machine(c.machine).rated() * hours(setup + c.run);
    const double attended =
        left > 0 ? (hours(setup) + hours(c.run) * c.attended / 1000) / left : 0;  // open hours
    load.quoted += quoted ? left * share : 0;
    people_.quoted += quoted ? left * share * attended : 0;
    int d = std::max(last, first);
    while (left > 0) {
      const auto i = static_cast<std::size_t>(std::clamp(d, 0, week_.days() - 1));
      const bool earliest = d <= first || d <= 0;
      const double here = earliest ? left : std::min(left, load.available[i]);
      load.required[i] += here * share;
      people_.required[i] += here * share * attended;
      left -= here;
      if (left > 1e-9) --d;
      if (earliest) break;
    }
    return d;
  }

  const Week& week_;
  const WeekProblem& wp_;
  std::vector<MachineLoad> loads_;
  std::set<int> proved_;  // jobs
  MachineLoad people_;
};

}  // namespace

double MachineLoad::sum_required() const {
  return std::accumulate(required.begin(), required.end(), 0.0);
}
double MachineLoad::sum_available() const {
  return std::accumulate(available.begin(), available.end(), 0.0);
}
Message MachineLoad::title() const { return people ? Message("week.people") : verbatim(name); }

std::vector<MachineLoad> infinite_load(const Week& week, const WeekProblem& problem) {
  return InfiniteLoad(week, problem).loads();
}

std::vector<std::vector<double>> planned_load(const Week& week, const WeekProblem& problem,
                                              const Plan& plan) {
  const auto days = static_cast<std::size_t>(week.days());
  std::vector<std::vector<double>> hours_of(week.machines.size(), std::vector<double>(days));
  std::vector<double> people(days);
  for (const PlannedRun& run : plan.runs) {
    const Choice& choice = choice_of(problem.problem, run);
    const Calendar& calendar = problem.problem.calendar_of(run.machine);
    const Minute work = run.setup + choice.run;
    const Minute open = run.to == never ? 0 : calendar.between(run.setup_from, run.to);
    if (work == 0 || open == 0) continue;
    const double attended = (run.setup + choice.run * choice.attended / 1000.0) / work;
    const double worked = week.machine(run.machine).rated() * hours(work) / open;
    for (std::size_t d = 0; d < days; ++d) {
      const auto from = static_cast<Minute>(d) * minutes_a_day;
      const double here = worked * calendar.between(std::max(run.setup_from, from),
                                                    std::min(run.to, from + minutes_a_day));
      hours_of[static_cast<std::size_t>(run.machine)][d] += here;
      people[d] += here * attended;
    }
  }
  if (!week.people.empty()) hours_of.push_back(std::move(people));
  return hours_of;
}

}  // namespace turnwright
