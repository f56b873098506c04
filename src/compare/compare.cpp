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

int main_quantity(const Part& part) { return part.quantities[part.quantities.size() / 2]; }

namespace {

void judge(Comparison& c, const Job& job, const Shop& shop) {
  c.scanned_to = std::clamp(job.part.quantities.back(), 1000, 100000);
  c.lead = leads(c.ways, c.scanned_to, shop.policy.either_within);
  for (const Lead& l : c.lead)
    if (l.way != c.lead.front().way && c.break_even == 0) c.break_even = l.from;
  if (c.ways.size() > 1 && c.ways[0].feasible() && c.ways[1].feasible())
    for (const int q : job.part.quantities)
      c.differences.push_back(difference(c.ways[0].quote, c.ways[1].quote, q));
  for (std::size_t i = 1; i < c.ways.size() && c.ways[0].feasible(); ++i)
    if (c.ways[i].feasible()) {
      c.reasons.push_back(difference(c.ways[0].quote, c.ways[i].quote, main_quantity(job.part)));
      c.reasons.back().way = i;
    }
}

// Nothing of it is other than in the first: same lathe, minutes and money.
bool same(const WayResult& a, const WayResult& b) {
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

Comparison compare_ways(const Job& job, const Shop& shop, const std::string& machine) {
  Comparison c;
  auto add = [&](WayKind way) {
    WayResult result;
    result.name = name_of(way);
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
  judge(c, job, shop);
  return c;
}

Comparison compare_all(const Job& job, const Shop& shop, const std::string& machine,
                       const std::vector<std::string>& names, bool combine, Combining& combining) {
  Comparison c;
  const std::vector<const Way*> usual = usual_way(shop);
  c.ways.push_back(plan_way(job.part, shop, usual, machine));
  c.ways.front().name = name_of(WayKind::rough_then_finish);
  auto known = [&](const WayResult& way) {
    return std::any_of(c.ways.begin(), c.ways.end(),
                       [&](const WayResult& w) { return same(w, way); });
  };
  for (const Way& way : shop.ways) {
    if (usual == std::vector{&way}) continue;
    if (!names.empty() && std::find(names.begin(), names.end(), way.name) == names.end()) continue;
    WayResult result = plan_way(job.part, shop, {&way}, machine);
    if (!known(result)) c.ways.push_back(std::move(result));
  }
  if (combine) {
    const std::vector<int> at{1, job.part.quantities.front(), main_quantity(job.part),
                              job.part.quantities.back()};
    auto best = [&](int q) {
      double least = 1e300;
      for (const WayResult& w : c.ways)
        if (w.feasible()) least = std::min(least, lot_cost(w.quote, q).si);
      return least;
    };
    const std::size_t singles = c.ways.size();
    for (std::size_t i = 1; i < singles; ++i)
      for (std::size_t k = i + 1; k < singles; ++k) {
        if (!c.ways[i].feasible() || !c.ways[k].feasible()) continue;
        ++combining.possible;
        // The stock is that of one of the two.
        const bool hopeless = std::all_of(at.begin(), at.end(), [&](int q) {
          return std::min(floor_of(c.ways[i].quote, q), floor_of(c.ways[k].quote, q)) >= best(q);
        });
        if (hopeless) {
          ++combining.left_out;
          continue;
        }
        ++combining.planned;
        WayResult both = plan_way(job.part, shop,
                                  {c.ways[i].records.front(), c.ways[k].records.front()}, machine);
        if (!both.feasible() || known(both)) continue;
        // Worth a line only where it is the cheapest somewhere.
        if (std::none_of(at.begin(), at.end(),
                         [&](int q) { return lot_cost(both.quote, q).si < best(q); }))
          continue;
        c.ways.push_back(std::move(both));
      }
  }
  judge(c, job, shop);
  return c;
}

}  // namespace turnwright
