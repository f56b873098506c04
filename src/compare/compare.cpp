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
  d.tool_change = la.pieces * (tb.tool_change - ta.tool_change) * rate;
  d.cutting = la.pieces * (tb.cutting - ta.cutting) * rate;
  d.total = lot_cost(b, quantity) - lot_cost(a, quantity);
  d.other_time = d.total - d.make_ready - d.edges - d.material - d.tool_change - d.cutting;
  return d;
}

std::vector<Lead> leads(const Quote& a, const Quote& b, std::size_t ia, std::size_t ib, int to,
                        double either_within) {
  std::vector<Lead> found;
  for (int q = 1; q <= to; ++q) {
    const double ca = lot_cost(a, q).si, cb = lot_cost(b, q).si;
    const std::size_t way = cb < ca ? ib : ia;
    const bool either = std::abs(ca - cb) <= either_within * std::min(ca, cb);
    if (!found.empty() && found.back().way == way && found.back().either == either)
      found.back().to = q;
    else
      found.push_back({q, q, way, either});
  }
  return found;
}

}  // namespace

Comparison compare_ways(const Job& job, const Shop& shop, const std::string& machine) {
  Comparison c;
  for (const WayKind way : {WayKind::rough_then_finish, WayKind::two_finish_cuts}) {
    WayResult result;
    result.way = way;
    result.route = plan_route(job, shop, {machine, way});
    if (result.route.feasible) result.quote = make_quote(result.route, shop);
    c.ways.push_back(std::move(result));
  }
  c.scanned_to = std::max(1000, job.part.quantities.back());
  c.scanned_to = std::min(c.scanned_to, 100000);
  const bool a = c.ways[0].feasible(), b = c.ways[1].feasible();
  if (a && b) {
    c.lead = leads(c.ways[0].quote, c.ways[1].quote, 0, 1, c.scanned_to, shop.policy.either_within);
    for (const Lead& l : c.lead)
      if (l.way != c.lead.front().way && c.break_even == 0) c.break_even = l.from;
    for (const int q : job.part.quantities)
      c.differences.push_back(difference(c.ways[0].quote, c.ways[1].quote, q));
  } else if (a || b) {
    c.lead.push_back({1, c.scanned_to, a ? std::size_t{0} : std::size_t{1}, false});
  }
  return c;
}

}  // namespace turnwright
