// SPDX-License-Identifier: MIT
// Where the orders of a week stand, by what is booked.
#include <algorithm>
#include <map>
#include <set>

#include "batches.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/actuals.hpp"

namespace turnwright {
namespace {

// What a machine was booked for last, of the week or not: what came before is no longer set up.
struct LastOn {
  std::string order;
  int operation = 0;
  Minute to = 0;
};

class StatusTaker {
 public:
  StatusTaker(Week& week, const std::string& file)
      : week_(week), file_(file), before_week_(minutes_before(week)) {}

  Problems take(const Bookings& bookings) {
    split_batches(bookings);
    std::vector<const Booking*> in_time;
    std::vector<const Booking*> ahead;
    for (const Booking& b : bookings.rows)
      (b.from - before_week_ < week_.now ? in_time : ahead).push_back(&b);
    say_ahead(ahead);
    std::stable_sort(in_time.begin(), in_time.end(),
                     [](const Booking* a, const Booking* b) { return a->from < b->from; });
    for (const Booking* b : in_time) add(*b);
    for (auto& [number, operations] : booked_) set(*order_named(number), operations);
    for (WeekMachine& machine : week_.machines)
      if (const auto last = last_on_.find(machine.name);
          last != last_on_.end() && order_named(last->second.order) != nullptr)
        machine.left = LeftSetUp{last->second.order, last->second.operation};
    return std::move(problems_);
  }

 private:
  using ByOperation = std::map<int, BookedWork>;

  // What begins at the plan's moment or later has not happened: said once, with the first of it.
  void say_ahead(const std::vector<const Booking*>& ahead) {
    if (ahead.empty()) return;
    problems_.push_back({file_,
                         {ahead.front()->line, 1},
                         1,
                         {"week.booked-ahead", {{"n", static_cast<int>(ahead.size())}}},
                         {"week.booked-before", {{"now", moment_of(week_, week_.now)}}},
                         "",
                         ""});
  }
  WeekOrder* order_named(const std::string& number) {
    const auto found = std::find_if(week_.orders.begin(), week_.orders.end(),
                                    [&](const WeekOrder& o) { return o.number == number; });
    return found == week_.orders.end() ? nullptr : &*found;
  }
  // Each name that the week has not is said once.
  void unknown(const Booking& b, const char* what, const char* expected, const std::string& name,
               const std::vector<std::string>& names) {
    if (!said_.insert(name).second) return;
    std::string near = nearest(name, names);
    if (near == name) near.clear();
    problems_.push_back(
        {file_, {b.line, 1}, 1, {what, {{"name", name}}}, expected, std::move(near), ""});
  }
  // What of it is booked for its batches.
  void split_batches(const Bookings& bookings) {
    std::set<std::string> booked;
    for (const Booking& b : bookings.rows) {
      const WeekOrder* order = order_of_batch(week_, b.order);
      booked.insert(order == nullptr ? b.order : order->number);
    }
    std::vector<WeekOrder> orders;
    for (WeekOrder& order : week_.orders) {
      if (order.batches < 2 || !booked.contains(order.number)) {
        orders.push_back(std::move(order));
        continue;
      }
      order.repeat = true;  // what is booked of it has proved it
      for (WeekOrder& batch : batches_of(order)) orders.push_back(std::move(batch));
    }
    week_.orders = std::move(orders);
  }
  // Batch after batch, where the booking names the order alone: each gets what it lacks, the last
  // one all that is left, and the scrap stays with the last of it.
  void add(const Booking& b) {
    Booking rest = b;
    for (std::size_t i = 0; i < week_.orders.size(); ++i) {
      const WeekOrder& batch = week_.orders[i];
      if (batch.batch_of != b.order || batch.batch_of.empty()) continue;
      rest.order = batch.number;
      const bool last =
          i + 1 == week_.orders.size() || week_.orders[i + 1].batch_of != batch.batch_of;
      const int lacks = batch.quantity - good_of(batch.number, b.operation);
      if (last || (lacks > 0 && rest.good <= lacks)) break;
      if (lacks <= 0) continue;
      Booking part = rest;
      part.good = lacks;
      part.scrap = 0;
      rest.good -= lacks;
      add_work(part);
    }
    add_work(rest);
  }
  int good_of(const std::string& number, int operation) const {
    const auto order = booked_.find(number);
    if (order == booked_.end()) return 0;
    const auto booked = order->second.find(operation);
    return booked == order->second.end() ? 0 : booked->second.good;
  }
  void add_work(const Booking& b) {
    const bool works = b.kind != BookedKind::stop;
    LastOn& last = last_on_[b.machine];
    if (works && b.to >= last.to) last = {b.order, b.operation, b.to};
    if (order_named(b.order) == nullptr) {
      std::vector<std::string> numbers;
      for (const WeekOrder& o : week_.orders) numbers.push_back(o.number);
      return unknown(b, "week.booked-order", "week.an-order-of-it", b.order, numbers);
    }
    if (!week_.has_machine(b.machine)) {
      std::vector<std::string> names;
      for (const WeekMachine& m : week_.machines) names.push_back(m.name);
      return unknown(b, "week.booked-machine", "week.a-machine-of-it", b.machine, names);
    }
    if (!works) return;
    const Minute to = b.to - before_week_;
    const auto [at, first] = booked_[b.order].try_emplace(b.operation);
    BookedWork& here = at->second;
    if (b.kind == BookedKind::run) here.good += b.good, here.scrap += b.scrap;
    if (!first && to < here.last) return;
    here.last = to;
    here.machine = b.machine;
  }
  // It is on its machine and nothing else came after it there, nor has the planner bound it to
  // another.
  bool is_there(const WeekOrder& order, int operation, const std::string& machine) const {
    const auto last = last_on_.find(machine);
    return last != last_on_.end() && last->second.order == order.number &&
           last->second.operation == operation &&
           (order.machine.empty() || order.machine == machine);
  }
  void set(WeekOrder& order, const ByOperation& operations) {
    const bool ran = order.state == OrderState::running;
    if (ran) order.state = OrderState::won;
    say_done(order, operations);
    order.done = 0;
    order.booked = operations;
    for (auto at = operations.begin(); at != operations.end(); ++at) {
      const auto& [number, booked] = *at;
      const bool left_behind = std::next(at) != operations.end() && order.transfer >= 1;
      if (booked.good >= order.quantity || left_behind) {
        if (!order.is_finished(number)) order.finished.push_back(number);
        continue;
      }
      order.done = std::min(booked.made(), order.quantity);
      order.at_work = number;
      order.runs_on = booked.machine;
      if (is_there(order, number, booked.machine)) order.state = OrderState::running;
      return;
    }
    // All that is booked is finished: the next one does not run yet, nor must it go where that was.
    if (ran) order.machine.clear();
  }

  // What is booked stands instead of what the week file says is done.
  void say_done(const WeekOrder& order, const ByOperation& operations) {
    const auto at_work =
        std::find_if(operations.begin(), operations.end(),
                     [&](const auto& booked) { return !order.is_finished(booked.first); });
    if (order.done == 0 || !order.batch_of.empty() || at_work == operations.end()) return;
    const int made = at_work->second.made();
    if (made == order.done) return;
    problems_.push_back(problem_of(week_, order,
                                   {"week.done-beside-bookings",
                                    {{"order", order.number},
                                     {"done", order.done},
                                     {"operation", at_work->first},
                                     {"n", made}}},
                                   "week.done-as-booking"));
  }

  Week& week_;
  const std::string& file_;
  std::map<std::string, ByOperation> booked_;
  std::map<std::string, LastOn> last_on_;  // by machine
  std::set<std::string> said_;
  Minute before_week_;  // from 1970, where bookings count from
  Problems problems_;
};

}  // namespace

Problems take_status(Week& week, const Bookings& bookings, const std::string& file) {
  return StatusTaker(week, file).take(bookings);
}

}  // namespace turnwright
