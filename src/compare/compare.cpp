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
  for (const SetupTime& setup : quote.times.setups)
    for (const StepTime& step : setup.steps) {
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
  d.make_ready = lb.make_ready - la.make_ready;
  d.edges = lb.edges - la.edges;
  d.material = lb.material - la.material;
  // Running money by the seconds that make it: machine rate with its overhead on each.
  const TimeSums ta = sums(a), tb = sums(b);
  const Rate rate = a.lot.machine_rate * (1.0 + a.lot.overhead);
  d.tool_change = a.lot.releases * la.pieces * (tb.tool_change - ta.tool_change) * rate;
  d.cutting = a.lot.releases * la.pieces * (tb.cutting - ta.cutting) * rate;
  d.total = lot_cost(b, quantity) - lot_cost(a, quantity);
  d.other_time = d.total - d.make_ready - d.edges - d.material - d.tool_change - d.cutting;
  return d;
}

std::vector<Lead> leads(const std::vector<WayResult>& ways, int to, double either_within) {
  std::vector<Lead> found;
  std::vector<double> cost(ways.size());
  for (int q = 1; q <= to; ++q) {
    std::size_t best = ways.size();
    for (std::size_t i = 0; i < ways.size(); ++i) {
      if (!ways[i].feasible()) continue;
      cost[i] = lot_cost(ways[i].quote, q).si;
      if (best == ways.size() || cost[i] < cost[best]) best = i;
    }
    if (best == ways.size()) return found;
    Lead lead{q, q, best, {}};
    for (std::size_t i = 0; i < ways.size(); ++i)
      if (ways[i].feasible() && cost[i] - cost[best] <= either_within * cost[best])
        lead.either.push_back(i);
    if (lead.either.size() == 1) lead.either.clear();
    if (!found.empty() && found.back().way == best && found.back().either == lead.either)
      found.back().to = q;
    else
      found.push_back(std::move(lead));
  }
  return found;
}

}  // namespace

Comparison compare_ways(const Job& job, const Shop& shop, const std::string& machine) {
  Comparison c;
  auto add = [&](WayKind way) {
    WayResult result;
    result.way = way;
    result.route = plan_route(job, shop, {machine, way});
    if (result.route.feasible) result.quote = make_quote(result.route, shop);
    c.ways.push_back(std::move(result));
  };
  add(WayKind::rough_then_finish);
  add(WayKind::two_finish_cuts);
  // Seats tied across two holdings: what else would hold the tie, and what it costs.
  const auto& setups = c.ways.front().route.setups;
  if (std::any_of(setups.begin(), setups.end(), [](const Setup& s) { return s.check_all; })) {
    add(WayKind::between_centres);
    add(WayKind::leave_and_grind);
  }
  c.scanned_to = std::max(1000, job.part.quantities.back());
  c.scanned_to = std::min(c.scanned_to, 100000);
  c.lead = leads(c.ways, c.scanned_to, shop.policy.either_within);
  for (const Lead& l : c.lead)
    if (l.way != c.lead.front().way && c.break_even == 0) c.break_even = l.from;
  if (c.ways[0].feasible() && c.ways[1].feasible())
    for (const int q : job.part.quantities)
      c.differences.push_back(difference(c.ways[0].quote, c.ways[1].quote, q));
  return c;
}

}  // namespace turnwright
