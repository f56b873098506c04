// SPDX-License-Identifier: MIT
#include "turnwright/week/capacity.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "turnwright/quantity/unit.hpp"

#ifdef TURNWRIGHT_CLP
#include <ClpSimplex.hpp>
#include <CoinPackedMatrix.hpp>
#endif

namespace turnwright {

void add_overtime(PlanProblem& problem, const Overtime& overtime) {
  PlannedMachine& machine = problem.machines[static_cast<std::size_t>(overtime.machine)];
  std::vector<Span> open = machine.calendar.open();
  Minute end = -1;
  for (const Span& s : open)
    if ((s.to - 1) / minutes_a_day == overtime.day) end = s.to;
  if (end < 0) return;  // closed on that day
  const Minute to = std::min(end + overtime.minutes, (overtime.day + 1) * minutes_a_day);
  open.push_back({end, to});
  machine.calendar = Calendar(open);
  for (Minute t = end / time_step; t < to / time_step; ++t) {
    const auto i = static_cast<std::size_t>(t);
    if (i >= problem.people.present.size()) break;
    problem.people.present[i] += 1000;
    problem.people.setters[i] += 1000;
  }
}

void split_job(PlanProblem& problem, std::size_t job, int batches) {
  if (batches < 2) return;
  problem.jobs[job].weight /= batches;
  for (const int o : problem.jobs[job].operations)
    for (Choice& c : problem.operations[static_cast<std::size_t>(o)].choices)
      c.run = (c.run / batches + time_step - 1) / time_step * time_step;
  for (int b = 1; b < batches; ++b) {
    PlannedJob copy = problem.jobs[job];
    for (int& o : copy.operations) {
      PlannedOperation operation = problem.operations[static_cast<std::size_t>(o)];
      operation.job = static_cast<int>(problem.jobs.size());
      if (!problem.old_start.empty()) {
        problem.old_start.push_back(never);
        problem.old_machine.push_back(-1);
      }
      o = static_cast<int>(problem.operations.size());
      problem.operations.push_back(std::move(operation));
    }
    problem.jobs.push_back(std::move(copy));
  }
}

#ifndef TURNWRIGHT_CLP

bool has_linear_programs() { return false; }
std::optional<double> capacity_bound(const PlanProblem&) { return std::nullopt; }
std::optional<Relief> cheapest_relief(const PlanProblem&, const ReliefPrices&, double) {
  return std::nullopt;
}

#else

bool has_linear_programs() { return true; }

namespace {

constexpr std::size_t most_columns = 200000;

// Rows and columns as they come.
class Program {
 public:
  int row(double low, double high) {
    low_.push_back(low);
    high_.push_back(high);
    return static_cast<int>(low_.size()) - 1;
  }
  int column(double low, double high, double cost) {
    from_.push_back(low);
    to_.push_back(high);
    cost_.push_back(cost);
    return static_cast<int>(cost_.size()) - 1;
  }
  void price(int column, double cost) { cost_[static_cast<std::size_t>(column)] = cost; }
  void fix(int column, double value) {
    from_[static_cast<std::size_t>(column)] = to_[static_cast<std::size_t>(column)] = value;
  }
  void put(int row, int column, double value) {
    rows_.push_back(row);
    columns_.push_back(column);
    values_.push_back(value);
  }
  std::size_t columns() const { return cost_.size(); }
  /// False when it has no best point.
  bool solve() {
    const CoinPackedMatrix matrix(true, rows_.data(), columns_.data(), values_.data(),
                                  static_cast<CoinBigIndex>(values_.size()));
    model_.setLogLevel(0);
    model_.loadProblem(matrix, from_.data(), to_.data(), cost_.data(), low_.data(), high_.data());
    return model_.dual() == 0 && model_.isProvenOptimal();
  }
  double best() const { return model_.getObjValue(); }
  double value(int column) const { return model_.getColSolution()[column]; }

 private:
  std::vector<double> low_, high_, from_, to_, cost_, values_;
  std::vector<int> rows_, columns_;
  ClpSimplex model_;
};

// A part of an operation's run on a day, and how late it would make its order.
struct Share {
  int operation = 0, column = 0;
  double late = 0;
};

class Fluid {
 public:
  Fluid(const PlanProblem& problem, double share) : problem_(problem), share_(share) {
    end_ = end_of_calendars(problem);
    days_ = end_ / minutes_a_day;
  }

  // Columns of all work by day; a column after the calendar for what does not fit.
  bool work(Program& p) {
    for (std::size_t j = 0; j < problem_.jobs.size(); ++j)
      for (std::size_t k = 0; k < problem_.jobs[j].operations.size(); ++k) {
        operation(p, problem_.jobs[j], k);
        if (p.columns() > most_columns) return false;
      }
    return true;
  }
  const std::vector<Share>& shares() const { return shares_; }
  int whole_row(int operation) const { return whole_.at(operation); }
  double minutes_of(int operation) const { return minutes_.at(operation); }
  int machine_row(Program& p, int machine, int day) {
    const auto [at, is_new] = machine_rows_.try_emplace({machine, day}, 0);
    if (is_new) {
      const Minute from = day * minutes_a_day;
      const Calendar& calendar = problem_.machines[static_cast<std::size_t>(machine)].calendar;
      at->second = p.row(-1e30, share_ * calendar.between(from, from + minutes_a_day));
    }
    return at->second;
  }
  int people_row(Program& p, int day) {
    return people(p, day, people_rows_, problem_.people.present);
  }
  int setters_row(Program& p, int day) {
    return people(p, day, setters_rows_, problem_.people.setters);
  }
  const std::map<std::pair<int, int>, int>& machine_rows() const { return machine_rows_; }
  bool with_people() const { return !problem_.people.present.empty(); }

 private:
  int people(Program& p, int day, std::map<int, int>& rows, const std::vector<int>& there) {
    const auto [at, is_new] = rows.try_emplace(day, 0);
    if (is_new) {
      double minutes = 0;
      const auto steps = static_cast<std::size_t>(minutes_a_day / time_step);
      const std::size_t from = static_cast<std::size_t>(day) * steps;
      for (std::size_t i = from; i < std::min(from + steps, there.size()); ++i)
        minutes += there[i] * time_step / 1000.0;
      at->second = p.row(-1e30, share_ * minutes);
    }
    return at->second;
  }
  void spend(Program& p, const Choice& c, int day, int column, Minute minutes, int attended) {
    if (minutes <= 0) return;
    p.put(machine_row(p, c.machine, day), column, minutes);
    if (with_people() && attended > 0)
      p.put(people_row(p, day), column, minutes * std::min(1000, attended) / 1000.0);
  }
  void operation(Program& p, const PlannedJob& job, std::size_t k) {
    const int o = job.operations[k];
    const PlannedOperation& operation = problem_.operations[static_cast<std::size_t>(o)];
    Minute head = job.release;
    if (k > 0 &&
        problem_.operations[static_cast<std::size_t>(job.operations[k - 1])].transfer >= 1) {
      PlannedJob before = job;
      before.operations.resize(k);
      head = done_alone(problem_, before, 0, job.release);
    }
    const int whole = p.row(1, 1);
    whole_[o] = whole;
    double least = 1e300;
    for (const Choice& c : operation.choices) {
      least = std::min<double>(least, c.ready + c.run);
      // As much of the setup as of the run.
      const int together = c.ready > 0 ? p.row(0, 0) : -1;
      const Calendar& calendar = problem_.machines[static_cast<std::size_t>(c.machine)].calendar;
      for (int d = head == never ? days_ : std::max(0, head / minutes_a_day); d < days_; ++d) {
        const Minute t = calendar.next(std::max(head, d * minutes_a_day));
        if (t == never || t >= (d + 1) * minutes_a_day) continue;
        const Minute done = operation.transfer < 1 ? t : done_after(problem_, job, k, t);
        const int column = p.column(0, 1, 0);
        p.put(whole, column, 1);
        spend(p, c, d, column, c.run, c.attended);
        shares_.push_back({o, column, lateness_of(problem_, job, done)});
        if (together < 0) continue;
        const int setting = p.column(0, 1, 0);
        p.put(together, column, 1);
        p.put(together, setting, -1);
        spend(p, c, d, setting, c.ready, 1000);
        if (with_people()) p.put(setters_row(p, d), setting, c.ready);
      }
    }
    minutes_[o] = least < 1e300 ? least : 0;
    const int column = p.column(0, 1, 0);
    p.put(whole, column, 1);
    shares_.push_back({o, column, lateness_of(problem_, job, never)});
  }

  const PlanProblem& problem_;
  double share_;
  Minute end_ = 0;
  int days_ = 0;
  std::map<int, int> whole_;
  std::map<int, double> minutes_;
  std::map<std::pair<int, int>, int> machine_rows_;
  std::map<int, int> people_rows_, setters_rows_;
  std::vector<Share> shares_;
};

}  // namespace

std::optional<double> capacity_bound(const PlanProblem& problem) {
  if (problem.score == Score::makespan) return std::nullopt;
  Program p;
  Fluid fluid(problem, 1);
  if (!fluid.work(p)) return std::nullopt;
  std::map<int, int> rows;  // by operation: its order is as late as this work makes it
  for (const PlannedJob& job : problem.jobs) {
    if (job.operations.empty()) continue;
    const double alone = lateness_of(problem, job, done_alone(problem, job, 0, job.release));
    const int late = p.column(alone, 1e30, 1);
    for (const int o : job.operations) {
      rows[o] = p.row(0, 1e30);
      p.put(rows[o], late, 1);
    }
  }
  for (const Share& s : fluid.shares())
    if (s.late > 0) p.put(rows[s.operation], s.column, -s.late);
  if (!p.solve()) return std::nullopt;
  // What the solver may be off.
  return std::max(least_lateness(problem), p.best() * (1 - 1e-6) - 1e-6);
}

std::optional<Relief> cheapest_relief(const PlanProblem& problem, const ReliefPrices& prices,
                                      double share) {
  if (problem.score == Score::makespan) return std::nullopt;
  // A day late costs more than any hour: money decides between plans that are as late.
  constexpr double late_price = 1e6;
  Program p;
  Fluid fluid(problem, share);
  if (!fluid.work(p)) return std::nullopt;
  for (const Share& s : fluid.shares()) p.price(s.column, late_price * s.late);
  struct Over {
    Overtime what;
    int column;
  };
  std::vector<Over> over;
  const double minute = in(prices.overtime, unit::money_per_h) / 60;
  for (const auto& [at, row] : fluid.machine_rows()) {
    if (prices.most <= 0) break;
    const int column = p.column(0, prices.most, std::max(minute, 1e-6));
    p.put(row, column, -1);
    if (fluid.with_people()) {
      p.put(fluid.people_row(p, at.second), column, -1);
      p.put(fluid.setters_row(p, at.second), column, -1);
    }
    over.push_back({{at.first, at.second, 0}, column});
  }
  std::map<std::size_t, int> given;
  const double subcontract_rate = in(prices.subcontracted, unit::money_per_h);
  auto hours_of = [&](const PlannedJob& job) {
    double minutes = 0;
    for (const int o : job.operations) minutes += fluid.minutes_of(o);
    return minutes / 60;
  };
  for (std::size_t j = 0; j < problem.jobs.size() && subcontract_rate > 0; ++j) {
    const PlannedJob& job = problem.jobs[j];
    const Minute back = back_after(problem, job.release, prices.days);
    if (job.operations.empty()) continue;
    const int column = p.column(
        0, 1, subcontract_rate * hours_of(job) + late_price * lateness_of(problem, job, back));
    for (const int o : job.operations) p.put(fluid.whole_row(o), column, 1);
    given[j] = column;
  }
  if (!p.solve()) return std::nullopt;
  // A job goes whole: the one that is taken for most of it is fixed, and the rest worked anew.
  auto share_given = [&](std::size_t j) { return p.value(given.at(j)); };
  for (std::size_t round = 0; round < given.size(); ++round) {
    std::size_t most = problem.jobs.size();
    for (const auto& [j, column] : given)
      if (share_given(j) > 1e-6 && share_given(j) < 1 - 1e-6 &&
          (most == problem.jobs.size() || share_given(j) > share_given(most)))
        most = j;
    if (most == problem.jobs.size()) break;
    p.fix(given.at(most), 1);
    if (!p.solve()) return std::nullopt;
  }
  Relief relief;
  for (Over& o : over) {
    o.what.minutes = static_cast<Minute>(std::ceil(p.value(o.column) / 30 - 1e-6)) * 30;
    o.what.minutes = std::min(o.what.minutes, prices.most);
    if (o.what.minutes <= 0) continue;
    relief.cost = relief.cost + minute * o.what.minutes * unit::money;
    relief.overtime.push_back(o.what);
  }
  for (const auto& [j, column] : given)
    if (p.value(column) > 0.5) {
      relief.subcontracted.push_back(j);
      relief.cost = relief.cost + subcontract_rate * hours_of(problem.jobs[j]) * unit::money;
    }
  return relief;
}

#endif

}  // namespace turnwright
