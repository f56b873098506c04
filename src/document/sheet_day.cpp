// SPDX-License-Identifier: MIT
#include "turnwright/document/sheet_day.hpp"

#include <cmath>

#include "turnwright/quantity/date.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr int first_own_format = 164;
constexpr double last_day = 2'958'465;  // 9999-12-31
constexpr int days_to_1904 = 1462;
// In the 1900 date system the 60th is a day that never was.
constexpr int day_that_never_was = 60;

bool is_between(int id, int first, int last) { return id >= first && id <= last; }

// Days and times, those of East Asian locales among them.
bool is_built_in_day(int id) {
  return is_between(id, 14, 22) || is_between(id, 27, 36) || is_between(id, 45, 47) ||
         is_between(id, 50, 58);
}

bool is_day_letter(char c) { return std::string_view("dmyhsDMYHS").find(c) != std::string::npos; }

// What stands in brackets is a colour, a condition or a language, or else an elapsed time: [hh].
bool is_elapsed(std::string_view bracketed) {
  return !bracketed.empty() &&
         bracketed.find_first_not_of(bracketed.front()) == std::string_view::npos &&
         std::string_view("hmsHMS").find(bracketed.front()) != std::string_view::npos;
}

std::string clock_text(double share_of_day) {
  const int minutes = static_cast<int>(std::lround(share_of_day * 24 * 60)) % (24 * 60);
  const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(minutes / 60) + ":" + two(minutes % 60);
}

}  // namespace

bool shows_day(int id, std::string_view code) {
  if (id < first_own_format && code.empty()) return is_built_in_day(id);
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char c = code[i];
    if (c == '\\' || c == '_' || c == '*') {  // the next character as such, as a gap, as filling
      ++i;
    } else if (c == '"' || c == '[') {
      const std::size_t end = std::min(code.find(c == '"' ? '"' : ']', i + 1), code.size());
      if (c == '[' && is_elapsed(code.substr(i + 1, end - i - 1))) return true;
      i = end;
    } else if (is_day_letter(c)) {
      return true;
    }
  }
  return false;
}

std::string day_of_sheet(double number, bool from_1904) {
  if (!(number >= 0 && number <= last_day)) return readable(number, 15);
  double day = std::floor(number);
  const double time = number - day;
  if (day == 0 && !from_1904) return clock_text(time);
  if (from_1904) day += days_to_1904;
  const Date base{std::chrono::year(1899), std::chrono::December,
                  std::chrono::day(day < day_that_never_was ? 31 : 30)};
  const std::string text = text_of(days_after(base, static_cast<int>(day)));
  return time > 0 ? text + " " + clock_text(time) : text;
}

}  // namespace turnwright
