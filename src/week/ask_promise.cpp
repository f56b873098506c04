// SPDX-License-Identifier: MIT
// Dates for quotes, from the week on.
#include <algorithm>
#include <utility>

#include "turnwright/week/first_list.hpp"
#include "turnwright/week/promise.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright {
namespace {

int largest_of(const std::vector<int>& quantities) {
  return quantities.empty() ? 1 : quantities.back();
}

// All lots but the last, planned anew or as they are posted, as `load` plans them.
DispatchOrder list_of_others(const Week& week, WeekProblem& problem, const Planning& planning) {
  const PlanProblem others = without_last(problem.problem);
  if (planning.posted == nullptr)
    return search_on(others, first_lists(others, planning.threads),
                     {.moves = moves_for(others, planning.effort), .threads = planning.threads});
  DispatchOrder list = posted_list(week, problem, *planning.posted);
  list.choices.resize(others.operations.size());
  std::erase(list.lots, static_cast<int>(others.lots.size()));
  // With what runs where it is, as `posted_list` has taught the problem.
  return list_again(week, without_last(problem.problem), list, week.now + week.frozen,
                    moves_for(others, planning.effort), planning.threads);
}

bool is_option(const RequestItem& item) { return !item.selling.option.empty(); }

// The week without the lines that are ordered in place of an option.
Week without_base(Week week, const std::string& part) {
  std::erase_if(week.orders, [&](const WeekOrder& order) {
    return order.state == OrderState::asked && order.part == part;
  });
  return week;
}

}  // namespace

Week with_asked(Week week, std::string part, int quantity) {
  WeekOrder asked;
  asked.number = "quote";
  asked.part = std::move(part);
  asked.quantity = quantity;
  asked.release = week.now;
  asked.due = week.to;
  asked.state = OrderState::asked;
  week.orders.push_back(std::move(asked));
  return week;
}

Checked<Promise> promise_for(const Week& week, const Planning& planning) {
  RoutedOrders routed = route_orders(week, planning.shop, planning.part);
  if (routed.routes.empty() || routed.routes.back().order + 1 != week.orders.size())
    return std::move(routed.problems);
  WeekProblem problem = week_problem(week, routed.routes);
  const DispatchOrder others = list_of_others(week, problem, planning);
  Promise promise = promise_of(week, problem, others);
  promise.problems = std::move(routed.problems);
  return promise;
}

Message delivery_of(const Week& week, const Promise& promise) {
  const int quantity = week.orders[promise.order].quantity;
  if (promise.p80 == never)
    return {"week.no-delivery", {{"quantity", quantity}, {"file", week.file}}};
  return {"week.delivery",
          {{"quantity", quantity},
           {"day", week.ending_on(promise.p80)},
           {"planned", week.ending_on(promise.planned)}}};
}

Checked<DeliveryWeeks> put_delivery_weeks(
    Request& request, Week week, const Planning& planning,
    const std::function<std::string(const RequestItem& item)>& path) {
  DeliveryWeeks out;
  for (RequestItem& item : request.parts) {
    const std::string part = path(item);
    Week asked = with_asked(is_option(item) ? without_base(week, part) : week, part,
                            largest_of(item.quantities));
    const auto promise = promise_for(asked, planning);
    if (!promise) return promise.problems();
    out.problems = promise->problems;
    const Date due =
        promise->p80 == never ? asked.orders.back().due : asked.ending_on(promise->p80);
    asked.orders.back().due = due;
    if (!is_option(item)) week = std::move(asked);
    const bool own = !item.week.empty();
    if (promise->p80 == never) {
      out.without.push_back(
          Message{"week.no-delivery-week", {{"part", item.part}, {"file", week.file}}});
      continue;
    }
    const std::string planned = week_of(due);
    if (own && item.week < planned)
      out.early.push_back(
          Message{"week.delivery-week-early",
                  {{"part", item.part}, {"week", item.week}, {"planned", planned}}});
    if (!own) item.week = planned;
  }
  return out;
}

}  // namespace turnwright
