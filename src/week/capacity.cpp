// SPDX-License-Identifier: MIT
#include "turnwright/week/capacity.hpp"

#ifdef TURNWRIGHT_CLP
#include <cmath>
#include <map>

#include "fluid.hpp"
#include "turnwright/quantity/unit.hpp"
#endif

namespace turnwright {

#ifndef TURNWRIGHT_CLP

bool has_linear_programs() { return false; }
std::optional<Relief> cheapest_relief(const PlanProblem&, const ReliefPrices&, double) {
  return std::nullopt;
}

#else

bool has_linear_programs() { return true; }

namespace {

// A day late costs more than any hour: money decides between plans that are as late.
constexpr double late_price = 1e6;

// The program of the cheapest relief: overtime by machine and day, lots that go out.
class ReliefProgram {
 public:
  ReliefProgram(const PlanProblem& problem, const ReliefPrices& prices, double share)
      : problem_(problem),
        prices_(prices),
        fluid_(problem, share),
        minute_(in(prices.overtime, unit::money_per_h) / 60),
        outside_hour_(in(prices.subcontracted, unit::money_per_h)) {}

  // False when the week is too large, or nothing is best.
  bool solve() {
    if (!fluid_.work(p_)) return false;
    for (const WorkShare& s : fluid_.shares()) p_.price(s.column, late_price * s.late);
    overtime_columns();
    lot_columns();
    return p_.solve() && whole_lots();
  }
  Relief relief() const {
    Relief relief;
    for (Overtime over : overtime_minutes()) {
      relief.cost = relief.cost + minute_ * over.minutes * unit::money;
      relief.overtime.push_back(over);
    }
    for (const auto& [j, column] : out_)
      if (p_.value(column) > 0.5) {
        relief.subcontracted.push_back(j);
        relief.cost = relief.cost + outside_hour_ * hours_of(problem_.lots[j]) * unit::money;
      }
    return relief;
  }

 private:
  void overtime_columns() {
    for (const auto& [at, row] : fluid_.machine_rows()) {
      if (prices_.most <= 0) break;
      const int column = p_.column(0, prices_.most, std::max(minute_, 1e-6));
      p_.coefficient(row, column, -1);
      if (fluid_.with_people()) {
        p_.coefficient(fluid_.people_row(p_, at.second), column, -1);
        p_.coefficient(fluid_.setters_row(p_, at.second), column, -1);
      }
      over_.push_back({{at.first, at.second, 0}, column});
    }
  }
  void lot_columns() {
    for (std::size_t j = 0; j < problem_.lots.size() && outside_hour_ > 0; ++j) {
      const PlannedLot& lot = problem_.lots[j];
      const Minute back = back_after(problem_, lot.release, prices_.days);
      if (lot.operations.empty()) continue;
      const int column = p_.column(
          0, 1, outside_hour_ * hours_of(lot) + late_price * lateness_of(problem_, lot, back));
      for (const int o : lot.operations) p_.coefficient(fluid_.whole_row(o), column, 1);
      out_[j] = column;
    }
  }
  // A lot goes out whole: the one that is for the most part out is fixed, and the rest worked anew.
  bool whole_lots() {
    for (std::size_t round = 0; round < out_.size(); ++round) {
      const auto most = mostly_out();
      if (!most) break;
      p_.fix(out_.at(*most), 1);
      if (!p_.solve()) return false;
    }
    return true;
  }
  std::optional<std::size_t> mostly_out() const {
    std::optional<std::size_t> most;
    for (const auto& [j, column] : out_) {
      const double share = p_.value(column);
      if (share > 1e-6 && share < 1 - 1e-6 && (!most || share > p_.value(out_.at(*most)))) most = j;
    }
    return most;
  }
  // In half hours, up.
  std::vector<Overtime> overtime_minutes() const {
    std::vector<Overtime> all;
    for (const Over& over : over_) {
      Overtime what = over.what;
      what.minutes = static_cast<Minute>(std::ceil(p_.value(over.column) / 30 - 1e-6)) * 30;
      what.minutes = std::min(what.minutes, prices_.most);
      if (what.minutes > 0) all.push_back(what);
    }
    return all;
  }
  double hours_of(const PlannedLot& lot) const {
    double minutes = 0;
    for (const int o : lot.operations) minutes += fluid_.minutes_of(o);
    return minutes / 60;
  }

  struct Over {
    Overtime what;
    int column;
  };
  const PlanProblem& problem_;
  const ReliefPrices& prices_;
  LinearProgram p_;
  Fluid fluid_;
  double minute_, outside_hour_;  // what one of overtime, and of another firm, costs
  std::vector<Over> over_;
  std::map<std::size_t, int> out_;  // by lot: its column
};

}  // namespace

std::optional<Relief> cheapest_relief(const PlanProblem& problem, const ReliefPrices& prices,
                                      double share) {
  if (problem.score == Score::makespan) return std::nullopt;
  ReliefProgram program(problem, prices, share);
  if (!program.solve()) return std::nullopt;
  return program.relief();
}

#endif

}  // namespace turnwright
