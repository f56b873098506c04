// SPDX-License-Identifier: MIT
#include "setup_due.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "setup_items.hpp"

namespace turnwright {
namespace {

// Below, what clocks are rounded to decides: two steps of the plan; invented.
constexpr double least_due = 2 * time_step;  // minutes

// An operation of a part by a method.
using SetUpJob = std::tuple<std::string, int, std::string>;
struct SetUp {
  SetUpJob job;
  SetupSplit split;
};
// An operation of an order on a machine of the week.
using Work = std::tuple<std::string, int, std::string>;

class DueSetup {
 public:
  DueSetup(const Week& week, const std::vector<OrderRoutes>& routes) {
    for (const OrderRoutes& order : routes)
      for (std::size_t i = 0; i < order.on.size(); ++i) add(week, order, i);
  }
  // How much less of its setup each work needed, and how many pieces less to prove it.
  struct Saved {
    double minutes = 0, cycles = 0;
  };
  std::map<Work, Saved> saved_by(std::vector<Booking> bookings) {
    std::stable_sort(bookings.begin(), bookings.end(),
                     [](const Booking& a, const Booking& b) { return a.from < b.from; });
    std::map<Work, Saved> saved;
    std::map<std::string, Work> last;  // by machine
    for (const Booking& b : bookings) {
      if (b.kind == BookedKind::stop) continue;
      const Work work(b.order, b.operation, b.machine);
      const auto before = last.find(b.machine);
      if (before == last.end() || before->second != work)
        if (!saved.contains(work))
          saved[work] = saved_after(work, before == last.end() ? nullptr : &before->second);
      last[b.machine] = work;
    }
    return saved;
  }

 private:
  void add(const Week& week, const OrderRoutes& order, std::size_t i) {
    const Quote& quote = *order.on[i];
    const WeekOrder& o = week.orders[order.order];
    for (std::size_t k = 0; k < quote.route.operations.size(); ++k) {
      const int number = quote.route.operations[k].number;
      known_[{o.number, number, week.machine(order.machines[i]).name}] = {
          {o.part, number, order.methods[i]}, split_setup(quote, k)};
    }
  }
  Saved saved_after(const Work& work, const Work* before) {
    Saved saved;
    const auto found = known_.find(work);
    if (found == known_.end()) return saved;
    const SetUp& setup = found->second;
    const auto was = before == nullptr ? known_.end() : known_.find(*before);
    if (was != known_.end()) {
      for (const MountedTime& mounted : setup.split.items)
        if (has(was->second.split, mounted.item)) saved.minutes += mounted.minutes;
      if (was->second.job == setup.job) {
        saved.minutes += setup.split.rest;
        ++saved.cycles;  // of the first-off piece
      }
    }
    const auto& [part, operation, method] = setup.job;
    if (!proved_.insert({part, operation}).second && setup.split.first > 0) {
      saved.minutes += setup.split.first;
      ++saved.cycles;
    }
    return saved;
  }
  static bool has(const SetupSplit& split, const MountedItem& item) {
    return std::any_of(split.items.begin(), split.items.end(),
                       [&](const MountedTime& mounted) { return mounted.item == item; });
  }

  std::map<Work, SetUp> known_;
  std::set<std::pair<std::string, int>> proved_;  // part and operation
};

}  // namespace

std::vector<Estimated> estimates_due(const Week& week, const std::vector<OrderRoutes>& routes,
                                     const std::vector<Booking>& bookings) {
  std::vector<Estimated> estimates = estimates_of(week, routes);
  const auto saved = DueSetup(week, routes).saved_by(bookings);
  for (Estimated& e : estimates) {
    const auto found = saved.find({e.order, e.operation, e.called});
    if (found == saved.end()) continue;
    e.setup -= found->second.minutes;
    e.proving = std::max(0.0, e.proving - found->second.cycles * e.run_each);
    if (e.setup < least_due) e.setup = 0;
  }
  return estimates;
}

}  // namespace turnwright
