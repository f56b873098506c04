// SPDX-License-Identifier: MIT
#include "read_calendar.hpp"

#include <algorithm>

#include "read_times.hpp"

namespace turnwright {
namespace {

constexpr std::array day_names{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
// A year that has every day that years have.
constexpr int leap_year = 2000;

// 7 when it is none.
std::size_t day_named(std::string_view name) {
  return static_cast<std::size_t>(std::find(day_names.begin(), day_names.end(), name) -
                                  day_names.begin());
}

}  // namespace

// Of a day that only some years have, the others have none. The night before the first day counts,
// for a shift that began in it.
void CalendarReader::add_holiday(const Node& node) {
  if (!holiday_in(leap_year, node)) {
    problems_.add(node, {"week.no-day", {{"what", described(node)}}}, "week.a-holiday-day");
    return;
  }
  const int last = static_cast<int>(week_.to.year());
  for (int year = static_cast<int>(days_after(week_.from, -1).year()); year <= last; ++year)
    if (const auto day = holiday_in(year, node)) holidays_.insert(days_between(week_.from, *day));
}

std::optional<Date> CalendarReader::holiday_in(int year, const Node& node) {
  if (node.kind == Node::Kind::map) {
    MapReader rule(node, problems_, "week.a-holiday");
    std::optional<Date> day;
    if (rule.need("Easter") != nullptr)
      day = days_after(easter(year), rule.whole("Easter", -100, 100).value_or(0));
    rule.finish();
    return day;
  }
  if (node.text.size() == 5) return read_date(std::to_string(year) + "-" + node.text);
  const auto day = read_date(node.text);
  return day && in_range(*day) ? day : std::nullopt;
}

void CalendarReader::add_shift(const Node& node) {
  MapReader map(node, problems_, "week.a-shift");
  const std::string name = map.need("name") != nullptr ? map.text_or("name", "") : "";
  Shift s;
  if (const Node* days = map.find("days"))
    for (const Node* item : as_list(*days)) shift_days(*item, s);
  else
    std::fill_n(s.days.begin(), 5, true);
  Span span{time_of(map, "from"), time_of(map, "to")};
  if (span.to <= span.from) span.to += minutes_a_day;  // through midnight
  std::vector<Span> pauses;
  if (const Node* list = map.find("pauses"))
    for (const Node* item : as_list(*list)) pauses.push_back(pause(*item, span));
  s.pauses = joined(std::move(pauses));
  s.spans = without({span}, s.pauses);
  map.finish();
  if (shifts_.contains(name))
    problems_.add(node, {"week.shift-twice", {{"name", name}}}, "week.each-once");
  shifts_[name] = s;
}

Minute CalendarReader::time_of(MapReader& map, std::string_view key) {
  const Node* node = map.need(key);
  return node == nullptr ? 0 : read_time(*node, problems_).value_or(0);
}

Span CalendarReader::pause(const Node& node, const Span& shift) {
  const auto span = read_pause(node, problems_);
  if (!span) return {};
  const Minute day = span->from < shift.from ? minutes_a_day : 0;  // after midnight
  const Span pause{span->from + day, span->to + day};
  if (pause.to > shift.to)
    problems_.add(node, {"week.pause-outside", {{"pause", described(node)}}}, "week.pause-inside");
  return pause;
}

// "Mon", "Mon-Fri", or a day of the calendar
void CalendarReader::shift_days(const Node& node, Shift& s) {
  const std::string_view text = node.text;
  if (const auto date = read_date(text)) {
    s.dates.insert(days_between(week_.from, *date));
    return;
  }
  const bool several = text.size() == 7 && text[3] == '-';
  const std::size_t first = day_named(text.substr(0, 3));
  const std::size_t last = several ? day_named(text.substr(4)) : first;
  if (first == 7 || last == 7 || (text.size() != 3 && text.size() != 7)) {
    problems_.add(node, found(node), "week.days-of-week");
    return;
  }
  for (std::size_t d = first;; d = (d + 1) % 7) {
    s.days[d] = true;
    if (d == last) break;
  }
}

Calendar CalendarReader::calendar(MapReader& map, const char* away_key,
                                  std::vector<Downtime>& away) {
  std::vector<Span> spans, closed{{-minutes_a_day, week_.now}};
  if (const Node* list = map.need("shifts")) spans = shifts_of(*list);
  if (const Node* list = map.find(away_key))
    for (const Node* item : as_list(*list)) add_away(*item, away_key, away);
  for (const Downtime& gone : away) closed.push_back(gone.span);
  return Calendar(without(joined(spans), joined(closed)));
}

std::vector<Span> CalendarReader::shifts_of(const Node& list) {
  std::vector<Span> spans;
  std::vector<std::vector<Span>> each;
  for (const Node* item : as_list(list)) {
    const auto shift = shifts_.find(item->text);
    if (shift == shifts_.end()) {
      unknown_shift(*item);
      continue;
    }
    each.push_back(on_days(shift->second));
    for (std::size_t i = 0; i + 1 < each.size(); ++i)
      if (!in_both(each[i], each.back()).empty()) {
        problems_.add(*item, {"week.shift-overlaps", {{"name", item->text}}},
                      "week.following-shifts");
        break;
      }
    spans.insert(spans.end(), each.back().begin(), each.back().end());
  }
  return spans;
}

std::vector<Pause> CalendarReader::pauses_of(const Node& shifts) const {
  std::vector<Pause> pauses;
  for (const Node* item : as_list(shifts))
    if (const auto shift = shifts_.find(item->text); shift != shifts_.end())
      for (const Span& span : shift->second.pauses)
        pauses.push_back({shift->second.days, shift->second.dates, span});
  return pauses;
}

void CalendarReader::unknown_shift(const Node& node) {
  std::vector<std::string> names;
  for (const auto& [name, shift] : shifts_) names.push_back(name);
  problems_.add(node, {"week.unknown-shift", {{"name", node.text}}}, "week.shift-of-week",
                nearest(node.text, names));
}

void CalendarReader::add_away(const Node& node, const char* key, std::vector<Downtime>& away) {
  MapReader gone(node, problems_, verbatim(key));
  const Node *from = gone.need("from"), *to = gone.need("to");
  std::string why = gone.text_or("why", "");
  gone.finish();
  if (from == nullptr || to == nullptr) return;
  const auto a = read_moment(*from, week_.from, false, problems_);
  const auto b = read_moment(*to, week_.from, true, problems_);
  if (!a || !b) return;
  if (*b <= *a)
    problems_.add(node, "week.ends-early", "week.later-end");
  else
    away.push_back({{*a, *b}, std::move(why)});
}

// Of each day, and of the night before the first: of a shift that began then the rest is there.
std::vector<Span> CalendarReader::on_days(const Shift& shift) const {
  std::vector<Span> spans;
  for (int d = -1; d < week_.days(); ++d) {
    const int number = weekday_number(days_after(week_.from, d));
    const bool usual = shift.days[static_cast<std::size_t>(number)] && !is_holiday(d);
    if (!usual && !shift.dates.contains(d)) continue;
    for (const Span& s : shift.spans)
      spans.push_back({d * minutes_a_day + s.from, d * minutes_a_day + s.to});
  }
  return in_both(joined(spans), {{0, week_.end()}});
}

}  // namespace turnwright
