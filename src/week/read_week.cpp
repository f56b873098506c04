// SPDX-License-Identifier: MIT
#include <algorithm>
#include <unordered_set>

#include "read_calendar.hpp"
#include "read_times.hpp"
#include "turnwright/part/part.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/plan.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {
namespace {

constexpr int most_days = 400;
// In the plan of a shop: the readers of each compare names with all before.
constexpr std::size_t most_orders = 10'000, most_machines = 1000, most_people = 5000,
                      most_shifts = 1000, most_holidays = 10'000;

class WeekReader {
 public:
  WeekReader(const Document& document, ProblemList& problems)
      : map_(document.root, problems, "week.a-week"),
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
    overtime();
    subcontracted();
    for (const Node* item : items("people", most_people)) person(*item);
    for (const Node* item : items("orders", most_orders)) order(*item);
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
    m.open = calendars_.calendar(map, "down");
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
    p.available = calendars_.calendar(map, "away");
    p.sets = map.yes_no("sets").value_or(false);
    map.finish();
    if (std::any_of(week_.people.begin(), week_.people.end(),
                    [&](const Person& other) { return other.name == p.name; }))
      problems_.add(node, {"week.person-twice", {{"name", p.name}}}, "week.each-once");
    week_.people.push_back(std::move(p));
  }

  void order(const Node& node) {
    MapReader map(node, problems_, "week.an-order");
    WeekOrder o;
    o.at = node.at;
    if (map.need("order") != nullptr) o.number = map.text_or("order", "");
    if (const Node* part = map.need("part")) {
      o.part = map.text_or("part", "");
      o.at = part->at;
    }
    pieces(map, o);
    dates(map, o);
    weight(map, o);
    o.batches = map.whole("batches", 1, 100).value_or(1);
    o.transfer = map.quantity_or("overlap", unit::ratio, Number(1.0)).si;
    o.repeat = map.yes_no("repeat").value_or(false);
    o.hold = map.text_or("hold", "");
    if (const Node* list = map.find("not on"))
      for (const Node* item : as_list(*list)) {
        known_machine(*item, item->text);
        o.not_on.push_back(item->text);
      }
    if (const Node* machine = map.find("machine"))
      bound_to(*machine, map.text_or("machine", ""), o);
    if (const Node* list = map.find("pin"))
      for (const Node* item : as_list(*list)) {
        o.pins.push_back(pin(*item));
        if (contradicts(o.pins.back(), o))
          problems_.add(
              *item,
              {"week.pin-contradicts", {{"pinned", o.pins.back().machine}, {"machine", o.machine}}},
              "week.one-machine-of-both");
      }
    map.finish();
    check(node, o);
    if (goes_nowhere(o)) problems_.add(node, "week.machine-forbidden", "week.another-machine");
    week_.orders.push_back(std::move(o));
  }
  // Bound or pinned to a machine that it must not go to, or none is left.
  bool goes_nowhere(const WeekOrder& o) const {
    const bool none_left = !week_.machines.empty() &&
                           std::all_of(week_.machines.begin(), week_.machines.end(),
                                       [&](const WeekMachine& m) { return o.forbids(m.name); });
    return none_left || o.forbids(o.machine) ||
           std::any_of(o.pins.begin(), o.pins.end(),
                       [&](const Pin& p) { return o.forbids(p.machine); });
  }
  // All of an order goes to its machine; of one that runs, only what runs.
  static bool contradicts(const Pin& pin, const WeekOrder& o) {
    return !o.machine.empty() && o.state != OrderState::running && !pin.machine.empty() &&
           pin.machine != o.machine;
  }
  void bound_to(const Node& node, const std::string& machine, WeekOrder& o) {
    o.machine = machine;
    known_machine(node, machine);
  }
  Pin pin(const Node& node) {
    MapReader map(node, problems_, "week.a-pin");
    Pin p;
    map.need("operation");
    p.operation = map.whole("operation", 1, 10000).value_or(1);
    if (const Node* machine = map.need("machine")) {
      p.machine = map.text_or("machine", "");
      known_machine(*machine, p.machine);
    }
    if (const Node* from = map.need("from"))
      p.from =
          std::max(week_.now, read_moment(*from, week_.from, false, problems_).value_or(week_.now));
    map.finish();
    return p;
  }
  void known_machine(const Node& node, const std::string& machine) {
    std::vector<std::string> names;
    for (const WeekMachine& m : week_.machines) names.push_back(m.name);
    if (std::find(names.begin(), names.end(), machine) == names.end())
      problems_.add(node, {"week.not-of-the-week", {{"machine", machine}}}, "week.a-machine-of-it",
                    nearest(machine, names));
  }
  void pieces(MapReader& map, WeekOrder& o) {
    if (map.need("quantity") != nullptr)
      o.quantity = map.whole("quantity", 1, most_pieces).value_or(1);
    o.done = map.whole("done", 0, most_pieces).value_or(0);
    if (const Node* list = map.find("finished"))
      for (const Node* item : as_list(*list))
        if (const auto operation = read_whole(*item, problems_, 1, 10000))
          o.finished.push_back(*operation);
  }
  void dates(MapReader& map, WeekOrder& o) {
    if (const Node* release = map.find("release"))
      o.release = std::max(0, read_moment(*release, week_.from, false, problems_).value_or(0));
    o.release = std::max(o.release, week_.now);
    if (const Node* due = map.need("due")) o.due = read_day(*due, problems_).value_or(week_.to);
  }
  static void weight(MapReader& map, WeekOrder& o) {
    o.importance = map.quantity_or("importance", unit::ratio, Number(1.0)).si;
    const std::string state = map.one_of("state", {"won", "quoted", "running"}).value_or("won");
    o.state = state == "quoted"    ? OrderState::quoted
              : state == "running" ? OrderState::running
                                   : OrderState::won;
    o.probability = map.quantity_or("probability", unit::ratio, Number(1.0)).si;
  }
  void check(const Node& node, const WeekOrder& o) {
    if (o.importance <= 0) problems_.add(node, "week.importance-0", "week.above-0");
    if (o.transfer <= 0 || o.transfer > 1)
      problems_.add(node, {"week.overlap-of", {{"share", Figure{o.transfer}}}},
                    "week.share-above-0");
    if (o.done > o.quantity)
      problems_.add(node, {"week.done-of", {{"done", o.done}, {"quantity", o.quantity}}},
                    "week.done-at-most");
    if (o.batches > o.quantity) problems_.add(node, "week.many-batches", "week.batch-a-piece");
    if (o.batches > 1 && o.state == OrderState::running)
      problems_.add(node, "week.running-in-batches", "week.order-of-its-own");
    if (o.probability < 0 || o.probability > 1)
      problems_.add(node, {"week.probability-of", {{"share", Figure{o.probability}}}},
                    "week.share-0-to-1");
    if (!numbers_.insert(o.number).second)
      problems_.add(node, {"week.order-twice", {{"name", o.number}}}, "week.each-once");
  }

  MapReader map_;
  ProblemList& problems_;
  Week week_;
  CalendarReader calendars_;
  std::unordered_set<std::string> numbers_;  // of the orders so far
};

}  // namespace

Checked<Week> read_week(std::string file, std::string_view text, Currencies currencies) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  ProblemList problems(*document, std::move(currencies));
  Week week = WeekReader(*document, problems).read();
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

bool WeekOrder::forbids(std::string_view name) const {
  return std::find(not_on.begin(), not_on.end(), name) != not_on.end();
}

bool Week::has_machine(std::string_view name) const {
  return std::any_of(machines.begin(), machines.end(),
                     [&](const WeekMachine& m) { return m.name == name; });
}

Minute read_moment(const Week& week, std::string_view text) {
  if (text.size() < 16 || (text[10] != 'T' && text[10] != ' ')) return never;
  const auto day = read_date(text.substr(0, 10));
  const auto clock = read_clock(text.substr(11, 5));
  if (!day || !clock || !in_range(*day)) return never;
  return days_between(week.from, *day) * minutes_a_day + *clock;
}

}  // namespace turnwright
