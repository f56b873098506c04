// SPDX-License-Identifier: MIT
#pragma once
// What the planner knows of the week: when machines and people are there, and which orders wait.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/problem.hpp"
#include "turnwright/quantity/date.hpp"
#include "turnwright/week/capacity.hpp"

namespace turnwright {

struct WeekMachine {
  std::string machine;  // of the shop
  std::string name;     // what it is called here, where there are two of a kind
  Position at;
  Calendar open;
  std::vector<std::string> mounted;  // "tool …", "jaws …", "bar …" as setup names them
  /// Rated capacity is open hours x utilisation x efficiency (APICS Dictionary, "rated capacity").
  double utilisation = 1, efficiency = 1;
  double rated() const { return utilisation * efficiency; }
};

struct Person {
  std::string name;
  Calendar there;
  bool sets = false;
};

enum class OrderState { won, quoted, running };

struct Order {
  std::string number, part;  // path of the part file, from the folder of the week
  Position at;
  int quantity = 1, done = 0;  // pieces of what runs now
  std::vector<int> finished;   // operations that are done
  Minute release = 0;
  Date due{};
  double importance = 1;
  OrderState state = OrderState::won;
  double probability = 1;  // of a quote
  int batches = 1;         // it runs in so many, each with its own setup
  double transfer = 1;     // the next operation begins when this share of the pieces is done
};

struct Week {
  std::string file;
  Date from{}, to{};
  Minute now = 0;
  Minute frozen = minutes_a_day;  // from now on, what hangs stays when it is planned again
  std::vector<WeekMachine> machines;
  std::vector<Person> people;
  std::vector<Order> orders;
  ReliefPrices relief;
  std::vector<bool> working;  // by day: somebody works elsewhere too

  int days() const { return days_between(from, to) + 1; }
  Minute end() const { return days() * minutes_a_day; }
  /// Midnight after the day.
  Minute end_of(Date day) const { return (days_between(from, day) + 1) * minutes_a_day; }
};

/// Easter Sunday of the Gregorian calendar (J. Meeus, Astronomical Algorithms, 2nd ed. 1998, ch.
/// 8).
Date easter(int year);

/// Reads a week file; all of its problems, or the week.
Checked<Week> read_week(std::string file, std::string_view text);

/// "2026-12-07T14:30:00" or with a blank, as a moment of the week; never when it is none.
Minute read_moment(const Week& week, std::string_view text);
/// "2026-12-07T14:30:00".
std::string iso_text(const Week& week, Minute t);
/// "Mon 07 14:30", of a moment of the week.
std::string moment_text(const Week& week, Minute t);
/// The same of something that begins: a day alone at midnight.
std::string beginning_text(const Week& week, Minute t);
std::string day_text(Date day);

}  // namespace turnwright
