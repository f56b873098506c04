// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "judge.hpp"
#include "turnwright/compare/inputs.hpp"
#include "turnwright/quantity/in_parallel.hpp"

namespace turnwright {
namespace {

constexpr double farthest = 5;    // times, up and down
constexpr double hopeless = 1.5;  // times the leader's cost: not planned again
constexpr std::size_t most_contestants = 8;
constexpr int halvings = 9;  // of the interval in which the winner changes
constexpr double coarse_steps[] = {0.06, 0.14, 0.3, 0.6, 1.0};  // outwards, of the farthest

// The methods of a comparison that are not hopeless, planned again and again.
struct Contest {
  const Part& part;
  const Shop& shop;
  int quantity;
  std::vector<const MethodResult*> methods;
  std::vector<bool> as_good;  // as the quoted one, within the band

  int leader(const Shop& changed) const {
    std::vector<MethodResult> planned;
    planned.reserve(methods.size());
    MethodPlanner planner(part, changed, quantity);
    for (const MethodResult* method : methods)
      planned.push_back(plan_again(planner, *method, changed));
    return cheapest_contender(planned, quantity);
  }
  int leader(const ChangeableInput& input, double log_factor) const {
    Shop changed = shop;
    input.change(changed, std::exp(log_factor));
    return leader(changed);
  }
  bool wins_anew(int method) const {
    return method >= 0 && !as_good[static_cast<std::size_t>(method)];
  }
};

// What the shop practises, those that may lead first, the cheapest of them first; what is not
// possible today may be with another input, and comes last.
std::vector<const MethodResult*> contestants(const Comparison& c, int quantity) {
  const std::vector<std::size_t> may_lead = contenders(c.methods, quantity);
  std::vector<std::pair<double, const MethodResult*>> of;
  for (std::size_t i = 0; i < c.methods.size(); ++i) {
    const MethodResult& m = c.methods[i];
    if (m.practised) of.emplace_back(m.feasible() ? lot_cost(*m.quote, quantity).si : 1e300, &m);
  }
  const auto leads = [&](const MethodResult* m) {
    return std::find(may_lead.begin(), may_lead.end(),
                     static_cast<std::size_t>(m - c.methods.data())) != may_lead.end();
  };
  std::stable_sort(of.begin(), of.end(), [&](const auto& a, const auto& b) {
    return std::pair(!leads(a.second), a.first) < std::pair(!leads(b.second), b.first);
  });
  std::vector<const MethodResult*> methods;
  for (const auto& [cost, method] : of) {
    if (methods.size() == most_contestants) break;
    if (!method->feasible() || cost <= hopeless * of.front().first) methods.push_back(method);
  }
  return methods;
}

// The quoted method, and what is as good within the band: it takes another one to win.
Contest contest_of(const Comparison& c, const MethodResult& quoted, const Part& part,
                   const Shop& shop, int quantity) {
  Contest contest{part, shop, quantity, contestants(c, quantity), {}};
  const double most = (1 + c.either_within) * lot_cost(*quoted.quote, quantity).si;
  for (const MethodResult* m : contest.methods)
    contest.as_good.push_back(m->feasible() && lot_cost(*m->quote, quantity).si <= most);
  return contest;
}

// A change at which another one wins, and who; the changes lie between `inside`, where none does,
// and `outside`.
struct Found {
  double inside = 0, outside = 0;
  int leader = -1;
};

// Coarse outwards, so that the nearest change is found and not a later one.
std::optional<Found> bracket(const Contest& contest, const ChangeableInput& input, double far) {
  Found found;
  for (const double share : coarse_steps) {
    found.leader = contest.leader(input, share * far);
    found.outside = share * far;
    if (contest.wins_anew(found.leader)) return found;
    found.inside = found.outside;
  }
  return std::nullopt;
}

void halve(const Contest& contest, const ChangeableInput& input, Found& found) {
  const double middle = (found.inside + found.outside) / 2;
  const int there = contest.leader(input, middle);
  if (!contest.wins_anew(there)) {
    found.inside = middle;
    return;
  }
  found.outside = middle;
  found.leader = there;
}

bool is_nearer(const WinnerChange& a, const WinnerChange& b) {
  return std::abs(std::log(a.factor)) < std::abs(std::log(b.factor));
}

std::optional<WinnerChange> nearest_change(const Contest& contest, const ChangeableInput& input) {
  std::optional<WinnerChange> nearest;
  for (const double far : {std::log(farthest), -std::log(farthest)}) {
    auto found = bracket(contest, input, far);
    if (!found) continue;
    for (int i = 0; i < halvings; ++i) halve(contest, input, *found);
    const WinnerChange change{input.input, std::exp(found->outside),
                              contest.methods[static_cast<std::size_t>(found->leader)]->name};
    if (!nearest || is_nearer(change, *nearest)) nearest = change;
  }
  return nearest;
}

}  // namespace

std::vector<WinnerChange> winner_changes(const Part& part, const Shop& shop, const Comparison& c,
                                         int quantity) {
  const auto chosen = choose(c, quantity);
  if (!chosen) return {};
  const Contest contest = contest_of(c, c.methods[chosen->method], part, shop, quantity);
  // Each input by itself, so any number of threads finds the same.
  const auto& inputs = changeable_inputs();
  std::vector<std::optional<WinnerChange>> of_input(inputs.size());
  in_parallel(inputs.size(), processors(),
              [&](std::size_t i) { of_input[i] = nearest_change(contest, inputs[i]); });
  std::vector<WinnerChange> found;
  for (const auto& change : of_input)
    if (change) found.push_back(*change);
  std::stable_sort(found.begin(), found.end(), is_nearer);
  return found;
}

}  // namespace turnwright
