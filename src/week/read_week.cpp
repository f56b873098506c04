// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <map>

#include "turnwright/document/reader.hpp"
#include "turnwright/week/plan.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {
namespace {

constexpr std::array day_names{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
constexpr int most_days = 400;

struct Shift {
  std::array<bool, 7> days{};
  std::vector<Span> spans;  // of a day; `to` may lie on the next one
};

int weekday(Date day) {
  return static_cast<int>(std::chrono::weekday(std::chrono::sys_days(day)).iso_encoding()) - 1;
}

// "14:30", "24:00"; below 0 when it is none.
Minute clock_time(std::string_view text) {
  const Minute t = read_clock(text).value_or(-1);
  return t <= minutes_a_day && t % time_step == 0 ? t : -1;
}

class WeekReader {
 public:
  WeekReader(const Document& document, Notes& notes)
      : map_(document.root, notes, "a week"), notes_(notes) {
    week_.file = document.file;
  }

  Week read() {
    head();
    if (!notes_.clean()) return week_;
    if (const Node* node = map_.find("holidays"))
      for (const Node* item : as_list(*node)) holiday(*item);
    if (const Node* node = map_.need("shifts"))
      for (const Node* item : as_list(*node)) shift(*item);
    if (const Node* node = map_.need("machines"))
      for (const Node* item : as_list(*node)) machine(*item);
    relief();
    if (const Node* node = map_.find("people"))
      for (const Node* item : as_list(*node)) person(*item);
    if (const Node* node = map_.find("orders"))
      for (const Node* item : as_list(*node)) order(*item);
    for (int d = 0; d < week_.days(); ++d)
      week_.working.push_back(weekday(days_after(week_.from, d)) < 5 && !holidays_.contains(d));
    map_.finish();
    return std::move(week_);
  }

 private:
  std::optional<Date> date(const Node& node) {
    const auto found = read_date(node.text);
    if (!found)
      notes_.add(node, "found " + described(node) + ", which is no day",
                 "a day of the calendar as 2026-12-01");
    return found;
  }
  // "2026-12-08 14:30", or a day: its beginning, its end.
  std::optional<Minute> moment(const Node& node, bool end) {
    const auto day = read_date(std::string_view(node.text).substr(0, 10));
    const bool whole_day = node.text.size() == 10;
    const Minute clock = whole_day ? (end ? minutes_a_day : 0)
                         : node.text.size() == 16 && node.text[10] == ' '
                             ? clock_time(std::string_view(node.text).substr(11))
                             : -1;
    if (!day || clock < 0) {
      notes_.add(node, "found " + described(node),
                 "a day, or a day and a time in steps of 5 minutes, as 2026-12-01 14:30");
      return std::nullopt;
    }
    return minutes_to(week_.from, *day, clock);
  }
  void head() {
    const Node* node = map_.need("week");
    if (node == nullptr) return;
    MapReader head(*node, notes_, "week");
    if (const Node* from = head.need("from")) week_.from = date(*from).value_or(Date());
    if (const Node* to = head.need("to")) week_.to = date(*to).value_or(Date());
    if (notes_.clean() && (week_.to < week_.from || week_.days() > most_days))
      notes_.add(*node, "a week of " + std::to_string(week_.days()) + " days",
                 "from 1 to 400, the first before the last");
    const Node* now = head.find("now");
    if (now != nullptr && notes_.clean()) week_.now = std::max(0, moment(*now, false).value_or(0));
    week_.frozen =
        static_cast<Minute>(in(head.quantity_or("frozen", unit::h, 24.0 * unit::h), unit::min));
    head.finish();
  }
  void relief() {
    if (const Node* node = map_.find("overtime")) {
      MapReader map(*node, notes_, "overtime");
      week_.relief.most = static_cast<Minute>(in(map.needed("most", unit::h), unit::min));
      week_.relief.overtime = map.needed("price", unit::money_per_h);
      map.finish();
      if (week_.relief.most < 0 || week_.relief.most > minutes_a_day ||
          week_.relief.overtime.si < 0)
        notes_.add(*node, "overtime below 0 or above a day",
                   "hours a machine and day, with a price");
    }
    if (const Node* node = map_.find("elsewhere")) {
      MapReader map(*node, notes_, "elsewhere");
      map.need("days");
      week_.relief.days = map.whole("days", 0, most_days).value_or(0);
      week_.relief.elsewhere = map.needed("price", unit::money_per_h);
      map.finish();
      if (week_.relief.elsewhere.si < 0) notes_.add(*node, "a price below 0", "0 or more");
    }
  }
  // 2026-12-25, or by rule: 12-25 each year, {Easter: 1} days after Easter Sunday.
  void holiday(const Node& node) {
    for (int year = static_cast<int>(week_.from.year()); year <= static_cast<int>(week_.to.year());
         ++year) {
      std::optional<Date> day;
      if (node.kind == Node::Kind::map) {
        MapReader rule(node, notes_, "a holiday");
        if (rule.need("Easter") != nullptr)
          day = days_after(easter(year), rule.whole("Easter", -100, 100).value_or(0));
        rule.finish();
      } else if (node.text.size() == 5) {
        std::string text = std::to_string(year);
        day = read_date(text.append("-").append(node.text));
      } else {
        day = read_date(node.text);
      }
      if (!day) {
        notes_.add(node, "found " + described(node) + ", which is no day",
                   "2026-12-25, 12-25 of every year, or {Easter: 1}");
        return;
      }
      holidays_[days_between(week_.from, *day)] = true;
    }
  }
  void shift(const Node& node) {
    MapReader map(node, notes_, "a shift");
    const std::string name = map.need("name") != nullptr ? map.text_or("name", "") : "";
    Shift s;
    if (const Node* days = map.find("days"))
      for (const Node* item : as_list(*days)) shift_days(*item, s);
    else
      for (std::size_t i = 0; i < 5; ++i) s.days[i] = true;
    Span span{time_of(map, "from"), time_of(map, "to")};
    if (span.to <= span.from) span.to += minutes_a_day;  // through midnight
    std::vector<Span> pauses;
    if (const Node* list = map.find("pauses"))
      for (const Node* item : as_list(*list)) pauses.push_back(pause(*item, span));
    s.spans = without({span}, joined(pauses));
    map.finish();
    if (shifts_.contains(name))
      notes_.add(node, "the shift '" + name + "' stands twice", "each once");
    shifts_[name] = s;
  }
  Minute time_of(MapReader& map, std::string_view key) {
    const Node* node = map.need(key);
    if (node == nullptr) return 0;
    const Minute t = clock_time(node->text);
    if (t < 0)
      notes_.add(*node, "found " + described(*node), "a time in steps of 5 minutes, as \"06:00\"");
    return std::max(t, 0);
  }
  // "09:00-09:15"
  Span pause(const Node& node, const Span& shift) {
    const Minute from = clock_time(std::string_view(node.text).substr(0, 5));
    const Minute to =
        node.text.size() == 11 ? clock_time(std::string_view(node.text).substr(6)) : -1;
    if (from < 0 || to <= from) {
      notes_.add(node, "found " + described(node), "a pause as 09:00-09:15");
      return {};
    }
    const Minute day = from < shift.from ? minutes_a_day : 0;  // after midnight
    return {from + day, to + day};
  }
  // "Mon", "Mon-Fri"
  void shift_days(const Node& node, Shift& s) {
    const std::string first = node.text.substr(0, 3);
    const std::string last =
        node.text.size() == 7 && node.text[3] == '-' ? node.text.substr(4) : first;
    auto at = [](const std::string& name) {
      return std::find(day_names.begin(), day_names.end(), name) - day_names.begin();
    };
    if (at(first) == 7 || at(last) == 7 || (node.text.size() != 3 && node.text.size() != 7)) {
      notes_.add(node, "found " + described(node), "Mon to Sun, or as Mon-Fri");
      return;
    }
    for (auto d = at(first);; d = (d + 1) % 7) {
      s.days[static_cast<std::size_t>(d)] = true;
      if (d == at(last)) break;
    }
  }
  // Shifts by name on every day of the week but holidays, less what is away.
  Calendar calendar(MapReader& map, const char* away_key) {
    std::vector<Span> spans, away;
    if (const Node* list = map.need("shifts")) {
      std::vector<std::vector<Span>> each;
      for (const Node* item : as_list(*list)) {
        const auto found = shifts_.find(item->text);
        if (found == shifts_.end()) {
          std::vector<std::string> names;
          for (const auto& [name, shift] : shifts_) names.push_back(name);
          notes_.add(*item, "unknown shift '" + item->text + "'", "a shift of this week",
                     nearest(item->text, names));
          continue;
        }
        each.push_back(on_days(found->second));
        for (std::size_t i = 0; i + 1 < each.size(); ++i)
          if (!in_both(each[i], each.back()).empty()) {
            notes_.add(*item, "the shift '" + item->text + "' overlaps another of the same list",
                       "shifts that follow each other");
            break;
          }
        spans.insert(spans.end(), each.back().begin(), each.back().end());
      }
    }
    if (const Node* list = map.find(away_key))
      for (const Node* item : as_list(*list)) {
        MapReader gone(*item, notes_, away_key);
        const Node *from = gone.need("from"), *to = gone.need("to");
        gone.text("why");
        gone.finish();
        if (from == nullptr || to == nullptr) continue;
        const auto a = moment(*from, false), b = moment(*to, true);
        if (a && b && *b <= *a)
          notes_.add(*item, "ends before it begins", "a later end");
        else if (a && b)
          away.push_back({*a, *b});
      }
    // Nothing happens before now.
    away.push_back({-minutes_a_day, week_.now});
    return Calendar(without(joined(spans), joined(away)));
  }
  std::vector<Span> on_days(const Shift& shift) const {
    std::vector<Span> spans;
    for (int d = 0; d < week_.days(); ++d) {
      if (!shift.days[static_cast<std::size_t>(weekday(days_after(week_.from, d)))] ||
          holidays_.contains(d))
        continue;
      for (const Span& s : shift.spans)
        spans.push_back(
            {d * minutes_a_day + s.from, std::min(d * minutes_a_day + s.to, week_.end())});
    }
    return joined(spans);
  }
  void machine(const Node& node) {
    MapReader map(node, notes_, "a machine of the week");
    WeekMachine m;
    m.at = node.at;
    if (const Node* name = map.need("machine")) {
      m.machine = map.text_or("machine", "");
      m.at = name->at;
    }
    m.name = map.text_or("called", m.machine);
    m.open = calendar(map, "down");
    if (std::any_of(week_.machines.begin(), week_.machines.end(),
                    [&](const WeekMachine& other) { return other.name == m.name; }))
      notes_.add(node, "the machine '" + m.name + "' stands twice",
                 "'called' with a name of its own");
    if (const Node* list = map.find("stands"))
      for (const Node* item : as_list(*list))
        m.stands.push_back(read_text(*item, notes_, "what stands on it").value_or(""));
    m.utilisation = map.quantity_or("utilisation", unit::ratio, Number(1.0)).si;
    m.efficiency = map.quantity_or("efficiency", unit::ratio, Number(1.0)).si;
    if (!(m.utilisation > 0 && m.utilisation <= 1 && m.efficiency > 0 && m.efficiency <= 2))
      notes_.add(node, "a utilisation or efficiency out of range",
                 "utilisation above 0, at most 1; efficiency above 0, at most 2");
    map.finish();
    week_.machines.push_back(std::move(m));
  }
  void person(const Node& node) {
    MapReader map(node, notes_, "a person");
    Person p;
    if (map.need("name") != nullptr) p.name = map.text_or("name", "");
    p.there = calendar(map, "away");
    p.sets = map.yes_no("sets").value_or(false);
    map.finish();
    week_.people.push_back(std::move(p));
  }
  void order(const Node& node) {
    MapReader map(node, notes_, "an order");
    Order o;
    o.at = node.at;
    if (map.need("order") != nullptr) o.number = map.text_or("order", "");
    if (const Node* part = map.need("part")) {
      o.part = map.text_or("part", "");
      o.at = part->at;
    }
    o.quantity = map.whole("quantity", 1, 10000000).value_or(1);
    if (const Node* q = map.need("quantity"); q == nullptr) o.quantity = 1;
    o.done = map.whole("done", 0, 10000000).value_or(0);
    if (const Node* list = map.find("finished"))
      for (const Node* item : as_list(*list))
        if (const auto setup = read_whole(*item, notes_, 1, 10000)) o.finished.push_back(*setup);
    if (const Node* release = map.find("release"))
      o.release = std::max(0, moment(*release, false).value_or(0));
    o.release = std::max(o.release, week_.now);
    if (const Node* due = map.need("due")) o.due = date(*due).value_or(week_.to);
    o.importance = map.quantity_or("importance", unit::ratio, Number(1.0)).si;
    const std::string state = map.one_of("state", {"won", "quoted", "running"}).value_or("won");
    o.state = state == "quoted"    ? OrderState::quoted
              : state == "running" ? OrderState::running
                                   : OrderState::won;
    o.probability = map.quantity_or("probability", unit::ratio, Number(1.0)).si;
    o.batches = map.whole("batches", 1, 100).value_or(1);
    o.transfer = map.quantity_or("overlap", unit::ratio, Number(1.0)).si;
    map.finish();
    if (o.importance <= 0) notes_.add(node, "an importance of 0 or less", "above 0");
    if (o.transfer <= 0 || o.transfer > 1)
      notes_.add(node, "an overlap of " + readable(o.transfer), "a share above 0, at most 1");
    if (o.batches > o.quantity)
      notes_.add(node, "more batches than pieces", "at most one batch a piece");
    if (o.batches > 1 && o.state == OrderState::running)
      notes_.add(node, "a running order in batches",
                 "an order of its own for what does not run yet");
    if (o.probability < 0 || o.probability > 1)
      notes_.add(node, "a probability of " + readable(o.probability), "a share from 0 to 1");
    if (std::any_of(week_.orders.begin(), week_.orders.end(),
                    [&](const Order& other) { return other.number == o.number; }))
      notes_.add(node, "the order '" + o.number + "' stands twice", "each once");
    week_.orders.push_back(std::move(o));
  }

  MapReader map_;
  Notes& notes_;
  Week week_;
  std::map<int, bool> holidays_;
  std::map<std::string, Shift> shifts_;
};

std::string two(int n) { return (n < 10 ? "0" : "") + std::to_string(n); }

}  // namespace

Date easter(int year) {
  const int a = year % 19, b = year / 100, c = year % 100, d = b / 4, e = b % 4;
  const int f = (b + 8) / 25, g = (b - f + 1) / 3, h = (19 * a + b - d - g + 15) % 30;
  const int i = c / 4, k = c % 4, l = (32 + 2 * e + 2 * i - h - k) % 7;
  const int m = (a + 11 * h + 22 * l) / 451, n = h + l - 7 * m + 114;
  return Date(std::chrono::year(year), std::chrono::month(static_cast<unsigned>(n / 31)),
              std::chrono::day(static_cast<unsigned>(n % 31 + 1)));
}

Checked<Week> read_week(std::string file, std::string_view text) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  Notes notes(*document);
  Week week = WeekReader(*document, notes).read();
  if (!notes.clean()) return notes.problems();
  return week;
}

Minute read_moment(const Week& week, std::string_view text) {
  if (text.size() < 16 || (text[10] != 'T' && text[10] != ' ')) return never;
  const auto day = read_date(text.substr(0, 10));
  const auto clock = read_clock(text.substr(11, 5));
  if (!day || !clock) return never;
  return minutes_to(week.from, *day, *clock);
}
std::string iso_text(const Week& week, Minute t) {
  return text_of(days_after(week.from, t / minutes_a_day)) + "T" + two(t % minutes_a_day / 60) +
         ":" + two(t % 60) + ":00";
}

std::string day_text(Date day) {
  return std::string(day_names[static_cast<std::size_t>(weekday(day))]) + " " +
         text_of(day).substr(8);
}
std::string beginning_text(const Week& week, Minute t) {
  return t % minutes_a_day == 0 ? day_text(days_after(week.from, t / minutes_a_day))
                                : moment_text(week, t);
}
std::string moment_text(const Week& week, Minute t) {
  // Midnight is the end of a day, not the beginning of one.
  if (t > 0 && t % minutes_a_day == 0)
    return day_text(days_after(week.from, t / minutes_a_day - 1)) + " 24:00";
  const Date day = days_after(week.from, t / minutes_a_day);
  return day_text(day) + " " + two(t % minutes_a_day / 60) + ":" + two(t % 60);
}

}  // namespace turnwright
