// SPDX-License-Identifier: MIT
#pragma once
// A week with its plan, with what is derived of hours, orders and runs worked out once.
#include <algorithm>
#include <vector>

#include "turnwright/output/week.hpp"

namespace turnwright {

/// Days of a calendar week, both included, from the first day of the plan.
struct DaysOfWeek {
  int first = 0, last = 0;
  int days() const { return last - first + 1; }
  Minute from() const { return first * minutes_a_day; }
  Minute to() const { return (last + 1) * minutes_a_day; }
  bool has(int day) const { return first <= day && day <= last; }
  /// Some of it.
  bool has(const Span& span) const { return span.from < to() && span.to > from(); }
};
/// From Monday to Sunday, of those days; the first and the last may be cut short.
std::vector<DaysOfWeek> calendar_weeks(const Week& week, const DaysOfWeek& shown);
/// "Week 7 Dec to 20 Dec".
Message title_of(const Week& week, const DaysOfWeek& days);
/// "7 operations after Fri 18 Dec" of those; nothing where none is.
Message beyond_line(const Week& week, const DaysOfWeek& shown,
                    const std::vector<const PlannedRun*>& runs);

/// A day on which a machine, or all people, have more required than available.
struct OverloadedDay {
  Date day{};
  double required = 0, available = 0;  // hours
};
struct LoadView {
  const MachineLoad* load = nullptr;
  double required = 0, available = 0;  // hours of the days that are shown
  std::vector<double> planned_on;      // by day, hours that the plan works
  double planned = 0;                  // of the days that are shown
  double share = 0;                    // required of available; 0 where none is available
  bool quoted = false;                 // hours of quotes are among them, worth a word
  std::vector<bool> overloaded_on;     // by day
  std::vector<OverloadedDay> days;     // overloaded ones
  bool overloaded() const { return required > available; }
};

struct OrderView {
  std::size_t lot = 0;  // of the problem
  const WeekOrder* order = nullptr;
  Message name;  // "118", "118.2"
  int pieces = 0, short_by = 0;
  Minute begins = never, done = never;
  double days_in_work = 0;  // from the one to the other
  Waiting waiting;
  bool fits = false;  // into the calendar
  bool late = false;  // also when it does not fit
  bool shown = true;  // of the days that are shown
  Message lateness;   // "late by 3 hours", "on time"
  bool quoted = false;
};

/// Who sets work up and who attends it, by name, each once, in the order in which they come to it.
struct WorkPeople {
  std::vector<std::string> sets, runs;
};

struct RunView {
  const PlannedRun* run = nullptr;
  Message name;    // "118 Op 10"
  Message posted;  // the same where people work to it: with what is only quoted marked
  std::size_t lot = 0;
  bool late = false, quoted = false;
  WorkPeople people;  // nobody where people are not told apart
};

/// What somebody does in one go, but for pauses.
struct StintView {
  const PlannedRun* run = nullptr;
  Message name;  // of the work, as it is posted
  Minute from = 0, to = 0;
  bool sets = false;
  int attended = 0;  // thousandths of him, where he attends it
};
struct PersonView {
  std::string name;
  std::vector<StintView> stints;  // in the order of their time
  std::vector<Downtime> away;     // that are not over
};

/// Work of other firms, as it goes out and is due back.
struct OutsideView {
  std::string order;  // for data
  Message name;
  std::size_t lot = 0;  // of what is planned
  int pieces = 0;
  int operation = 0;              // after which it goes out
  std::vector<std::string> what;  // "zinc plated"
  Minute out = 0, back = 0;       // back: never when that is after the calendar
};

struct WeekView {
  std::vector<LoadView> loads;
  std::vector<OrderView> orders;          // by lot of the problem
  std::vector<const OrderView*> due_out;  // by due date, those of the days that are shown
  std::vector<OutsideView> outside;
  DaysOfWeek shown;                         // days that all of this is of
  std::vector<std::vector<RunView>> runs;   // by machine, in the order of their time
  std::vector<std::vector<Downtime>> down;  // by machine, what is not over
  std::vector<PersonView> people;           // where people are told apart
  Messages half_set;                        // setting up that another ends, or after the shift
  Messages waits_begun;                     // what is begun and waits for somebody
  Time setup{};                             // of all
  InWork in_work;
  PlannedWork work;
  Message beyond;  // what comes after the days that are shown; nothing where nothing does
};
WeekView view_of(const Week& week, const WeekProblem& problem,
                 const std::vector<MachineLoad>& loads, const WeekPlan& plan, WeekShown shown = {});
/// Of the days that are shown.
Messages gap_lines(const WeekPlan& plan, const WeekView& view);

/// In the order in which it goes out; what is out already first.
std::vector<OutsideView> outside_of(const Week& week, const WeekProblem& problem, const Plan& plan);
/// "Thu 10 Dec 14:30: 123 out for zinc plated, 90 pieces, due back Tue 15 Dec", a line each.
Messages outside_lines(const Week& week, const WeekView& view);
/// Late orders for which nothing is tried, the less late; empty: each has its trials.
Message late_not_tried(const WeekPlan& plan);
/// What is other than posted; where nothing is, one line that says so; none without a posted plan.
Messages changes_of(const WeekPlan& plan);
/// "K232 Op 10 (quoted, not won)".
Message only_quoted(const Message& what);
/// Orders of which there will be too few pieces, a line each.
Messages short_orders(const Week& week, const WeekProblem& problem);
/// What cannot be planned, with the reasons, a line each.
Messages not_planned(const WeekProblem& problem);
/// The same of one, and of what is held.
std::vector<LeftOut> all_left_out(const Week& week, const WeekProblem& problem);
Messages reasons_of(const LeftOut& left);
/// What the planner holds, with his reason, a line each.
Messages held_orders(const Week& week);
/// "486 h for 32,100; each order by itself where it costs least: …"
Message work_summary(const PlannedWork& work, const Words& words);
/// What a proposal costs and saves; when each order that is late without it or with it is done
/// then, a line each; what it changes, a line each.
Message relief_summary(const ReliefTried& tried);
Messages relieved_orders(const Week& week, const WeekProblem& problem, const ReliefTried& tried);
Messages proposed_changes(const Week& week, const WeekProblem& problem, const Relief& relief);

/// Orders of booked times that are used in a factor, and those left out of it.
struct FactorView {
  const Factor* factor = nullptr;
  std::vector<const BookedRatio*> used, outliers;
};
FactorView view_of(const Factor& factor);

}  // namespace turnwright
