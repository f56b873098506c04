// SPDX-License-Identifier: MIT
#pragma once
// What the planner knows of the week: when machines and people are there, and which orders wait.
#include <array>
#include <compare>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/problem.hpp"
#include "turnwright/quantity/currency.hpp"
#include "turnwright/quantity/date.hpp"
#include "turnwright/week/capacity.hpp"

namespace turnwright {

enum class MountedKind { tool, hard_jaws, soft_jaws, bored_jaws, bar };
/// What is mounted on a machine. A week file writes "tool centre drill", "jaws, hard", "jaws,
/// soft", "soft jaws bored to 40" and "bar 35", the sizes in mm.
struct MountedItem {
  MountedKind kind = MountedKind::tool;
  std::string name;  // of a tool
  double size = 0;   // mm, of a bar or of bored jaws, to five digits

  auto operator<=>(const MountedItem&) const = default;
};
/// A bar, or soft jaws bored to a diameter.
MountedItem mounted_item(MountedKind kind, Length diameter);

/// A machine that is down, and why, where the file says it.
struct Downtime {
  Span span;
  std::string why;
};

/// A pause of a shift, on the days on which that is worked.
struct Pause {
  std::array<bool, 7> days{};  // from Monday on
  std::set<int> dates;         // from the first day of the week on, worked once
  Span span;                   // of a day; may lie on the next one
};

/// Work that a machine was booked for last: it is still set up there.
struct LeftSetUp {
  std::string order;
  int operation = 0;
};

struct WeekMachine {
  std::string machine;  // of the shop
  std::string name;     // what it is called here, where there are two of a kind
  Position at;
  Calendar open;               // without its downtime
  std::vector<Pause> pauses;   // of its shifts
  std::vector<Downtime> down;  // in the order of the file
  std::vector<MountedItem> mounted;
  std::optional<LeftSetUp> left;  // where bookings are taken; then instead of what is mounted
  /// Rated capacity is open hours x utilisation x efficiency (APICS Dictionary, "rated capacity").
  double utilisation = 1, efficiency = 1;
  double rated() const { return utilisation * efficiency; }
};

struct Person {
  std::string name;
  Calendar available;
  std::vector<Downtime> away;
  bool sets = false;
  // Of the week, that he runs and that he sets up; not said: all of them, all that he runs.
  std::optional<std::vector<std::string>> machines, sets_up;

  bool may_run(const std::string& machine) const;
  bool may_set(const std::string& machine) const;
};

/// Machines of the week by one name.
struct MachineGroup {
  std::string name;
  std::vector<std::string> machines;
};

/// `asked`: a quote that a date is looked for; planned as if it were won.
enum class OrderState { won, quoted, running, asked };

/// An operation that the planner has put on one of some machines; where it has a moment, it begins
/// then, and not before.
struct Pin {
  int operation = 0;
  std::vector<std::string> machines;  // of the week
  std::optional<Minute> from;
};
/// The material of an operation, or what else it needs, is there from then on.
struct Arrival {
  int operation = 0;
  Minute from = 0;
};
/// Machines of the week that an operation must not go to.
struct Forbidden {
  int operation = 0;
  std::vector<std::string> machines;
};

/// A file of orders that the week names, from its folder.
struct OrderList {
  std::string path;
  Position at;
};

/// What is booked of an operation.
struct BookedWork {
  int good = 0, scrap = 0;
  Minute last = 0;      // until then; below 0: before the first day of the week
  std::string machine;  // of the last
  int made() const { return good + scrap; }
};

struct WeekOrder {
  WeekOrder();  // written once, in week.cpp, not in every file that copies one
  WeekOrder(const WeekOrder&);
  WeekOrder(WeekOrder&&) noexcept;
  WeekOrder& operator=(const WeekOrder&);
  WeekOrder& operator=(WeekOrder&&) noexcept;
  ~WeekOrder();

  std::string number, part;  // path of the part file, from the folder of the week
  std::string customer;
  std::optional<Problem> row;      // where it stands in a list of orders, nothing said yet
  std::optional<Amount> day_late;  // what a day late costs; else the shop's
  Position at;
  int quantity = 1, done = 0;  // pieces of the operation that comes next or runs
  std::vector<int> finished;   // operations that are done
  bool is_finished(int operation) const;
  std::map<int, BookedWork> booked;  // by operation
  int at_work = 0;  // the operation that `done` is of, by what is booked; 0: the first left
  Minute release = 0;
  Date due{};
  double importance = 1;
  OrderState state = OrderState::won;
  double probability = 1;  // of a quote
  bool repeat = false;     // made before, unchanged
  std::string machine;     // of the week, that all of it goes to; of what runs, where; "": any
  std::string runs_on;     // where it was booked last: what it is made by, and where it runs
  std::vector<std::string> not_on;  // machines of the week that it must not go to
  std::vector<Forbidden> operations_not_on;
  std::vector<Pin> pins;
  std::vector<Arrival> arrivals;
  std::string hold;  // why it is not planned; "": it is
  int batches = 1;   // it runs in so many, each with its own setup
  // Of a batch that is an order of its own, since it is booked: the order, and its pieces.
  std::string batch_of;
  int whole = 0;
  double transfer = 1;  // the next operation begins when this share of the pieces is done

  /// What it is quoted by.
  int lot_quantity() const { return whole > 0 ? whole : quantity; }
  /// The planner keeps it off this machine of the week; of one operation, by its pin too.
  bool forbids(std::string_view name) const;
  bool forbids(int operation, std::string_view name) const;
};

/// Years that a date of a week or of a booking may lie in.
inline constexpr int first_year = 1970, last_year = 2200;
bool in_range(Date day);
struct Week;
/// The first day that a date may lie on, where bookings count from.
Date earliest_day();
/// From there to the week's own.
Minute minutes_before(const Week& week);

struct Week {
  Week();  // written once, in week.cpp, not in every file that copies one
  Week(const Week&);
  Week(Week&&) noexcept;
  Week& operator=(const Week&);
  Week& operator=(Week&&) noexcept;
  ~Week();

  std::string file, text;  // text: as it was read, for the lines of later problems
  Date from{}, to{};
  Minute now = 0;
  Minute frozen = minutes_a_day;  // from now on, what is posted stays when it is planned again
  std::vector<WeekMachine> machines;
  std::vector<MachineGroup> groups;
  std::vector<Person> people;
  std::vector<WeekOrder> orders;
  std::vector<OrderList> order_lists;  // whose orders come beside these
  ReliefPrices relief;
  std::vector<bool> working;  // by day: other firms work too

  int days() const { return days_between(from, to) + 1; }
  Minute end() const { return days() * minutes_a_day; }
  /// Midnight after the day.
  Minute end_of(Date day) const { return (days_between(from, day) + 1) * minutes_a_day; }
  /// The day on which something ends: midnight is the end of a day.
  Date ending_on(Minute t) const { return days_after(from, days_before(t - 1)); }
  bool has_machine(std::string_view name) const;
  /// The file says who runs and who sets what: the plan says who does what.
  bool people_by_name() const;
  /// Somebody who is there in the week runs this machine, and somebody sets it up.
  bool is_manned(const WeekMachine& machine) const;
  const WeekMachine& machine(int m) const { return machines[static_cast<std::size_t>(m)]; }
};

/// Easter Sunday of the Gregorian calendar (J. Meeus, Astronomical Algorithms, 2nd ed. 1998, ch.
/// 8).
Date easter(int year);

/// Reads a week file; all of its problems, or the week. Prices are in the shop's own currency, or
/// in one that it has a record of. `now`, where it is said, stands instead of the file's.
Checked<Week> read_week(std::string file, std::string_view text, Currencies currencies = {},
                        std::string_view now = {});
/// A problem at a place of the week file, with the line that stands there.
Problem problem_in(const Week& week, Position at, Message what, Message expected = {},
                   std::string suggestion = "");

/// The same at the place of an order, in the week file or in a list of orders.
Problem problem_of(const Week& week, const WeekOrder& order, Message what, Message expected = {});

/// "2026-12-07T14:30:00", with a blank for the T or without seconds, in minutes from the day
/// `first`; nothing when it is none, goes on after that, or lies outside of `first_year` to
/// `last_year`.
std::optional<Minute> read_moment(std::string_view text, Date first);
/// It is a moment of some zone: "2026-12-07T14:30Z", "2026-12-07T14:30+01:00".
bool has_zone(std::string_view text);
/// "2026-12-07T14:30:00", for data.
std::string iso_text(const Week& week, Minute t);

/// Moments for sentences: "Mon 7 Dec 14:30". Midnight is the end of a day, 24:00.
Message moment_of(const Week& week, Minute t);
/// The same of something that begins: a day alone at midnight.
Message beginning_of(const Week& week, Minute t);
/// "Mon 7 Dec".
Message day_of(Date day);
/// How late a lot is that is done then: "late by 3 hours", "late by 2.5 days", "on time", or that
/// it does not fit into the calendar.
Message late_by(const PlannedLot& lot, Minute done);
/// "2.5 days", "3 hours".
Message span_of(double days);

}  // namespace turnwright
