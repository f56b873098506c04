// SPDX-License-Identifier: MIT
#include "turnwright/compare/compare.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

struct TimeSums {
  Time tool_change{}, cutting{}, other{};
};

TimeSums sums(const Quote& quote) {
  TimeSums t;
  for (const OperationTime& operation : quote.times.operations)
    for (const StepTime& step : operation.steps) {
      t.tool_change += step.tool_change;
      t.cutting += step.cutting;
    }
  t.other = quote.times.machine_each - t.tool_change - t.cutting;
  return t;
}

Difference difference(const Quote& a, const Quote& b, int quantity) {
  Difference d;
  d.quantity = quantity;
  const auto la = lot_lines(a, quantity), lb = lot_lines(b, quantity);
  d.setup = lb.setup - la.setup;
  d.edges = lb.edges - la.edges;
  d.material = lb.material - la.material;
  // Running money by the seconds that make it: machine rate with its overhead on each.
  const TimeSums ta = sums(a), tb = sums(b);
  const Rate rate = a.lot.machine_rate * (1.0 + a.lot.overhead);
  d.tool_change = a.lot.releases * la.pieces * (tb.tool_change - ta.tool_change) * rate;
  d.cutting = a.lot.releases * la.pieces * (tb.cutting - ta.cutting) * rate;
  d.total = lot_cost(b, quantity) - lot_cost(a, quantity);
  d.other_time = d.total - d.setup - d.edges - d.material - d.tool_change - d.cutting;
  return d;
}

std::vector<LeadingRange> leads(const std::vector<MethodResult>& methods, int to,
                                double either_within) {
  std::vector<LeadingRange> found;
  std::vector<double> cost(methods.size());
  for (int q = 1; q <= to; ++q) {
    std::size_t best = methods.size();
    for (std::size_t i = 0; i < methods.size(); ++i) {
      if (!methods[i].feasible()) continue;
      cost[i] = lot_cost(methods[i].quote, q).si;
      if (best == methods.size() || cost[i] < cost[best]) best = i;
    }
    if (best == methods.size()) return found;
    LeadingRange lead{q, q, best, {}};
    for (std::size_t i = 0; i < methods.size(); ++i)
      if (methods[i].feasible() && cost[i] - cost[best] <= either_within * cost[best])
        lead.either.push_back(i);
    if (lead.either.size() == 1) lead.either.clear();
    if (!found.empty() && found.back().method == best && found.back().either == lead.either)
      found.back().to = q;
    else
      found.push_back(std::move(lead));
  }
  return found;
}

}  // namespace

int main_quantity(const Part& part) { return part.quantities[part.quantities.size() / 2]; }

namespace {

void judge(Comparison& c, const Job& job, const Shop& shop) {
  c.scanned_to = std::clamp(job.part.quantities.back(), 1000, 100000);
  c.lead = leads(c.methods, c.scanned_to, shop.policy.either_within);
  for (const LeadingRange& l : c.lead)
    if (l.method != c.lead.front().method && c.break_even == 0) c.break_even = l.from;
  if (c.methods.size() > 1 && c.methods[0].feasible() && c.methods[1].feasible())
    for (const int q : job.part.quantities)
      c.differences.push_back(difference(c.methods[0].quote, c.methods[1].quote, q));
  for (std::size_t i = 1; i < c.methods.size() && c.methods[0].feasible(); ++i)
    if (c.methods[i].feasible()) {
      c.reasons.push_back(
          difference(c.methods[0].quote, c.methods[i].quote, main_quantity(job.part)));
      c.reasons.back().method = i;
    }
}

// Nothing of it is other than in the first: same lathe, minutes and money.
bool same(const MethodResult& a, const MethodResult& b) {
  if (!a.feasible() || !b.feasible() || a.route.machine.name != b.route.machine.name) return false;
  for (const int q : {1, 10, 100})
    if (lot_cost(a.quote, q).si != lot_cost(b.quote, q).si) return false;
  return a.quote.times.machine_each.si == b.quote.times.machine_each.si;
}

// What the price holds whatever is cut: no lot of this stock and outside work costs less.
double floor_of(const Quote& quote, int quantity) {
  const auto lines = lot_lines(quote, quantity);
  return (lines.material + lines.outside + lines.one_offs).si;
}

}  // namespace

Comparison compare_methods(const Job& job, const Shop& shop, const std::string& machine) {
  Comparison c;
  auto add = [&](MethodKind method) {
    MethodResult result;
    result.name = name_of(method);
    result.method = method;
    result.route = plan_route(job, shop, {machine, method});
    if (result.route.feasible) result.quote = make_quote(result.route, shop);
    c.methods.push_back(std::move(result));
  };
  add(MethodKind::rough_then_finish);
  add(MethodKind::two_finish_cuts);
  // Seats tied across two operations: what else would hold the tie, and what it costs.
  const auto& operations = c.methods.front().route.operations;
  if (std::any_of(operations.begin(), operations.end(),
                  [](const Operation& s) { return s.check_all; })) {
    add(MethodKind::between_centres);
    add(MethodKind::leave_and_grind);
  }
  judge(c, job, shop);
  return c;
}

Comparison compare_all(const Job& job, const Shop& shop, const std::string& machine,
                       const std::vector<std::string>& names, bool combine, Combining& combining) {
  Comparison c;
  const std::vector<const Method*> usual = default_method(shop);
  c.methods.push_back(plan_method(job.part, shop, usual, machine));
  c.methods.front().name = name_of(MethodKind::rough_then_finish);
  auto known = [&](const MethodResult& method) {
    return std::any_of(c.methods.begin(), c.methods.end(),
                       [&](const MethodResult& w) { return same(w, method); });
  };
  for (const Method& method : shop.methods) {
    if (usual == std::vector{&method}) continue;
    if (!names.empty() && std::find(names.begin(), names.end(), method.name) == names.end())
      continue;
    MethodResult result = plan_method(job.part, shop, {&method}, machine);
    if (!known(result)) c.methods.push_back(std::move(result));
  }
  if (combine) {
    const std::vector<int> at{1, job.part.quantities.front(), main_quantity(job.part),
                              job.part.quantities.back()};
    auto best = [&](int q) {
      double least = 1e300;
      for (const MethodResult& w : c.methods)
        if (w.feasible()) least = std::min(least, lot_cost(w.quote, q).si);
      return least;
    };
    const std::size_t singles = c.methods.size();
    for (std::size_t i = 1; i < singles; ++i)
      for (std::size_t k = i + 1; k < singles; ++k) {
        if (!c.methods[i].feasible() || !c.methods[k].feasible()) continue;
        ++combining.possible;
        // The stock is that of one of the two.
        const bool hopeless = std::all_of(at.begin(), at.end(), [&](int q) {
          return std::min(floor_of(c.methods[i].quote, q), floor_of(c.methods[k].quote, q)) >=
                 best(q);
        });
        if (hopeless) {
          ++combining.left_out;
          continue;
        }
        ++combining.planned;
        MethodResult both = plan_method(
            job.part, shop, {c.methods[i].records.front(), c.methods[k].records.front()}, machine);
        if (!both.feasible() || known(both)) continue;
        // Worth a line only where it is the cheapest somewhere.
        if (std::none_of(at.begin(), at.end(),
                         [&](int q) { return lot_cost(both.quote, q).si < best(q); }))
          continue;
        c.methods.push_back(std::move(both));
      }
  }
  judge(c, job, shop);
  return c;
}

}  // namespace turnwright
