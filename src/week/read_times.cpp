// SPDX-License-Identifier: MIT
#include "read_times.hpp"

#include "turnwright/week/plan.hpp"

namespace turnwright {
namespace {

// "14:30", "24:00"; nothing when it is none, or between two steps of the plan.
std::optional<Minute> clock_time(std::string_view text) {
  const auto t = read_clock(text);
  if (!t || *t > minutes_a_day || *t % time_step != 0) return std::nullopt;
  return *t;
}

bool near_enough(Date day, const Node& node, ProblemList& problems) {
  if (in_range(day)) return true;
  problems.add(node, {"week.far-day", {{"what", described(node)}}},
               {"week.days-between",
                {{"from", std::to_string(first_year)}, {"to", std::to_string(last_year)}}});
  return false;
}

}  // namespace

std::optional<Date> read_day(const Node& node, ProblemList& problems) {
  const auto day = read_date(node.text);
  if (!day) {
    problems.add(node, {"week.no-day", {{"what", described(node)}}}, "week.a-day");
    return std::nullopt;
  }
  return near_enough(*day, node, problems) ? day : std::nullopt;
}

std::optional<Minute> read_moment(const Node& node, Date first_day, bool end,
                                  ProblemList& problems) {
  const std::string_view text = node.text;
  const auto day = read_date(text.substr(0, 10));
  std::optional<Minute> clock;
  if (text.size() == 10)
    clock = end ? minutes_a_day : 0;
  else if (text.size() == 16 && text[10] == ' ')
    clock = clock_time(text.substr(11));
  if (!day || !clock) {
    problems.add(node, found(node), "week.a-moment");
    return std::nullopt;
  }
  if (!near_enough(*day, node, problems)) return std::nullopt;
  return days_between(first_day, *day) * minutes_a_day + *clock;
}

std::optional<Minute> read_time(const Node& node, ProblemList& problems) {
  const auto t = clock_time(node.text);
  if (!t) problems.add(node, found(node), "week.a-time");
  return t;
}

std::optional<Span> read_pause(const Node& node, ProblemList& problems) {
  const std::string_view text = node.text;
  const auto from = clock_time(text.substr(0, 5));
  const auto to = text.size() == 11 ? clock_time(text.substr(6)) : std::nullopt;
  if (from && to && *to > *from) return Span{*from, *to};
  problems.add(node, found(node), "week.a-pause");
  return std::nullopt;
}

}  // namespace turnwright
