// SPDX-License-Identifier: MIT
#include "turnwright/week/actuals.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "batches.hpp"
#include "setup_due.hpp"

namespace turnwright {
namespace {

constexpr double outlier_factor = 3;  // a booking three times off is a slip, not a speed
constexpr std::size_t most_repriced = 10;

struct Sums {
  double setup = 0, run = 0;  // minutes
  int pieces = 0;
};
using SumsByWork = std::map<std::tuple<std::string, int, std::string>, Sums>;

SumsByWork sums_of(const std::vector<Booking>& bookings) {
  SumsByWork booked;
  for (const Booking& b : bookings) {
    Sums& s = booked[{b.order, b.operation, b.machine}];
    if (b.kind == BookedKind::setup) s.setup += b.to - b.from - b.paused;
    if (b.kind != BookedKind::run) continue;
    s.run += b.to - b.from - b.paused;
    s.pieces += b.good + b.scrap;
  }
  return booked;
}

bool is_outlier(double ratio) { return std::abs(std::log(ratio)) > std::log(outlier_factor); }

// How fast an operation's pieces ran against the estimate; as estimated where that is not known.
double run_ratio(const Sums& booked, const Estimated& e) {
  const double estimated = booked.pieces * e.run_each;
  if (booked.run <= 0 || estimated <= 0) return 1;
  const double ratio = booked.run / estimated;
  return is_outlier(ratio) ? 1 : ratio;
}

void work_out(Factor& f) {
  double sum = 0, squares = 0;
  std::size_t n = 0;
  for (BookedRatio& c : f.orders) {
    const double log = std::log(c.ratio());
    c.outlier = is_outlier(c.ratio());
    if (c.outlier) continue;
    sum += log;
    squares += log * log;
    ++n;
  }
  if (n == 0) return;
  const double count = static_cast<double>(n), mean = sum / count;
  f.raw = std::exp(mean);
  f.spread =
      n > 1 ? std::exp(std::sqrt(std::max(0.0, (squares - count * mean * mean) / (count - 1)))) : 1;
  f.proposed = shrunk(mean, n);
}

// Setup of an order beside its running: the correlation of what both were off by, as logarithms.
double correlation(const Factor& setup, const Factor& running) {
  double products = 0, squares_setup = 0, squares_run = 0;
  for (const BookedRatio& s : setup.orders)
    for (const BookedRatio& r : running.orders) {
      if (s.order != r.order || s.operation != r.operation || s.outlier || r.outlier) continue;
      const double of_setup = std::log(s.ratio() / setup.raw),
                   of_running = std::log(r.ratio() / running.raw);
      products += of_setup * of_running;
      squares_setup += of_setup * of_setup;
      squares_run += of_running * of_running;
    }
  return squares_setup > 0 && squares_run > 0 ? products / std::sqrt(squares_setup * squares_run)
                                              : 0;
}

std::size_t counted(const Factor& f) {
  return static_cast<std::size_t>(std::count_if(f.orders.begin(), f.orders.end(),
                                                [](const BookedRatio& c) { return !c.outlier; }));
}

// Minutes of a booking in which its machine's shifts pause.
Minute paused(const Week& week, const WeekMachine& machine, const Booking& b) {
  const Minute before = minutes_before(week);
  Minute sum = 0;
  // A pause after midnight belongs to the shift of the day before.
  for (int day = (b.from - before) / minutes_a_day - 2; day * minutes_a_day < b.to - before;
       ++day) {
    const auto weekday = static_cast<std::size_t>(weekday_number(days_after(week.from, day)));
    for (const Pause& pause : machine.pauses) {
      if (!pause.days[weekday] && !pause.dates.contains(day)) continue;
      const Minute midnight = before + day * minutes_a_day;
      sum += std::max(0, std::min(b.to, midnight + pause.span.to) -
                             std::max(b.from, midnight + pause.span.from));
    }
  }
  return sum;
}

// As the work was done: without pauses, and of a batch as of its order, which is what is estimated.
Bookings as_worked(const Week& week, Bookings bookings) {
  for (Booking& b : bookings.rows) {
    if (const WeekOrder* order = order_of_batch(week, b.order)) b.order = order->number;
    for (const WeekMachine& m : week.machines)
      if (m.name == b.machine) b.paused = paused(week, m, b);
  }
  return bookings;
}

Shop with_factors(Shop shop, const std::vector<Factor>& factors) {
  for (const Factor& f : factors) {
    Correction c;
    c.machine = f.machine;
    c.setup = f.setup;
    c.factor = f.proposed;
    c.spread = further_spread(f);
    c.with_running = f.with_running;
    shop.corrections.insert(shop.corrections.begin(), c);
  }
  return shop;
}

}  // namespace

double shrunk(double mean_log, std::size_t n) {
  const auto count = static_cast<double>(n);
  return std::exp(mean_log * count / (count + prior_orders));
}

double further_spread(const Factor& f) {
  const std::size_t n = counted(f);
  if (n < least_orders) return 1;
  // The factor's own error is that of a mean of n orders and the prior ones.
  const double open = 1 + 1 / (static_cast<double>(n) + prior_orders);
  return std::exp(std::log(f.spread) * std::sqrt(open));
}

std::vector<Estimated> estimates_of(const Week& week, const std::vector<OrderRoutes>& routes) {
  std::vector<Estimated> list;
  for (const OrderRoutes& order : routes)
    for (std::size_t i = 0; i < order.on.size(); ++i) {
      const Quote& quote = *order.on[i];
      const WeekMachine& machine = week.machine(order.machines[i]);
      for (std::size_t k = 0; k < quote.route.operations.size(); ++k) {
        const OperationTime& time = quote.times.operations[k];
        list.push_back({week.orders[order.order].number, machine.name, machine.machine,
                        quote.route.operations[k].number, in(time.setup, unit::min),
                        in(time.machine, unit::min),
                        time.first_off_cycles * in(time.machine, unit::min)});
      }
    }
  return list;
}

std::vector<Factor> factors_of(const Bookings& bookings, const std::vector<Estimated>& estimates) {
  const SumsByWork booked = sums_of(bookings.rows);
  std::map<std::pair<std::string, bool>, Factor> factors;
  auto add = [&](const Estimated& e, bool setup, double is, double was) {
    if (is <= 0 || was <= 0) return;
    Factor& f = factors[{e.machine, setup}];
    f.machine = e.machine;
    f.setup = setup;
    f.orders.push_back({e.order, e.operation, is, was, false});
  };
  for (const Estimated& e : estimates) {
    const auto found = booked.find({e.order, e.operation, e.called});
    if (found == booked.end()) continue;
    const Sums& sums = found->second;
    // The factor of running holds for the pieces that prove the setup: its own is of the rest.
    if (sums.setup > 0)
      add(e, true, sums.setup - e.proving * run_ratio(sums, e), e.setup - e.proving);
    add(e, false, sums.run, sums.pieces * e.run_each);
  }
  std::vector<Factor> list;
  for (auto& [key, factor] : factors) {
    work_out(factor);
    list.push_back(std::move(factor));
  }
  // Running of a machine stands before its setup.
  for (std::size_t i = 0; i + 1 < list.size(); ++i)
    if (list[i].machine == list[i + 1].machine)
      list[i + 1].with_running = correlation(list[i + 1], list[i]);
  return list;
}

std::vector<Repriced> repriced(const Week& week, const Shop& shop,
                               const std::vector<OrderRoutes>& routes,
                               const std::vector<Factor>& factors) {
  const Shop corrected = with_factors(shop, factors);
  std::vector<Repriced> list;
  for (const OrderRoutes& order : routes) {
    const Quote& quote = *order.on[order.leading];
    const WeekOrder& asked = week.orders[order.order];
    const Price before = price_at(quote, shop, asked.quantity);
    const Price after = price_at(make_quote(quote.route, corrected), corrected, asked.quantity);
    if (before.each != after.each) list.push_back({asked.number, before.each, after.each});
  }
  auto change = [](const Repriced& r) {
    return std::abs((r.after.amount() / r.before.amount()).si - 1);
  };
  std::stable_sort(list.begin(), list.end(),
                   [&](const Repriced& a, const Repriced& b) { return change(a) > change(b); });
  if (list.size() > most_repriced) list.resize(most_repriced);
  return list;
}

Actuals actuals_of(const Week& week, const Bookings& bookings, Shop shop, const PartReader& part) {
  shop.corrections.clear();
  RoutedOrders routed = route_orders(week, shop, part);
  Actuals actuals;
  const Bookings worked = as_worked(week, bookings);
  actuals.factors = factors_of(worked, estimates_due(week, routed.routes, worked.rows));
  if (!actuals.factors.empty())
    actuals.prices = repriced(week, shop, routed.routes, actuals.factors);
  actuals.problems = std::move(routed.problems);
  return actuals;
}

}  // namespace turnwright
