// SPDX-License-Identifier: MIT
#include "read_order.hpp"

#include <algorithm>

#include "names.hpp"
#include "read_times.hpp"
#include "turnwright/part/part.hpp"

namespace turnwright {
namespace {

constexpr std::string_view all_machines = "all";
constexpr int most_operation = 10000;  // the number of one
// Beyond these lateness is no longer a number to compare.
constexpr double least_importance = 0.001, most_importance = 1000;
constexpr Amount dearest_day(1e7);

// The machines that a name stands for; none: it stands for nothing.
std::vector<std::string> machines_named(std::string_view name, const Week& week) {
  std::vector<std::string> found;
  for (const WeekMachine& m : week.machines)
    if (m.name == name || name == all_machines) found.push_back(m.name);
  if (!found.empty()) return found;
  for (const MachineGroup& g : week.groups)
    if (g.name == name) return g.machines;
  return found;
}

void unknown_machine(const Node& node, const Week& week, ProblemList& problems) {
  std::vector<std::string> names;
  for (const WeekMachine& m : week.machines) names.push_back(m.name);
  for (const MachineGroup& g : week.groups) names.push_back(g.name);
  problems.add(node, {"week.not-of-the-week", {{"machine", node.text}}},
               week.groups.empty() ? "week.a-machine-of-it" : "week.a-machine-or-group",
               nearest(node.text, names));
}

// All of an order goes to its machine; of one that runs, only what runs.
bool contradicts(const Pin& pin, const WeekOrder& o) {
  return !o.machine.empty() && o.state != OrderState::running && !pin.machines.empty() &&
         !contains(pin.machines, o.machine);
}

void weight(MapReader& map, WeekOrder& o) {
  o.importance = map.quantity_or("importance", unit::ratio, Number(1.0)).si;
  const std::string state = map.one_of("state", {"won", "quoted", "running"}).value_or("won");
  o.state = state == "quoted"    ? OrderState::quoted
            : state == "running" ? OrderState::running
                                 : OrderState::won;
  o.probability = map.quantity_or("probability", unit::ratio, Number(1.0)).si;
}

}  // namespace

bool is_machine_name(std::string_view name, const Week& week) {
  return !machines_named(name, week).empty();
}

std::vector<std::string> machines_of(const Node& list, const Week& week, ProblemList& problems) {
  std::vector<std::string> named;
  for (const Node* item : as_list(list)) {
    const std::vector<std::string> found = machines_named(item->text, week);
    if (found.empty()) unknown_machine(*item, week, problems);
    named.insert(named.end(), found.begin(), found.end());
  }
  std::vector<std::string> in_order;
  for (const WeekMachine& m : week.machines)
    if (contains(named, m.name)) in_order.push_back(m.name);
  return in_order;
}

WeekOrder OrderReader::order(const Node& node) {
  MapReader map(node, problems_, "week.an-order");
  WeekOrder o;
  o.at = node.at;
  if (map.need("order") != nullptr) o.number = map.text_or("order", "");
  if (const Node* part = map.need("part")) {
    o.part = map.text_or("part", "");
    o.at = part->at;
  }
  o.customer = map.text_or("customer", "");
  o.day_late = map.quantity("day late", unit::money);
  pieces(map, o);
  dates(map, o);
  weight(map, o);
  o.batches = map.whole("batches", 1, 100).value_or(1);
  o.transfer = map.quantity_or("overlap", unit::ratio, Number(1.0)).si;
  o.repeat = map.yes_no("repeat").value_or(false);
  o.hold = map.text_or("hold", "");
  places(map, o);
  map.finish();
  check(node, o);
  if (goes_nowhere(o)) problems_.add(node, "week.machine-forbidden", "week.another-machine");
  return o;
}

// Where it may, must or must not go.
void OrderReader::places(MapReader& map, WeekOrder& o) {
  if (const Node* list = map.find("not on"))
    for (const Node* item : as_list(*list)) not_on(*item, o);
  if (const Node* machine = map.find("machine"))
    if (map.text("machine")) bound_to(*machine, o);
  if (const Node* list = map.find("pin"))
    for (const Node* item : as_list(*list)) {
      o.pins.push_back(pin(*item));
      if (contradicts(o.pins.back(), o))
        problems_.add(*item,
                      {"week.pin-contradicts",
                       {{"pinned", o.pins.back().machines.front()}, {"machine", o.machine}}},
                      "week.one-machine-of-both");
    }
}

// To a machine; or to those of a group, and so to none of the others. What runs is on one.
void OrderReader::bound_to(const Node& node, WeekOrder& o) {
  const std::vector<std::string> named = machines_of(node, week_, problems_);
  if (named.size() == 1) o.machine = named.front();
  if (named.size() < 2) return;
  if (o.state == OrderState::running)
    problems_.add(node, {"week.runs-on-group", {{"name", node.text}}}, "week.a-machine-of-it");
  for (const WeekMachine& m : week_.machines)
    if (!contains(named, m.name) && !o.forbids(m.name)) o.not_on.push_back(m.name);
}

// Machines, of the order or of one of its operations.
void OrderReader::not_on(const Node& node, WeekOrder& o) {
  if (node.kind != Node::Kind::map) {
    for (std::string& name : machines_of(node, week_, problems_))
      o.not_on.push_back(std::move(name));
    return;
  }
  MapReader map(node, problems_, "week.an-operation-not-on");
  Forbidden forbidden;
  forbidden.operation = operation(map);
  if (const Node* machines = map.need("machine"))
    forbidden.machines = machines_of(*machines, week_, problems_);
  map.finish();
  o.operations_not_on.push_back(std::move(forbidden));
}

int OrderReader::operation(MapReader& map) {
  map.need("operation");
  return map.whole("operation", 1, most_operation).value_or(1);
}

Pin OrderReader::pin(const Node& node) {
  MapReader map(node, problems_, "week.a-pin");
  Pin p;
  p.operation = operation(map);
  if (const Node* machine = map.need("machine"))
    p.machines = machines_of(*machine, week_, problems_);
  if (const Node* from = map.find("from"))
    p.from =
        std::max(week_.now, read_moment(*from, week_.from, false, problems_).value_or(week_.now));
  map.finish();
  return p;
}

// Bound or pinned to a machine that it must not go to, or none is left.
bool OrderReader::goes_nowhere(const WeekOrder& o) const {
  if (week_.machines.empty()) return false;
  const bool bound = !o.machine.empty() && o.state != OrderState::running;
  return o.forbids(o.machine) || none_left(o, 0) ||
         std::any_of(o.pins.begin(), o.pins.end(),
                     [&](const Pin& p) { return none_left(o, p.operation); }) ||
         std::any_of(
             o.operations_not_on.begin(), o.operations_not_on.end(), [&](const Forbidden& f) {
               return none_left(o, f.operation) || (bound && contains(f.machines, o.machine));
             });
}
bool OrderReader::none_left(const WeekOrder& o, int operation) const {
  return std::all_of(week_.machines.begin(), week_.machines.end(),
                     [&](const WeekMachine& m) { return o.forbids(operation, m.name); });
}

// When it is there: a moment for the order, or one for an operation.
void OrderReader::material(const Node& node, WeekOrder& o) {
  if (node.kind != Node::Kind::map) {
    o.release = std::max(o.release, read_moment(node, week_.from, false, problems_).value_or(0));
    return;
  }
  MapReader map(node, problems_, "week.a-material");
  Arrival arrival;
  arrival.operation = operation(map);
  if (const Node* from = map.need("from"))
    arrival.from = read_moment(*from, week_.from, false, problems_).value_or(0);
  map.finish();
  o.arrivals.push_back(arrival);
}

void OrderReader::pieces(MapReader& map, WeekOrder& o) {
  if (map.need("quantity") != nullptr)
    o.quantity = map.whole("quantity", 1, most_pieces).value_or(1);
  o.done = map.whole("done", 0, most_pieces).value_or(0);
  if (const Node* list = map.find("finished"))
    for (const Node* item : as_list(*list))
      if (const auto operation = read_whole(*item, problems_, 1, most_operation))
        o.finished.push_back(*operation);
}

void OrderReader::dates(MapReader& map, WeekOrder& o) {
  if (const Node* release = map.find("release"))
    o.release = std::max(0, read_moment(*release, week_.from, false, problems_).value_or(0));
  if (const Node* list = map.find("material"))
    for (const Node* item : as_list(*list)) material(*item, o);
  o.release = std::max(o.release, week_.now);
  if (const Node* due = map.need("due")) o.due = read_day(*due, problems_).value_or(week_.to);
}

void OrderReader::check(const Node& node, const WeekOrder& o) {
  if (!(o.importance >= least_importance && o.importance <= most_importance))
    problems_.add(node, {"week.importance-of", {{"importance", Figure{o.importance}}}},
                  {"week.number-between",
                   {{"from", Figure{least_importance}}, {"to", Figure{most_importance}}}});
  if (o.day_late && !(o.day_late->si > 0 && *o.day_late <= dearest_day))
    problems_.add(node, "week.day-late-out-of-range",
                  {"week.above-0-at-most", {{"most", Figure{dearest_day.si, 8}}}});
  if (o.transfer <= 0 || o.transfer > 1)
    problems_.add(node, {"week.overlap-of", {{"share", Figure{o.transfer}}}}, "week.share-above-0");
  if (o.done > o.quantity)
    problems_.add(node, {"week.done-of", {{"done", o.done}, {"quantity", o.quantity}}},
                  "week.done-at-most");
  if (o.batches > o.quantity) problems_.add(node, "week.many-batches", "week.batch-a-piece");
  if (o.batches > 1 && o.state == OrderState::running)
    problems_.add(node, "week.running-in-batches", "week.order-of-its-own");
  if (o.probability < 0 || o.probability > 1)
    problems_.add(node, {"week.probability-of", {{"share", Figure{o.probability}}}},
                  "week.share-0-to-1");
  if (taken_.contains(o.number))
    problems_.add(node, {"week.order-twice", {{"name", o.number}}}, "week.each-once");
}

}  // namespace turnwright
