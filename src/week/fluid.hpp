// SPDX-License-Identifier: MIT
#pragma once
// The linear program of a plan whose work flows like a fluid. Only where Clp is built in.
#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include <ClpSimplex.hpp>
#include <CoinPackedMatrix.hpp>

#include "turnwright/week/plan.hpp"

namespace turnwright {

inline constexpr std::size_t largest_program = 200000;

// Rows and columns as they come.
class LinearProgram {
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
  void coefficient(int row, int column, double value) {
    rows_.push_back(row);
    columns_.push_back(column);
    values_.push_back(value);
  }
  std::size_t columns() const { return cost_.size(); }
  /// False when it has no best point, or a cost that Clp ends the process at.
  bool solve() {
    constexpr double most = 1e20;
    for (const double cost : cost_)
      if (!(std::abs(cost) < most)) return false;
    const CoinPackedMatrix matrix(true, rows_.data(), columns_.data(), values_.data(),
                                  static_cast<CoinBigIndex>(values_.size()));
    model_.setLogLevel(0);
    model_.loadProblem(matrix, from_.data(), to_.data(), cost_.data(), low_.data(), high_.data());
    return model_.dual() == 0 && model_.isProvenOptimal();
  }
  double value(int column) const { return model_.getColSolution()[column]; }

 private:
  std::vector<double> low_, high_, from_, to_, cost_, values_;
  std::vector<int> rows_, columns_;
  ClpSimplex model_;
};

// A part of an operation's run on a day, and how late it would make its lot.
struct WorkShare {
  int column = 0;
  double late = 0;
};

class Fluid {
 public:
  Fluid(const PlanProblem& problem, double share) : problem_(problem), share_(share) {
    end_ = end_of_calendars(problem);
    days_ = end_ / minutes_a_day;
  }

  // Columns of all work by day; a column after the calendar for what does not fit.
  bool work(LinearProgram& p) {
    for (std::size_t j = 0; j < problem_.lots.size(); ++j)
      for (std::size_t k = 0; k < problem_.lots[j].operations.size(); ++k) {
        operation(p, problem_.lots[j], k);
        if (p.columns() > largest_program) return false;
      }
    return true;
  }
  const std::vector<WorkShare>& shares() const { return shares_; }
  int whole_row(int operation) const { return whole_.at(operation); }
  double minutes_of(int operation) const { return minutes_.at(operation); }
  int machine_row(LinearProgram& p, int machine, int day) {
    const auto [at, is_new] = machine_rows_.try_emplace({machine, day}, 0);
    if (is_new) {
      const Minute from = day * minutes_a_day;
      at->second =
          p.row(-1e30, share_ * problem_.calendar_of(machine).between(from, from + minutes_a_day));
    }
    return at->second;
  }
  int people_row(LinearProgram& p, int day) {
    return people(p, day, people_rows_, problem_.people.present);
  }
  int setters_row(LinearProgram& p, int day) {
    return people(p, day, setters_rows_, problem_.people.setters);
  }
  const std::map<std::pair<int, int>, int>& machine_rows() const { return machine_rows_; }
  bool with_people() const { return !problem_.people.present.empty(); }

 private:
  int people(LinearProgram& p, int day, std::map<int, int>& rows,
             const std::vector<int>& available) {
    const auto [at, is_new] = rows.try_emplace(day, 0);
    if (is_new) {
      double minutes = 0;
      const auto steps = static_cast<std::size_t>(minutes_a_day / time_step);
      const std::size_t from = static_cast<std::size_t>(day) * steps;
      for (std::size_t i = from; i < std::min(from + steps, available.size()); ++i)
        minutes += available[i] * time_step / 1000.0;
      at->second = p.row(-1e30, share_ * minutes);
    }
    return at->second;
  }
  void spend(LinearProgram& p, const Choice& c, int day, int column, Minute minutes, int attended) {
    if (minutes <= 0) return;
    p.coefficient(machine_row(p, c.machine, day), column, minutes);
    if (with_people() && attended > 0)
      p.coefficient(people_row(p, day), column, minutes * std::min(1000, attended) / 1000.0);
  }
  // When an operation could begin at the earliest.
  Minute earliest(const PlannedLot& lot, std::size_t k) const {
    if (k == 0 || problem_.operation(lot.operations[k - 1]).transfer < 1) return lot.release;
    PlannedLot before = lot;
    before.operations.resize(k);
    return done_alone(problem_, before, 0, lot.release);
  }
  void operation(LinearProgram& p, const PlannedLot& lot, std::size_t k) {
    const int o = lot.operations[k];
    const PlannedOperation& operation = problem_.operation(o);
    const Minute head = earliest(lot, k);
    whole_[o] = p.row(1, 1);
    double least = 1e300;
    for (const Choice& c : operation.choices) {
      least = std::min<double>(least, c.setup + c.run);
      days(p, lot, k, c, head);
    }
    minutes_[o] = least < 1e300 ? least : 0;
    const int column = p.column(0, 1, 0);
    p.coefficient(whole_[o], column, 1);
    shares_.push_back({column, lateness_of(problem_, lot, never)});
  }
  // A column a day on which the choice has open time, with as much of the setup as of the run.
  void days(LinearProgram& p, const PlannedLot& lot, std::size_t k, const Choice& c, Minute head) {
    const int o = lot.operations[k];
    const int together = c.setup > 0 ? p.row(0, 0) : -1;
    for (int d = head == never ? days_ : std::max(0, head / minutes_a_day); d < days_; ++d) {
      const Minute t = problem_.calendar_of(c.machine).next(std::max(head, d * minutes_a_day));
      if (t == never || t >= (d + 1) * minutes_a_day) continue;
      const Minute done = problem_.operation(o).transfer < 1 ? t : done_after(problem_, lot, k, t);
      const int column = p.column(0, 1, 0);
      p.coefficient(whole_[o], column, 1);
      spend(p, c, d, column, c.run, c.attended);
      shares_.push_back({column, lateness_of(problem_, lot, done)});
      if (together < 0) continue;
      const int setting = p.column(0, 1, 0);
      p.coefficient(together, column, 1);
      p.coefficient(together, setting, -1);
      spend(p, c, d, setting, c.setup, 1000);
      if (with_people()) p.coefficient(setters_row(p, d), setting, c.setup);
    }
  }

  const PlanProblem& problem_;
  double share_;
  Minute end_ = 0;
  int days_ = 0;
  std::map<int, int> whole_;
  std::map<int, double> minutes_;
  std::map<std::pair<int, int>, int> machine_rows_;
  std::map<int, int> people_rows_, setters_rows_;
  std::vector<WorkShare> shares_;
};

}  // namespace turnwright
