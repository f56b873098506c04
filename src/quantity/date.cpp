// SPDX-License-Identifier: MIT
#include "turnwright/quantity/date.hpp"

#include <charconv>

namespace turnwright {
namespace {

constexpr int the_thursday = 3;  // by its number

std::optional<int> digits(std::string_view text) {
  int value = 0;
  for (const char c : text)
    if (c < '0' || c > '9') return std::nullopt;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::string padded(unsigned value, std::size_t width) {
  const std::string text = std::to_string(value);
  return std::string(width - std::min(width, text.size()), '0') + text;
}

}  // namespace

std::optional<Date> read_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto y = digits(text.substr(0, 4)), m = digits(text.substr(5, 2)),
             d = digits(text.substr(8, 2));
  if (!y || !m || !d || *y < 1) return std::nullopt;
  const Date date{std::chrono::year(*y), std::chrono::month(static_cast<unsigned>(*m)),
                  std::chrono::day(static_cast<unsigned>(*d))};
  if (!date.ok()) return std::nullopt;
  return date;
}

std::string text_of(Date date) {
  return padded(static_cast<unsigned>(static_cast<int>(date.year())), 4) + "-" +
         padded(static_cast<unsigned>(date.month()), 2) + "-" +
         padded(static_cast<unsigned>(date.day()), 2);
}

Date days_after(Date date, int days) {
  return {std::chrono::sys_days(date) + std::chrono::days(days)};
}

int days_between(Date from, Date to) {
  return static_cast<int>((std::chrono::sys_days(to) - std::chrono::sys_days(from)).count());
}

std::optional<int> read_clock(std::string_view text) {
  if (text.size() != 5 || text[2] != ':') return std::nullopt;
  const auto h = digits(text.substr(0, 2)), m = digits(text.substr(3, 2));
  if (!h || !m || *m > 59 || *h * 60 + *m > 24 * 60) return std::nullopt;
  return *h * 60 + *m;
}

int weekday_number(Date date) {
  return static_cast<int>(std::chrono::weekday(std::chrono::sys_days(date)).iso_encoding()) - 1;
}

std::string week_of(Date date) {
  // A week belongs to the year that holds its Thursday.
  const Date thursday = days_after(date, the_thursday - weekday_number(date));
  const Date first{thursday.year(), std::chrono::month(1), std::chrono::day(1)};
  const int week = days_between(first, thursday) / 7 + 1;
  return text_of(thursday).substr(0, 4) + "-W" + padded(static_cast<unsigned>(week), 2);
}

bool is_week(std::string_view text) {
  if (text.size() != 8 || text.substr(4, 2) != "-W") return false;
  const auto y = digits(text.substr(0, 4)), w = digits(text.substr(6, 2));
  if (!y || !w || *y < 1 || *w < 1) return false;
  // A year has 53 weeks when it begins or ends on a Thursday.
  auto thursday = [&](unsigned month, unsigned day) {
    const Date date{std::chrono::year(*y), std::chrono::month(month), std::chrono::day(day)};
    return weekday_number(date) == the_thursday;
  };
  return *w <= (thursday(1, 1) || thursday(12, 31) ? 53 : 52);
}

}  // namespace turnwright
