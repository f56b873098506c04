// SPDX-License-Identifier: MIT
#include <algorithm>

#include "names.hpp"
#include "read_calendar.hpp"
#include "read_order.hpp"
#include "read_times.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/plan.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {
namespace {

constexpr int most_days = 400;
// In the plan of a shop: the readers of each compare names with all before.
constexpr std::size_t most_machines = 1000, most_people = 5000, most_shifts = 1000,
                      most_holidays = 10'000;

class WeekReader {
 public:
  WeekReader(const Document& document, ProblemList& problems, std::string_view now)
      : map_(document.root, problems, "week.a-week"),
        now_(now),
        problems_(problems),
        calendars_(week_, problems) {
    week_.file = document.file;
    week_.text = document.bytes;
  }

  Week read() {
    head();
    if (!problems_.clean()) return week_;
    for (const Node* item : items("holidays", most_holidays)) calendars_.add_holiday(*item);
    map_.need("shifts");
    for (const Node* item : items("shifts", most_shifts)) calendars_.add_shift(*item);
    map_.need("machines");
    for (const Node* item : items("machines", most_machines)) machine(*item);
    for (const Node* item : items("groups", most_machines)) group(*item);
    overtime();
    subcontracted();
    for (const Node* item : items("people", most_people)) person(*item);
    read_orders();
    for (int d = 0; d < week_.days(); ++d)
      week_.working.push_back(weekday_number(days_after(week_.from, d)) < 5 &&
                              !calendars_.is_holiday(d));
    map_.finish();
    check_hours();
    return std::move(week_);
  }

 private:
  std::vector<const Node*> items(std::string_view key, std::size_t most) {
    const Node* node = map_.find(key);
    if (node == nullptr) return {};
    std::vector<const Node*> all = as_list(*node);
    if (all.size() <= most) return all;
    problems_.add(*all[most], {"week.too-many", {{"most", most}, {"key", key}}},
                  "week.as-many-as-planned");
    return {};
  }
  void head() {
    const Node* node = map_.need("week");
    if (node == nullptr) return;
    MapReader head(*node, problems_, verbatim("week"));
    if (const Node* from = head.need("from"))
      week_.from = read_day(*from, problems_).value_or(Date());
    if (const Node* to = head.need("to")) week_.to = read_day(*to, problems_).value_or(Date());
    if (problems_.clean() && (week_.to < week_.from || week_.days() > most_days))
      problems_.add(*node, {"week.number-of-days", {{"n", week_.days()}}},
                    {"week.days-in-order", {{"most", most_days}}});
    const Node* now = head.find("now");
    Node given;
    if (!now_.empty()) {
      given.kind = Node::Kind::text;
      given.at = node->at;
      given.text = std::string(now_);
      now = &given;
    }
    if (now != nullptr && problems_.clean())
      week_.now = std::max(0, read_moment(*now, week_.from, false, problems_).value_or(0));
    frozen(head);
    head.finish();
  }
  // Of a week in which nothing can be done the plan would have nothing to say.
  void check_hours() {
    const auto at = [&](std::string_view key) -> const Node& {
      const Node* node = map_.find(key);
      return node != nullptr ? *node : map_.node();
    };
    if (week_.now >= week_.end())
      return problems_.add(at("week"), "week.now-after", "week.now-within");
    if (!week_.machines.empty() &&
        std::all_of(week_.machines.begin(), week_.machines.end(),
                    [](const WeekMachine& m) { return m.open.open().empty(); }))
      problems_.add(at("machines"), "week.never-open", "week.hours-somewhere");
    if (!week_.people.empty() && std::none_of(week_.people.begin(), week_.people.end(),
                                              [](const Person& p) { return p.sets; }))
      problems_.add(at("people"), "week.nobody-sets", "week.sets-yes");
  }
  void frozen(MapReader& head) {
    const double minutes = in(head.quantity_or("frozen", unit::h, 24.0 * unit::h), unit::min);
    if (minutes >= 0 && minutes <= most_days * minutes_a_day)
      week_.frozen = static_cast<Minute>(minutes);
    else
      problems_.add(head.node(), "week.frozen-out-of-range",
                    {"week.days-at-most", {{"most", most_days}}});
  }
  void overtime() {
    const Node* node = map_.find("overtime");
    if (node == nullptr) return;
    MapReader map(*node, problems_, verbatim("overtime"));
    const double minutes = in(map.needed("most", unit::h), unit::min);
    week_.relief.overtime = map.needed("price", unit::money_per_h);
    map.finish();
    if (minutes >= 0 && minutes <= minutes_a_day && week_.relief.overtime.si >= 0)
      week_.relief.most = static_cast<Minute>(minutes);
    else
      problems_.add(*node, "week.overtime-out-of-range", "week.overtime-hours");
  }
  void subcontracted() {
    const Node* node = map_.find("subcontracted");
    if (node == nullptr) return;
    MapReader map(*node, problems_, verbatim("subcontracted"));
    map.need("days");
    week_.relief.days = map.whole("days", 0, most_days).value_or(0);
    week_.relief.subcontracted = map.needed("price", unit::money_per_h);
    map.finish();
    if (week_.relief.subcontracted.si < 0)
      problems_.add(*node, "week.price-below-0", "week.0-or-more");
  }
  void machine(const Node& node) {
    MapReader map(node, problems_, "week.a-machine");
    WeekMachine m;
    m.at = node.at;
    if (const Node* name = map.need("machine")) {
      m.machine = map.text_or("machine", "");
      m.at = name->at;
    }
    m.name = map.text_or("called", m.machine);
    m.open = calendars_.calendar(map, "down", m.down);
    if (const Node* shifts = map.find("shifts")) m.pauses = calendars_.pauses_of(*shifts);
    if (std::any_of(week_.machines.begin(), week_.machines.end(),
                    [&](const WeekMachine& other) { return other.name == m.name; }))
      problems_.add(node, {"week.machine-twice", {{"name", m.name}}}, "week.called-otherwise");
    if (const Node* list = map.find("mounted"))
      for (const Node* item : as_list(*list))
        if (const auto mounted = read_mounted(*item, problems_)) m.mounted.push_back(*mounted);
    m.utilisation = map.quantity_or("utilisation", unit::ratio, Number(1.0)).si;
    m.efficiency = map.quantity_or("efficiency", unit::ratio, Number(1.0)).si;
    if (!(m.utilisation > 0 && m.utilisation <= 1 && m.efficiency > 0 && m.efficiency <= 2))
      problems_.add(node, "week.rated-out-of-range", "week.rated-range");
    map.finish();
    week_.machines.push_back(std::move(m));
  }
  void person(const Node& node) {
    MapReader map(node, problems_, "week.a-person");
    Person p;
    if (map.need("name") != nullptr) p.name = map.text_or("name", "");
    p.available = calendars_.calendar(map, "away", p.away);
    if (const Node* list = map.find("machines")) p.machines = machines_of(*list, week_, problems_);
    sets(map, p);
    map.finish();
    if (std::any_of(week_.people.begin(), week_.people.end(),
                    [&](const Person& other) { return other.name == p.name; }))
      problems_.add(node, {"week.person-twice", {{"name", p.name}}}, "week.each-once");
    week_.people.push_back(std::move(p));
  }

  // Whether, or what.
  void sets(MapReader& map, Person& p) {
    const Node* node = map.find("sets");
    if (node == nullptr) return;
    if (node->kind != Node::Kind::list && !is_machine_name(node->text, week_)) {
      p.sets = map.yes_no("sets").value_or(false);
      return;
    }
    p.sets_up = machines_of(*node, week_, problems_);
    p.sets = !p.sets_up->empty();
  }
  void group(const Node& node) {
    MapReader map(node, problems_, "week.a-group");
    MachineGroup g;
    if (map.need("name") != nullptr) g.name = map.text_or("name", "");
    if (const Node* list = map.need("machines")) g.machines = machines_of(*list, week_, problems_);
    map.finish();
    if (is_machine_name(g.name, week_))
      problems_.add(node, {"week.group-twice", {{"name", g.name}}}, "week.called-otherwise");
    week_.groups.push_back(std::move(g));
  }

  void read_orders() {
    OrderNumbers taken;
    OrderReader orders(week_, taken, problems_);
    for (const Node* item : items("orders", most_orders))
      if (item->kind == Node::Kind::text) {
        week_.order_lists.push_back({item->text, item->at});
      } else {
        week_.orders.push_back(orders.order(*item));
        taken.insert(week_.orders.back().number);
      }
  }

  MapReader map_;
  std::string_view now_;  // "": the file's
  ProblemList& problems_;
  Week week_;
  CalendarReader calendars_;
};

}  // namespace

Checked<Week> read_week(std::string file, std::string_view text, Currencies currencies,
                        std::string_view now) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  ProblemList problems(*document, std::move(currencies));
  Week week = WeekReader(*document, problems, now).read();
  if (!problems.clean()) return problems.problems();
  return week;
}

Problem problem_in(const Week& week, Position at, Message what, Message expected,
                   std::string suggestion) {
  Problem problem;
  problem.file = week.file;
  problem.at = at;
  problem.what = std::move(what);
  problem.expected = std::move(expected);
  problem.suggestion = std::move(suggestion);
  problem.source_line = line_of(week.text, at.line);
  return problem;
}

Problem problem_of(const Week& week, const WeekOrder& order, Message what, Message expected) {
  Problem problem = order.row ? *order.row : problem_in(week, order.at, {});
  problem.what = std::move(what);
  problem.expected = std::move(expected);
  return problem;
}

bool WeekOrder::forbids(std::string_view name) const { return contains(not_on, name); }
bool WeekOrder::forbids(int operation, std::string_view name) const {
  return forbids(name) ||
         std::any_of(operations_not_on.begin(), operations_not_on.end(),
                     [&](const Forbidden& f) {
                       return f.operation == operation && contains(f.machines, name);
                     }) ||
         std::any_of(pins.begin(), pins.end(), [&](const Pin& pin) {
           return pin.operation == operation && !pin.machines.empty() &&
                  !contains(pin.machines, name);
         });
}

bool Person::may_run(const std::string& machine) const {
  return !machines || contains(*machines, machine) || (sets_up && contains(*sets_up, machine));
}
bool Person::may_set(const std::string& machine) const {
  return sets && (sets_up ? contains(*sets_up, machine) : may_run(machine));
}

bool Week::people_by_name() const {
  return std::any_of(people.begin(), people.end(),
                     [](const Person& p) { return p.machines || p.sets_up; });
}
bool Week::is_manned(const WeekMachine& machine) const {
  if (!people_by_name()) return true;
  const auto somebody = [&](auto may) {
    return std::any_of(people.begin(), people.end(), [&](const Person& p) {
      return (p.*may)(machine.name) && !in_both(p.available.open(), machine.open.open()).empty();
    });
  };
  return somebody(&Person::may_run) && somebody(&Person::may_set);
}

bool Week::has_machine(std::string_view name) const {
  return std::any_of(machines.begin(), machines.end(),
                     [&](const WeekMachine& m) { return m.name == name; });
}

}  // namespace turnwright
