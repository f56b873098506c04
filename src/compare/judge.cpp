// SPDX-License-Identifier: MIT
// Who leads at which quantity, and by what money.
#include <algorithm>

#include "judge.hpp"

namespace turnwright {
namespace {

struct TimeSums {
  Time tool_change{}, cutting{};
};
TimeSums sums(const Quote& quote) {
  TimeSums t;
  for (const OperationTime& operation : quote.times.operations)
    for (const StepTime& step : operation.steps) {
      t.tool_change += step.tool_change;
      t.cutting += step.cutting;
    }
  return t;
}

// The cheapest at a quantity, with those that are as good as it within the band; nothing when no
// method is feasible.
std::optional<LeadingRange> lead_at(const std::vector<MethodResult>& methods, int q,
                                    double either_within) {
  std::vector<double> cost(methods.size());
  std::size_t best = methods.size();
  for (std::size_t i = 0; i < methods.size(); ++i) {
    if (!methods[i].feasible()) continue;
    cost[i] = lot_cost(*methods[i].quote, q).si;
    if (best == methods.size() || cost[i] < cost[best]) best = i;
  }
  if (best == methods.size()) return std::nullopt;
  LeadingRange lead{q, q, best, {}};
  for (std::size_t i = 0; i < methods.size(); ++i)
    if (methods[i].feasible() && cost[i] - cost[best] <= either_within * cost[best])
      lead.either.push_back(i);
  if (lead.either.size() == 1) lead.either.clear();
  return lead;
}

std::vector<LeadingRange> leads(const std::vector<MethodResult>& methods, int to,
                                double either_within) {
  std::vector<LeadingRange> found;
  for (int q = 1; q <= to; ++q) {
    auto lead = lead_at(methods, q, either_within);
    if (!lead) return found;
    if (!found.empty() && found.back().method == lead->method &&
        found.back().either == lead->either)
      found.back().to = q;
    else
      found.push_back(*std::move(lead));
  }
  return found;
}

void differences(Comparison& c, const Part& part) {
  if (!c.methods.front().feasible()) return;
  const Quote& first = *c.methods.front().quote;
  if (c.methods.size() > 1 && c.methods[1].feasible())
    for (const int q : part.quantities)
      c.differences.push_back(difference(first, *c.methods[1].quote, q));
  for (std::size_t i = 1; i < c.methods.size(); ++i) {
    if (!c.methods[i].feasible()) continue;
    c.reasons.push_back(difference(first, *c.methods[i].quote, main_quantity(part)));
    c.reasons.back().method = i;
  }
}

}  // namespace

Difference difference(const Quote& first, const Quote& other, int quantity) {
  Difference d;
  d.quantity = quantity;
  const auto a = lot_lines(first, quantity), b = lot_lines(other, quantity);
  d.setup = b.setup - a.setup;
  d.inserts = b.inserts - a.inserts;
  d.material = b.material - a.material;
  // Running money by the seconds that make it: machine rate with its overhead on each.
  const TimeSums ta = sums(first), tb = sums(other);
  const Rate rate = first.lot.machine_rate * (1.0 + first.lot.overhead);
  d.tool_change = first.lot.releases * a.pieces * (tb.tool_change - ta.tool_change) * rate;
  d.cutting = first.lot.releases * a.pieces * (tb.cutting - ta.cutting) * rate;
  d.total = lot_cost(other, quantity) - lot_cost(first, quantity);
  d.other_time = d.total - d.setup - d.inserts - d.material - d.tool_change - d.cutting;
  return d;
}

void judge(Comparison& c, const Job& job, const Shop& shop) {
  c.scanned_to = std::clamp(job.part.quantities.back(), 1000, 100000);
  c.lead = leads(c.methods, c.scanned_to, shop.policy.either_within);
  for (const LeadingRange& l : c.lead)
    if (l.method != c.lead.front().method && c.break_even == 0) c.break_even = l.from;
  differences(c, job.part);
}

}  // namespace turnwright
