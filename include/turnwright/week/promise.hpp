// SPDX-License-Identifier: MIT
#pragma once
// A date for a quote: when it would be done, nothing promised before being moved.
#include <cstdint>
#include <string>
#include <vector>

#include "turnwright/part/request.hpp"
#include "turnwright/week/route_orders.hpp"

namespace turnwright {

/// A date that overtime buys: on the quote's machines, every day until then.
struct Sooner {
  Minute until = 0, p80 = never;
  Minute minutes = 0;  // of overtime in all
  Amount cost = Amount(0.0);
};
/// Dates at 50, 80 and 95 % confidence, from simulated trials that draw all times from their bands
/// and are repeatable.
struct Promise {
  std::size_t order = 0;
  Minute planned = never, p50 = never, p80 = never, p95 = never;
  std::string bottleneck;             // the machine that it waits longest for
  Messages chain;                     // of the plan, down to the first cause
  std::vector<std::string> machines;  // that it runs on
  std::vector<Sooner> sooner;         // the cheapest that gains a day, then the soonest
  DispatchOrder list;
  Problems problems;  // of other orders, which are left out of the plan
};
inline constexpr std::uint64_t promise_draws = 200;
/// The problem with its times drawn once from their bands.
PlanProblem drawn(const WeekProblem& problem, std::uint64_t draw);
/// Where the quote is the last lot of the problem, and a list of all the others.
Promise promise_of(const Week& week, const WeekProblem& problem, const DispatchOrder& others);
/// The problem without its last lot.
PlanProblem without_last(const PlanProblem& problem);

/// The week with a part that a date is looked for as its last order, from now to the week's end.
Week with_asked(Week week, std::string part, int quantity);
/// The date of the week's last order, all others being planned first, or as they are posted.
Checked<Promise> promise_for(const Week& week, const Planning& planning);

/// What a quote says of its delivery, of the largest quantity: the date, or that the week of `file`
/// has none.
Message delivery_of(const Week& week, const Promise& promise);

struct DeliveryWeeks {
  Messages without;   // the parts that the week has no date for
  Messages early;     // the parts whose own week is before the plan's
  Problems problems;  // of orders that are left out of the plan
};
/// Puts into the parts of a request that name none their week of delivery: of the date at 80 %
/// confidence, at the largest quantity; each part after those before it, for the customer may order
/// them all; an option in place of its line, and out of the way of those after it. `path` is the
/// part file of an item as the planning's reader gets it. Problems: a part cannot be made.
Checked<DeliveryWeeks> put_delivery_weeks(
    Request& request, Week week, const Planning& planning,
    const std::function<std::string(const RequestItem& item)>& path);

}  // namespace turnwright
