// SPDX-License-Identifier: MIT
// Who leads at which quantity, and by what money.
#include <algorithm>
#include <numeric>
#include <set>

#include "judge.hpp"
#include "practised.hpp"

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

// Running money by the seconds that make it: the machine's own rate with its overhead on each.
Amount running_cost(const Quote& quote, const model::LotLines<double>& lines, Time each) {
  const Rate rate = quote.lot.machine_rate * (1.0 + quote.lot.overhead);
  return quote.lot.releases * lines.pieces * each * rate;
}

// The costs of those that are feasible, quantity after quantity.
class AllCosts {
 public:
  AllCosts(const std::vector<MethodResult>& methods, const std::vector<std::size_t>& of) {
    for (const std::size_t i : of) {
      if (!methods[i].feasible()) continue;
      indices_.push_back(i);
      costs_.emplace_back(*methods[i].quote);
    }
  }
  bool empty() const { return indices_.empty(); }
  std::size_t size() const { return indices_.size(); }
  double at(std::size_t k, int quantity) { return costs_[k].at(quantity).si; }
  std::size_t method(std::size_t k) const { return indices_[k]; }

 private:
  std::vector<std::size_t> indices_;  // of the methods
  std::vector<LotCosts> costs_;
};

// Some of them at one quantity.
struct CostsAt {
  std::vector<std::size_t> of;  // of AllCosts
  std::vector<double> cost;

  std::size_t best() const {
    return static_cast<std::size_t>(std::min_element(cost.begin(), cost.end()) - cost.begin());
  }
  double least() const { return cost[best()]; }
};

CostsAt costs_at(AllCosts& all, const std::vector<std::size_t>& of, int quantity) {
  CostsAt costs{of, {}};
  for (const std::size_t k : of) costs.cost.push_back(all.at(k, quantity));
  return costs;
}

// The cheapest at a quantity, with those that are as good as it within the band.
LeadingRange lead_at(const AllCosts& all, const CostsAt& costs, int q, double either_within) {
  const double least = costs.least();
  LeadingRange lead{q, q, all.method(costs.of[costs.best()]), {}};
  for (std::size_t i = 0; i < costs.of.size(); ++i)
    if (costs.cost[i] - least <= either_within * least)
      lead.either.push_back(all.method(costs.of[i]));
  if (lead.either.size() == 1) lead.either.clear();
  return lead;
}

void add_lead(std::vector<LeadingRange>& found, LeadingRange lead) {
  if (!found.empty() && found.back().method == lead.method && found.back().either == lead.either)
    found.back().to = lead.to;
  else
    found.push_back(std::move(lead));
}

// Each of the first few, then a twentieth more each time, and both sides of where a lot is no
// longer turned round piece by piece, or comes in releases: in between no lot costs less than a
// smaller one.
std::vector<int> probes(const std::vector<MethodResult>& methods, int from, int to) {
  std::set<int> at{from, to};
  for (int q = 1; q <= to; q = q < 20 ? q + 1 : q + q / 20) at.insert(q);
  const auto both_sides_of = [&](int last) {
    if (last > 0 && last < to - 1) at.insert({last, last + 1});
  };
  for (const MethodResult& method : methods) {
    if (!method.feasible()) continue;
    both_sides_of(static_cast<int>(std::min(method.quote->lot.turned_round_up_to.si, 1e9)));
    both_sides_of(method.route().job.part.released);
  }
  return {at.lower_bound(from), at.end()};
}

// Quantities between which the same may lead.
struct Stretch {
  int from = 1, to = 1;
  std::vector<std::size_t> of;  // methods
};

// Every whole quantity is worked out, by those that may be as good as the best in its stretch.
void add_leads(std::vector<LeadingRange>& found, const std::vector<MethodResult>& methods,
               const Stretch& stretch, double either_within) {
  AllCosts all(methods, stretch.of);
  if (all.empty()) return;
  std::vector<std::size_t> everyone(all.size());
  std::iota(everyone.begin(), everyone.end(), std::size_t{0});
  CostsAt before;
  int last = stretch.from - 1;
  for (const int probe : probes(methods, stretch.from, stretch.to)) {
    CostsAt here = costs_at(all, everyone, probe);
    std::vector<std::size_t> near;
    for (std::size_t k = 0; k < before.cost.size(); ++k)
      if (before.cost[k] <= (1 + either_within) * here.least()) near.push_back(k);
    for (int q = last + 1; q < probe; ++q)
      add_lead(found, lead_at(all, costs_at(all, near, q), q, either_within));
    add_lead(found, lead_at(all, here, probe, either_within));
    before = std::move(here);
    last = probe;
  }
}

// A bar that is drawn by hand leads up to a lot.
std::vector<Stretch> stretches(const std::vector<MethodResult>& methods, int to) {
  std::set<int> begins{1};
  for (const MethodResult& m : methods)
    if (m.by_hand_up_to > 0 && m.by_hand_up_to < to) begins.insert(m.by_hand_up_to + 1);
  std::vector<Stretch> found;
  for (auto from = begins.begin(); from != begins.end(); ++from) {
    const auto next = std::next(from);
    found.push_back({*from, next == begins.end() ? to : *next - 1, contenders(methods, *from)});
  }
  return found;
}

double cost_of(const Comparison& c, std::size_t method, int quantity) {
  return lot_cost(*c.methods[method].quote, quantity).si;
}

std::optional<std::size_t> cheapest_of(const std::vector<MethodResult>& methods,
                                       const std::vector<std::size_t>& of, int quantity) {
  std::optional<std::size_t> best;
  double least = 0;
  for (const std::size_t i : of) {
    const double cost = lot_cost(*methods[i].quote, quantity).si;
    if (best && cost >= least) continue;
    best = i;
    least = cost;
  }
  return best;
}

// Where the next best costs less than the quoted method of the main quantity.
RunnerUp runner_up(const Comparison& c, const Shop& shop, std::size_t next) {
  RunnerUp found;
  found.method = next;
  found.each = price_at(*c.methods[next].quote, shop, c.quantity).worked_out;
  const double cost = cost_of(c, c.main, c.quantity);
  if (cost > 0) found.more = cost_of(c, next, c.quantity) / cost - 1;
  LotCosts quoted(*c.quoted().quote), other(*c.methods[next].quote);
  auto is_cheaper = [&](int q) { return other.at(q) < quoted.at(q); };
  for (int q = c.quantity + 1; q <= c.scanned_to && found.from == 0; ++q)
    if (is_cheaper(q)) found.from = q;
  for (int q = c.quantity - 1; q >= 1 && found.from == 0 && found.to == 0; --q)
    if (is_cheaper(q)) found.to = q;
  return found;
}

void differences(Comparison& c, const Part& part) {
  if (c.chosen.empty()) return;
  const Quote& quoted = *c.quoted().quote;
  if (c.runner_up)
    for (const int q : part.quantities) {
      c.differences.push_back(difference(quoted, *c.methods[c.runner_up->method].quote, q));
      c.differences.back().method = c.runner_up->method;
    }
  for (std::size_t i = 0; i < c.methods.size(); ++i) {
    if (i == c.main || !c.methods[i].feasible()) continue;
    c.reasons.push_back(difference(quoted, *c.methods[i].quote, c.quantity));
    c.reasons.back().method = i;
  }
}

}  // namespace

std::vector<std::size_t> contenders(const std::vector<MethodResult>& methods, int quantity) {
  std::vector<std::size_t> found;
  HeldBack least;
  for (std::size_t i = 0; i < methods.size(); ++i) {
    const MethodResult& m = methods[i];
    if (!m.practised || !m.feasible()) continue;
    HeldBack held = m.held_back_at(quantity);
    if (!found.empty() && held > least) continue;
    if (held < least) found.clear();
    least = std::move(held);
    found.push_back(i);
  }
  return found;
}

MethodResult plan_again(MethodPlanner& planner, const MethodResult& method, const Shop& shop) {
  MethodResult again = planner.plan_again(method);
  again.practised = method.practised;
  judge_alone(again, shop);
  return again;
}

int cheapest_contender(const std::vector<MethodResult>& methods, int quantity) {
  const auto best = cheapest_of(methods, contenders(methods, quantity), quantity);
  return best ? static_cast<int>(*best) : -1;
}

Difference difference(const Quote& first, const Quote& other, int quantity) {
  Difference d;
  d.quantity = quantity;
  const auto a = lot_lines(first, quantity), b = lot_lines(other, quantity);
  d.setup = b.setup - a.setup;
  d.inserts = b.inserts - a.inserts;
  d.material = b.material - a.material;
  d.outside = b.outside - a.outside;
  const TimeSums ta = sums(first), tb = sums(other);
  d.tool_change = running_cost(other, b, tb.tool_change) - running_cost(first, a, ta.tool_change);
  d.cutting = running_cost(other, b, tb.cutting) - running_cost(first, a, ta.cutting);
  d.total = lot_cost(other, quantity) - lot_cost(first, quantity);
  d.other_time = d.total - d.setup - d.inserts - d.material - d.outside - d.tool_change - d.cutting;
  return d;
}

const MethodResult* cheapest_practised(const std::vector<MethodResult>& methods, int quantity,
                                       std::size_t operations) {
  std::vector<std::size_t> of = contenders(methods, quantity);
  if (operations > 0)
    std::erase_if(
        of, [&](std::size_t i) { return methods[i].route().operations.size() != operations; });
  const auto best = cheapest_of(methods, of, quantity);
  return best ? &methods[*best] : nullptr;
}

std::optional<ChosenMethod> choose(const Comparison& c, int quantity) {
  std::vector<std::size_t> of = contenders(c.methods, quantity);
  const auto best = cheapest_of(c.methods, of, quantity);
  if (!best) return std::nullopt;
  ChosenMethod chosen{quantity, *best, std::nullopt};
  std::erase(of, *best);
  chosen.next = cheapest_of(c.methods, of, quantity);
  return chosen;
}

void judge_choice(Comparison& c, const Part& part, const Shop& shop, int quantity) {
  c.scanned_to = std::clamp(part.quantities.back(), 1000, 100000);
  c.quantity = quantity > 0 ? quantity : main_quantity(part);
  c.either_within = shop.policy.either_within;
  c.chosen.clear();
  if (contenders(c.methods, c.quantity).empty()) return;
  for (const int q : part.quantities) c.chosen.push_back(*choose(c, q));
  c.main = choose(c, c.quantity)->method;
  const Price price = price_at(*c.quoted().quote, shop, c.quantity);
  c.each = price.each;
  c.calculated = price.worked_out;
}

void judge(Comparison& c, const Part& part, const Shop& shop, bool named) {
  if (!c.chosen.empty())
    if (const auto next = choose(c, c.quantity)->next) c.runner_up = runner_up(c, shop, *next);
  std::vector<Stretch> all = stretches(c.methods, c.scanned_to);
  if (named) {
    all = {{1, c.scanned_to, std::vector<std::size_t>(c.methods.size())}};
    std::iota(all.front().of.begin(), all.front().of.end(), std::size_t{0});
  }
  for (const Stretch& stretch : all) add_leads(c.lead, c.methods, stretch, c.either_within);
  for (const LeadingRange& l : c.lead)
    if (l.method != c.lead.front().method && c.break_even == 0) c.break_even = l.from;
  differences(c, part);
}

}  // namespace turnwright
