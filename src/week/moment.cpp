// SPDX-License-Identifier: MIT
// Moments of the week, for sentences and for data.
#include <array>

#include "turnwright/week/week.hpp"

namespace turnwright {
namespace {

constexpr std::array weekdays{"week.mon", "week.tue", "week.wed", "week.thu",
                              "week.fri", "week.sat", "week.sun"};
constexpr std::array months{"month.1", "month.2", "month.3", "month.4",  "month.5",  "month.6",
                            "month.7", "month.8", "month.9", "month.10", "month.11", "month.12"};

std::string two(int n) { return (n < 10 ? "0" : "") + std::to_string(n); }

// What is posted may have begun before the first day of the week.
Date date_of(const Week& week, Minute t) { return days_after(week.from, days_before(t)); }
Minute clock_of(Minute t) { return t - days_before(t) * minutes_a_day; }

// "14:30"
std::string clock_text(Minute t) { return two(t / 60) + ":" + two(t % 60); }

Message weekday_of(Date day) { return weekdays[static_cast<std::size_t>(weekday_number(day))]; }
Message month(Date day) { return months[static_cast<unsigned>(day.month()) - 1]; }
int day_of_month(Date day) { return static_cast<int>(static_cast<unsigned>(day.day())); }

Message moment_of(Date day, Minute clock) {
  return {"week.moment",
          {{"weekday", weekday_of(day)},
           {"day", day_of_month(day)},
           {"month", month(day)},
           {"clock", clock_text(clock)}}};
}

// Two digits; a plain 1 where they read so, for the singular.
Place counted(double n) {
  if (n >= 0.995 && n < 1.05) return {"n", 1};
  return {"n", Figure{n, 2}};
}

}  // namespace

Date easter(int year) {
  const int a = year % 19, b = year / 100, c = year % 100, d = b / 4, e = b % 4;
  const int f = (b + 8) / 25, g = (b - f + 1) / 3, h = (19 * a + b - d - g + 15) % 30;
  const int i = c / 4, k = c % 4, l = (32 + 2 * e + 2 * i - h - k) % 7;
  const int m = (a + 11 * h + 22 * l) / 451, n = h + l - 7 * m + 114;
  return Date(std::chrono::year(year), std::chrono::month(static_cast<unsigned>(n / 31)),
              std::chrono::day(static_cast<unsigned>(n % 31 + 1)));
}

bool in_range(Date day) {
  const int year = static_cast<int>(day.year());
  return year >= first_year && year <= last_year;
}

Date earliest_day() {
  return {std::chrono::year(first_year), std::chrono::January, std::chrono::day(1)};
}

Minute minutes_before(const Week& week) {
  return days_between(earliest_day(), week.from) * minutes_a_day;
}

std::optional<Minute> read_moment(std::string_view text, Date first) {
  constexpr std::size_t to_minutes = 16, to_seconds = 19;
  if (text.size() != to_minutes && text.size() != to_seconds) return std::nullopt;
  if (text[10] != 'T' && text[10] != ' ') return std::nullopt;
  const auto day = read_date(text.substr(0, 10));
  const auto clock = read_clock(text.substr(11, 5));
  if (!day || !clock || !in_range(*day)) return std::nullopt;
  // Seconds are looked at, as the minutes of a clock, and left out.
  if (text.size() == to_seconds && !read_clock("00" + std::string(text.substr(to_minutes))))
    return std::nullopt;
  return days_between(first, *day) * minutes_a_day + *clock;
}

bool has_zone(std::string_view text) {
  constexpr std::size_t after_hours = 13;
  return text.size() > after_hours &&
         text.find_first_of("Zz+-", after_hours) != std::string_view::npos;
}

std::string iso_text(const Week& week, Minute t) {
  return text_of(date_of(week, t)) + "T" + clock_text(clock_of(t)) + ":00";
}

Message day_of(Date day) {
  return {"week.day",
          {{"weekday", weekday_of(day)}, {"day", day_of_month(day)}, {"month", month(day)}}};
}

Message moment_of(const Week& week, Minute t) {
  if (t > 0 && clock_of(t) == 0) return moment_of(week.ending_on(t), minutes_a_day);
  return moment_of(date_of(week, t), clock_of(t));
}

Message beginning_of(const Week& week, Minute t) {
  return clock_of(t) == 0 ? day_of(date_of(week, t)) : moment_of(week, t);
}

Message span_of(double days) {
  if (days < 1) return {"week.hours", {counted(24 * days)}};
  return {"week.days", {counted(days)}};
}

Message late_by(const PlannedLot& lot, Minute done) {
  if (done == never) return "week.does-not-fit";
  const double days = days_late(lot, done);
  if (days <= 0) return "week.on-time";
  if (days < 1) return {"week.late-hours", {counted(24 * days)}};
  return {"week.late-days", {counted(days)}};
}

}  // namespace turnwright
