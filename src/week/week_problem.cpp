// SPDX-License-Identifier: MIT
#include "turnwright/week/week_problem.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "lot_status.hpp"
#include "on_machine.hpp"
#include "setup_items.hpp"
#include "tell_work.hpp"
#include "turnwright/quantity/whole.hpp"

namespace turnwright {
namespace {

NamedHand hand_of(const Week& week, const Person& person, std::size_t steps) {
  NamedHand hand;
  hand.present.assign(steps, 0);
  for (const Span& s : person.available.open())
    for (Minute t = s.from / time_step; t < s.to / time_step; ++t)
      if (const auto i = static_cast<std::size_t>(t); i < steps) hand.present[i] = 1;
  for (const WeekMachine& m : week.machines) {
    hand.runs.push_back(person.may_run(m.name) ? 1 : 0);
    hand.sets.push_back(person.may_set(m.name) ? 1 : 0);
  }
  return hand;
}

Presence presence_of(const Week& week) {
  Presence p;
  const auto steps = static_cast<std::size_t>(week.end() / time_step);
  p.present.assign(steps, 0);
  p.setters.assign(steps, 0);
  for (const Person& person : week.people)
    for (const Span& s : person.available.open())
      for (Minute t = s.from / time_step; t < s.to / time_step; ++t) {
        const auto i = static_cast<std::size_t>(t);
        if (i >= steps) break;
        p.present[i] += whole_person;
        if (person.sets) p.setters[i] += whole_person;
      }
  if (week.people_by_name())
    for (const Person& person : week.people) p.named.push_back(hand_of(week, person, steps));
  return p;
}

// The beginning of the day after the first working day from d on.
Minute back_from(const Week& week, int d) {
  for (; d < week.days(); ++d)
    if (week.working[static_cast<std::size_t>(d)]) return (d + 1) * minutes_a_day;
  return never;
}

// Working days of outside work: between the cuts, and after the last operation.
struct OutsideDays {
  bool between = false;
  int between_cuts = 0, after = 0;
};
OutsideDays outside_days(const std::vector<OtherWork>& work) {
  OutsideDays days;
  for (const OtherWork& w : work) {
    const bool roughed = w.after == WorkAfter::roughing;
    days.between = days.between || roughed;
    (roughed ? days.between_cuts : days.after) += whole_above(w.days);
  }
  return days;
}

// What is done outside between the cuts, or after the last operation.
std::vector<std::string> outside_names(const std::vector<OtherWork>& work, bool between) {
  std::vector<std::string> names;
  for (const OtherWork& w : work)
    if (w.days > 0 && (w.after == WorkAfter::roughing) == between) names.push_back(w.what);
  return names;
}

class ProblemMaker {
 public:
  ProblemMaker(const Week& week, const std::vector<OrderRoutes>& routes)
      : week_(week), routes_(routes) {}

  WeekProblem make() {
    for (const WeekMachine& m : week_.machines) add_machine(m);
    if (!week_.people.empty()) out_.problem.people = presence_of(week_);
    for (int d = 0; d <= week_.days(); ++d) out_.problem.back_on.push_back(back_from(week_, d));
    out_.problem.now = week_.now;
    if (!routes_.empty()) {
      out_.day_late = routes_.front().day_late;
      if (out_.day_late.si > 0)
        out_.problem.change_cost = (routes_.front().change_of_plan / out_.day_late).si;
      out_.common = routes_.front().common;
    }
    for (const OrderRoutes* order : by_number()) add_order(*order);
    take_as_proved();
    for (std::size_t m = 0; m < week_.machines.size(); ++m)
      if (week_.machines[m].left) leave_set_up(static_cast<int>(m), *week_.machines[m].left);
    for (const auto& [item, key] : keys_) out_.items.emplace(key, item);
    return std::move(out_);
  }

 private:
  // The same plan in whatever order the file has its orders; a quote that is asked about is last.
  std::vector<const OrderRoutes*> by_number() const {
    std::vector<const OrderRoutes*> sorted;
    for (const OrderRoutes& order : routes_) sorted.push_back(&order);
    const auto key = [&](const OrderRoutes* routes) {
      const WeekOrder& o = week_.orders[routes->order];
      return std::pair(o.state == OrderState::asked, o.number);
    };
    std::stable_sort(sorted.begin(), sorted.end(),
                     [&](const OrderRoutes* a, const OrderRoutes* b) { return key(a) < key(b); });
    return sorted;
  }
  int key(const MountedItem& item) {
    return keys_.emplace(item, static_cast<int>(keys_.size())).first->second;
  }
  // An operation of a part, the same for every order of it.
  int job_number(const WeekOrder& o, int operation) {
    const std::pair job(o.part, operation);
    const auto found = jobs_.find(job);
    if (found != jobs_.end()) return found->second;
    return jobs_.emplace(job, out_.problem.jobs++).first->second;
  }
  // Set up it asks for nothing more: a key of what is mounted, and no item's. Another method of the
  // same part is another job to set up.
  int set_up_key(const WeekOrder& o, int operation, const std::string& method) {
    const int next = -1 - static_cast<int>(set_up_.size());
    return set_up_.emplace(std::tuple(o.part, operation, method), next).first->second;
  }
  void add_machine(const WeekMachine& m) {
    PlannedMachine planned;
    planned.calendar = m.open;
    for (const MountedItem& item : m.mounted) planned.mounted.push_back(key(item));
    std::sort(planned.mounted.begin(), planned.mounted.end());
    out_.problem.machines.push_back(std::move(planned));
    out_.turrets.emplace_back();
  }
  void add_order(const OrderRoutes& order) {
    const WeekOrder& o = week_.orders[order.order];
    tell_work(order, out_);
    PlannedLot lot;
    lot.release = o.release;
    lot.due = week_.end_of(o.due);
    lot.quoted = o.state == OrderState::quoted || o.state == OrderState::asked;
    lot.weight = o.importance * (o.state == OrderState::quoted ? std::max(o.probability, 0.01) : 1);
    if (o.day_late && order.day_late.si > 0) lot.weight *= o.day_late->si / order.day_late.si;
    const LotStatus status =
        lot_status(o, order.on.front()->route, lot_lines(*order.on.front(), o.quantity).pieces.si);
    if (status.good < o.quantity) out_.shorts.push_back({order.order, status.good});
    for (const Message& doubt : status.doubts) out_.doubts.push_back({order.order, doubt});
    send_out(order, status, lot);
    lot.operations = add_operations(order, o, status);
    if (lot.operations.empty()) return;  // all of it is done
    const std::size_t at = out_.problem.lots.size();
    out_.problem.lots.push_back(std::move(lot));
    split_lot(out_.problem, at, o.batches);
    for (std::size_t j = at; j < out_.problem.lots.size(); ++j) {
      out_.orders.push_back(order.order);
      out_.batches.push_back(o.batches > 1 ? static_cast<int>(j - at) + 1 : 0);
      if (j != at) name_batch(at, order.band);
    }
  }
  // What is booked of a part has proved it for every order of it.
  void take_as_proved() {
    std::set<int> proved;
    for (const WeekOrder& o : week_.orders)
      for (const auto& [operation, booked] : o.booked)
        if (const auto job = jobs_.find({o.part, operation});
            booked.made() > 0 && job != jobs_.end())
          proved.insert(job->second);
    for (PlannedOperation& operation : out_.problem.operations)
      if (proved.contains(operation.job))
        for (Choice& c : operation.choices) c.proving = 0;
  }
  // The quote of an order on a machine, or of another order of its part, where it is not planned.
  std::optional<std::pair<const OrderRoutes*, std::size_t>> made_on(const std::string& number,
                                                                    int machine) const {
    const auto last = std::find_if(week_.orders.begin(), week_.orders.end(),
                                   [&](const WeekOrder& o) { return o.number == number; });
    if (last == week_.orders.end()) return std::nullopt;
    std::optional<std::pair<const OrderRoutes*, std::size_t>> found;
    for (const OrderRoutes* order : by_number()) {
      const WeekOrder& o = week_.orders[order->order];
      const auto at = std::find(order->machines.begin(), order->machines.end(), machine);
      if (o.part != last->part || at == order->machines.end()) continue;
      const auto i = static_cast<std::size_t>(at - order->machines.begin());
      if (o.number == number) return std::pair(order, i);
      if (!found) found.emplace(order, i);
    }
    return found;
  }
  // As `choice` says what a setup puts there: what was mounted before it is gone.
  void leave_set_up(int machine, const LeftSetUp& left) {
    const auto made = made_on(left.order, machine);
    if (!made) return;
    const auto& [order, i] = *made;
    const Quote& quote = *order->on[i];
    for (std::size_t k = 0; k < quote.route.operations.size(); ++k) {
      if (quote.route.operations[k].number != left.operation) continue;
      std::vector<int>& mounted = out_.problem.machines[static_cast<std::size_t>(machine)].mounted;
      mounted = {set_up_key(week_.orders[order->order], left.operation, order->methods[i])};
      for (const MountedTime& item : split_setup(quote, k).items) mounted.push_back(key(item.item));
      std::sort(mounted.begin(), mounted.end());
    }
  }
  // A further batch has the operations of the first.
  void name_batch(std::size_t first, double band) {
    for (const int whole : out_.problem.lots[first].operations) {
      if (const auto outside = out_.outside.find(whole); outside != out_.outside.end())
        out_.outside[static_cast<int>(out_.names.size())] = outside->second;
      out_.names.push_back(out_.names[static_cast<std::size_t>(whole)]);
      out_.pieces.push_back(out_.pieces[static_cast<std::size_t>(whole)]);
      out_.band.push_back(band);
    }
  }
  // What went to another firm before the plan is there again when that is done.
  void send_out(const OrderRoutes& order, const LotStatus& status, PlannedLot& lot) {
    if (!status.ended) return;
    const Route& route = order.on.front()->route;
    const std::size_t n = route.operations.size(), k = status.ended->place;
    const int days = days_out(route, k);
    const Minute from = status.ended->at, back = back_at(from, days);
    if (days == 0 || back <= week_.now) return;
    out_.out.push_back({order.order, route.operations[k].number, status.good,
                        outside_names(route.job.part.other_work, k + 1 < n), days, from, back});
    // What is back after the calendar does not fit into it.
    const Minute there = std::min(back, week_.end());
    lot.is_out = there > lot.release;
    lot.release = std::max(lot.release, there);
  }
  // Of work that may have gone before the first day: then, too, other firms work from Monday to
  // Friday.
  Minute back_at(Minute from, int days) const {
    constexpr int friday = 4;
    const auto weekend = [&](int day) {
      return weekday_number(days_after(week_.from, day)) > friday;
    };
    for (; days > 0 && from < 0; --days) {
      int day = -(-from / minutes_a_day);
      while (day < 0 && weekend(day)) ++day;
      if (day == 0) return back_after(out_.problem, 0, days);
      from = (day + 1) * minutes_a_day;
    }
    return back_after(out_.problem, from, days);
  }
  // Working days of outside work after an operation.
  static int days_out(const Route& route, std::size_t place) {
    const OutsideDays outside = outside_days(route.job.part.other_work);
    const std::size_t n = route.operations.size();
    if (place + 1 == n) return outside.after;
    return outside.between && place + 1 == n / 2 ? outside.between_cuts : 0;
  }
  std::vector<int> add_operations(const OrderRoutes& order, const WeekOrder& o,
                                  const LotStatus& status) {
    const Route& route = order.on.front()->route;
    const std::size_t n = route.operations.size();
    std::vector<int> added;
    for (const OperationLeft& left : status.left) {
      const std::size_t k = left.place;
      const int number = route.operations[k].number;
      PlannedOperation operation;
      operation.lot = static_cast<int>(out_.problem.lots.size());
      const bool now = left.now && o.state == OrderState::running;
      for (std::size_t i = 0; i < order.on.size(); ++i)
        if (may_go_to(order, order.machines[i], now))
          operation.choices.push_back(choice(order, i, left, now));
      operation.runs =
          now && operation.choices.size() == 1 && runs_on(order, operation.choices.front().machine);
      place(o, number, operation);
      operation.days_after = days_out(route, k);
      operation.transfer = o.transfer;
      operation.job = job_number(o, number);
      added.push_back(static_cast<int>(out_.problem.operations.size()));
      if (operation.days_after > 0)
        out_.outside[added.back()] = outside_names(route.job.part.other_work, k + 1 < n);
      out_.problem.operations.push_back(std::move(operation));
      out_.names.push_back({order.order, number});
      out_.pieces.push_back(left.told);
      out_.band.push_back(order.band);
    }
    return added;
  }
  // Only where the planner wants it, and when.
  void place(const WeekOrder& o, int number, PlannedOperation& operation) const {
    if (operation.runs) return;
    for (const Arrival& arrival : o.arrivals)
      if (arrival.operation == number)
        operation.ready = std::max(operation.ready, steps_up(arrival.from));
    std::vector<Choice> left;
    for (const Choice& c : operation.choices)
      if (!o.forbids(number, week_.machine(c.machine).name)) left.push_back(c);
    if (left.empty()) return;
    operation.choices = std::move(left);
    for (const Pin& pin : o.pins)
      if (pin.operation == number && pin.from) operation.pinned = steps_up(*pin.from);
  }
  bool is_open(int machine) const {
    return opens_again(week_.machine(machine).open, week_.now).has_value();
  }
  // The machine that an operation is bound to: where it runs, or where the planner wants all of it.
  // Empty: none, or one that does not make it.
  std::string bound_to(const OrderRoutes& order, bool now) const {
    const WeekOrder& o = week_.orders[order.order];
    const std::string& name = now && !o.runs_on.empty() ? o.runs_on : o.machine;
    const bool made = std::any_of(order.machines.begin(), order.machines.end(),
                                  [&](int m) { return week_.machine(m).name == name; });
    return made ? name : "";
  }
  // What runs stays where it is while that machine is there; else, and where the planner has bound
  // the order to one, it goes there.
  bool may_go_to(const OrderRoutes& order, int machine, bool now) const {
    const WeekOrder& o = week_.orders[order.order];
    const std::string bound = bound_to(order, now);
    if (bound.empty() || week_.machine(machine).name == bound) return true;
    if (!now) return o.state == OrderState::running && o.runs_on.empty();
    for (std::size_t m = 0; m < week_.machines.size(); ++m)
      if (week_.machines[m].name == bound) return !is_open(static_cast<int>(m));
    return true;
  }
  // What runs is there; where nothing says so, it is on the only machine that makes it, or nobody
  // knows where it is set up.
  bool runs_on(const OrderRoutes& order, int machine) const {
    const WeekOrder& o = week_.orders[order.order];
    const std::string& where = o.runs_on.empty() ? o.machine : o.runs_on;
    return where.empty() ? order.machines.size() == 1 : week_.machine(machine).name == where;
  }
  // `now`: it runs.
  Choice choice(const OrderRoutes& order, std::size_t i, const OperationLeft& left, bool now) {
    const Quote& quote = *order.on[i];
    const std::size_t k = left.place;
    const int machine = order.machines[i];
    const WeekOrder& o = week_.orders[order.order];
    const OperationTime& t = quote.times.operations[k];
    const double pieces =
        left.runs ? *left.runs : std::max(0.0, lot_lines(quote, o.quantity).pieces.si - left.done);
    const double rated = week_.machine(machine).rated();
    Choice c;
    c.machine = machine;
    c.run = steps_up(pieces * in(t.machine, unit::min) / rated);
    c.attended =
        t.machine.si > 0 ? std::min(1000, nearest_whole(1000 * (t.person / t.machine).si)) : 0;
    if (order.day_late.si > 0) {
      c.setup_price = minute_price(quote, 1) / order.day_late.si;
      c.run_price = minute_price(quote, c.attended / 1000.0) / order.day_late.si;
    }
    // What may be mounted already: jaws, the bar's size, tools.
    const SetupSplit setup = split_setup(quote, k);
    for (const MountedTime& mounted : setup.items)
      c.items.push_back({key(mounted.item), whole_minutes(mounted.minutes / rated)});
    const Minute rest = steps_up(std::max(setup.rest, 0.0) / rated);
    c.proving = steps_up(setup.first / rated);
    c.items.push_back({set_up_key(o, quote.route.operations[k].number, order.methods[i]), rest});
    std::sort(c.items.begin(), c.items.end(),
              [](const SetupItem& a, const SetupItem& b) { return a.key < b.key; });
    if (now && is_open(machine) && runs_on(order, machine)) take_as_set_up(c);
    return c;
  }
  // Of the machine, with a share of a person.
  static double minute_price(const Quote& quote, double attended) {
    const Rate hour = quote.lot.machine_rate + attended * quote.lot.person_rate;
    return in(hour * (1.0 + quote.lot.overhead), unit::money_per_h) / 60;
  }

  const Week& week_;
  const std::vector<OrderRoutes>& routes_;
  WeekProblem out_;
  std::map<MountedItem, int> keys_;
  std::map<std::pair<std::string, int>, int> jobs_;                  // by part and operation
  std::map<std::tuple<std::string, int, std::string>, int> set_up_;  // and by method
};

}  // namespace

Minute steps_up(double minutes) {
  constexpr double most = 1 << 25;  // 63 years, so that sums of them stay whole numbers
  return static_cast<Minute>(std::ceil(std::min(minutes, most) / time_step - 1e-9)) * time_step;
}

WeekProblem week_problem(const Week& week, const std::vector<OrderRoutes>& routes) {
  return ProblemMaker(week, routes).make();
}

}  // namespace turnwright
