// SPDX-License-Identifier: MIT
#include "log_problem.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

struct RangeEnds {
  CutRange range;
  LimitId least, most;
};
std::array<RangeEnds, 3> ends_of(const CutProblem& p) {
  return {{{p.speed, LimitId::least_speed, LimitId::spindle_speed},
           {p.feed, LimitId::least_feed, p.most_feed},
           {p.depth, LimitId::depth, LimitId::depth}}};
}

void add(LogProblem& p, Plane plane, LimitId limit) {
  plane.from[p.limits.size()] = 1;
  p.limits.push_back(limit);
  p.planes.push_back(plane);
}

void add_range(LogProblem& p, std::size_t k, const RangeEnds& ends) {
  p.ranges[k] = ends.range;
  Plane low, high;
  low.a[k] = -1;
  low.b = -std::log(ends.range.low);
  high.a[k] = 1;
  high.b = std::log(ends.range.high);
  add(p, low, ends.least);
  add(p, high, ends.most);
}

Plane sum_of(const Plane& upper, const Plane& lower, std::size_t k) {
  const double wu = 1 / upper.a[k], wl = -1 / lower.a[k];
  Plane sum;
  for (std::size_t i = 0; i < 3; ++i) sum.a[i] = wu * upper.a[i] + wl * lower.a[i];
  sum.a[k] = 0;
  sum.b = wu * upper.b + wl * lower.b;
  for (std::size_t i = 0; i < sum.from.size(); ++i)
    sum.from[i] = wu * upper.from[i] + wl * lower.from[i];
  return sum;
}

}  // namespace

std::vector<LimitId> not_above_zero(const CutProblem& problem) {
  std::vector<LimitId> none;
  for (const auto& [range, least, most] : ends_of(problem))
    if (!(range.low > 0 && range.low <= range.high)) {
      none.push_back(least);
      none.push_back(most);
    }
  for (const CutLimit& limit : problem.limits)
    if (!(limit.of.factor > 0 && limit.at_most > 0)) none.push_back(limit.limit);
  return none;
}

LogProblem in_logarithms(const CutProblem& problem) {
  LogProblem p;
  const auto ends = ends_of(problem);
  for (std::size_t k = 0; k < ends.size(); ++k) add_range(p, k, ends[k]);
  for (const CutLimit& limit : problem.limits) {
    Plane plane;
    plane.a = {limit.of.speed, limit.of.feed, limit.of.depth};
    plane.b = std::log(limit.at_most / limit.of.factor);
    add(p, plane, limit.limit);
  }
  for (const CutTerm& term : problem.cost)
    if (term.factor > 0)
      p.cost.push_back({std::log(term.factor), {term.speed, term.feed, term.depth}});
  return p;
}

double term_at(const LogTerm& t, const Logs& x) {
  return std::exp(t.log_factor + t.power[0] * x[0] + t.power[1] * x[1] + t.power[2] * x[2]);
}

double cost_at(const LogProblem& problem, const Logs& x) {
  double sum = 0;
  for (const LogTerm& t : problem.cost) sum += term_at(t, x);
  return sum;
}

std::vector<Plane> without_variable(const std::vector<Plane>& planes, std::size_t k) {
  std::vector<Plane> out, up, down;
  for (const Plane& p : planes) (p.a[k] > 1e-12 ? up : p.a[k] < -1e-12 ? down : out).push_back(p);
  for (const Plane& u : up)
    for (const Plane& l : down) out.push_back(sum_of(u, l, k));
  return out;
}

Stretch span_of(const std::vector<Plane>& planes, std::size_t k, const Logs& x) {
  Stretch s;
  for (const Plane& p : planes) {
    if (std::abs(p.a[k]) <= 1e-12) continue;
    double rest = p.b;
    for (std::size_t i = k + 1; i < 3; ++i) rest -= p.a[i] * x[i];
    const double at = rest / p.a[k];
    if (p.a[k] > 0)
      s.high = std::min(s.high, at);
    else
      s.low = std::max(s.low, at);
  }
  // Rounding may cross the two where only a point is left.
  if (s.low > s.high) s.low = s.high = (s.low + s.high) / 2;
  return s;
}

}  // namespace turnwright
