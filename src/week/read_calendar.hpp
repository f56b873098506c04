// SPDX-License-Identifier: MIT
#pragma once
#include <array>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "turnwright/document/reader.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {

/// Holidays and shifts of a week file, and the calendars that machines and people have by them.
class CalendarReader {
 public:
  /// The week with its first and last day and now.
  CalendarReader(const Week& week, ProblemList& problems) : week_(week), problems_(problems) {}

  /// 2026-12-25, or by rule: 12-25 each year, {Easter: 1} days after Easter Sunday.
  void add_holiday(const Node& node);
  void add_shift(const Node& node);
  bool is_holiday(int day) const { return holidays_.contains(day); }
  /// The shifts that the map names on every day of the week but holidays, less what is under
  /// `away_key`, which is told, and nothing before now.
  Calendar calendar(MapReader& map, const char* away_key, std::vector<Downtime>& away);

  /// The pauses of these shifts.
  std::vector<Pause> pauses_of(const Node& shifts) const;

 private:
  struct Shift {
    std::array<bool, 7> days{};
    std::set<int> dates;      // worked once, holidays too; days from the first
    std::vector<Span> spans;  // of a day; `to` may lie on the next one
    std::vector<Span> pauses;
  };
  std::optional<Date> holiday_in(int year, const Node& node);
  Minute time_of(MapReader& map, std::string_view key);
  Span pause(const Node& node, const Span& shift);
  void shift_days(const Node& node, Shift& shift);
  std::vector<Span> shifts_of(const Node& list);
  void unknown_shift(const Node& node);
  void add_away(const Node& node, const char* key, std::vector<Downtime>& away);
  std::vector<Span> on_days(const Shift& shift) const;

  const Week& week_;
  ProblemList& problems_;
  std::set<int> holidays_;  // days from the first
  std::map<std::string, Shift> shifts_;
};

}  // namespace turnwright
