// SPDX-License-Identifier: MIT
#pragma once
// Days of the calendar, ISO 8601 in and out. Nothing here knows what day it is.
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace turnwright {

using Date = std::chrono::year_month_day;

/// "2026-12-01"; nothing when it is spelt otherwise or there is no such day.
std::optional<Date> read_date(std::string_view text);
std::string text_of(Date date);
Date days_after(Date date, int days);
/// Days from one to the other, negative when `to` is earlier.
int days_between(Date from, Date to);

/// 0 is Monday, 6 Sunday.
int weekday_number(Date date);

/// Minutes after midnight of "14:30", up to "24:00"; nothing when it is spelt otherwise.
std::optional<int> read_clock(std::string_view text);

/// The week of ISO 8601 that a day is in, as "2026-W49".
std::string week_of(Date date);
/// "2026-W49", a week of ISO 8601; false when it is spelt otherwise or the year has no such week.
bool is_week(std::string_view text);

}  // namespace turnwright
