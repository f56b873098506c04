// SPDX-License-Identifier: MIT
#pragma once
// Invented weeks as problems, the same on every machine: shifts, people, parts that come again,
// what stays mounted, outside work, prices of an hour; as tight as is asked for.
#include <cmath>
#include <cstdint>

#include "turnwright/week/plan.hpp"

namespace turnwright::test {

struct MadeWeek {
  int orders = 100, days = 28;
  double people = 0.9;    // of what is there until the last due date, used
  double machines = 0.6;  // the same of the machines
  std::uint64_t draw = 1;
};

class MadeProblem {
 public:
  explicit MadeProblem(const MadeWeek& week) : week_(week), state_(week.draw * 7919 + 17) {}

  PlanProblem make() {
    machines();
    parts();
    for (int j = 0; j < week_.orders; ++j) order(j);
    fill_hours();
    return std::move(p_);
  }

 private:
  int whole(int low, int high) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return low + static_cast<int>((state_ >> 33) % static_cast<std::uint64_t>(high - low + 1));
  }
  bool one_in(int n) { return whole(1, n) == 1; }
  int last_due() const { return week_.days * 2 / 3; }

  void machines() {
    const int count = std::max(5, week_.orders / 10);
    for (int m = 0; m < count; ++m) {
      std::vector<Span> open;
      for (int d = 0; d < week_.days; ++d)
        if (d % 7 < 5 && !(m % 6 == 5 && d == 8))  // serviced
          open.push_back({d * minutes_a_day + 360, d * minutes_a_day + (m % 3 == 2 ? 840 : 1320)});
      PlannedMachine machine;
      machine.calendar = Calendar(open);
      machine.mounted = {whole(0, 5)};
      p_.machines.push_back(std::move(machine));
      hour_.push_back(m % 3 == 2 ? 52 : whole(58, 78));
    }
    for (int d = 0; d <= week_.days; ++d) {
      int back = d;
      while (back % 7 > 4) ++back;
      p_.back_on.push_back(back < week_.days ? (back + 1) * minutes_a_day : never);
    }
  }
  // A third as many parts as orders; each operation on one to three machines, dearer the slower.
  void parts() {
    const auto count = static_cast<int>(p_.machines.size());
    for (int i = 0; i < std::max(3, week_.orders / 3); ++i) {
      std::vector<PlannedOperation> operations;
      for (int k = whole(1, 3); k > 0; --k) {
        PlannedOperation operation;
        operation.job = p_.jobs++;
        const int first = whole(0, count - 1), each = whole(2, 40);
        for (int c = 0, n = whole(1, 3); c < n; ++c) {
          Choice choice;
          choice.machine = (first + c) % count;
          choice.run = each * (10 + 5 * c);  // tenths of a minute a piece
          choice.attended = 100 * whole(3, 10);
          choice.proving = 5 * whole(2, 8);
          for (int key = 0; key < 6; ++key)
            if (one_in(3)) choice.items.push_back({key, 5 * whole(1, 4)});
          choice.items.push_back({100 + 4 * operation.job + c, 5 * whole(4, 10)});
          operation.choices.push_back(std::move(choice));
        }
        operation.days_after = one_in(8) ? whole(1, 4) : 0;
        operations.push_back(std::move(operation));
      }
      parts_.push_back(std::move(operations));
    }
  }
  void order(int j) {
    PlannedLot lot;
    lot.release = one_in(3) ? whole(0, last_due() / 2) * minutes_a_day : 0;
    lot.due =
        std::min(last_due(), lot.release / minutes_a_day + whole(2, last_due())) * minutes_a_day;
    if (one_in(8)) lot.weight = 3;
    const int pieces = whole(4, 60);
    for (PlannedOperation operation :
         parts_[static_cast<std::size_t>(whole(0, static_cast<int>(parts_.size()) - 1))]) {
      operation.lot = j;
      for (Choice& c : operation.choices) c.run = c.run * pieces / 10;
      if (one_in(10)) operation.transfer = 0.25;
      lot.operations.push_back(static_cast<int>(p_.operations.size()));
      p_.operations.push_back(std::move(operation));
    }
    p_.lots.push_back(std::move(lot));
  }
  // Times and people so that the hours until the last due date are filled as asked.
  void fill_hours() {
    double open = 0, work = 0, attended = 0;
    for (const PlannedMachine& machine : p_.machines)
      open += machine.calendar.between(0, last_due() * minutes_a_day);
    for (const PlannedOperation& operation : p_.operations) work += operation.choices.front().run;
    const double factor = week_.machines * open / work;
    for (PlannedOperation& operation : p_.operations)
      for (Choice& c : operation.choices) {
        c.run = std::max(5, static_cast<int>(c.run * factor / time_step) * time_step);
        c.setup_price = c.run_price = hour_[static_cast<std::size_t>(c.machine)] / 60.0 / 200;
      }
    for (const PlannedOperation& operation : p_.operations)
      attended += operation.choices.front().run * operation.choices.front().attended / 1000.0 +
                  whole_setup(operation.choices.front()) * 0.8;
    people(attended / week_.people);
  }
  // So many minutes until the last due date, two thirds of them early; two of three set.
  void people(double minutes) {
    p_.people.present.assign(static_cast<std::size_t>(week_.days * minutes_a_day / time_step), 0);
    p_.people.setters = p_.people.present;
    int days = 0;
    for (int d = 0; d < last_due(); ++d) days += d % 7 < 5 ? 1 : 0;
    const double each = minutes / days / 480;  // of people, by day
    const int early = std::max(1, static_cast<int>(std::lround(each * 2 / 3)));
    const int late = std::max(1, static_cast<int>(std::lround(each)) - early);
    for (int d = 0; d < week_.days; ++d)
      for (int t = 72; t < 264 && d % 7 < 5; ++t) {
        const auto i = static_cast<std::size_t>(d * minutes_a_day / time_step + t);
        const int there = t < 168 ? early : late;
        p_.people.present[i] = 1000 * there;
        p_.people.setters[i] = 1000 * std::max(1, there * 2 / 3);
      }
  }

  MadeWeek week_;
  std::uint64_t state_;
  PlanProblem p_;
  std::vector<double> hour_;  // of a machine
  std::vector<std::vector<PlannedOperation>> parts_;
};

inline PlanProblem made_problem(const MadeWeek& week) { return MadeProblem(week).make(); }

/// Thirty of them: 40 to 500 orders, one in three with too few people.
inline std::vector<MadeWeek> thirty_weeks() {
  std::vector<MadeWeek> weeks;
  for (int i = 0; i < 30; ++i) {
    MadeWeek week;
    week.orders = 40 + 460 * (i * i) / (29 * 29);
    week.people = i % 3 == 0 ? 0.95 + 0.15 * i / 29 : 0.6 + 0.01 * i;
    week.machines = 0.45 + 0.01 * (i % 10);
    week.draw = static_cast<std::uint64_t>(i) + 1;
    weeks.push_back(week);
  }
  return weeks;
}

}  // namespace turnwright::test
