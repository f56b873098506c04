// SPDX-License-Identifier: MIT
#include "turnwright/tune/cut_optimum.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "log_problem.hpp"

namespace turnwright {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

// Where a function that falls and then rises is least, by golden section; the ends themselves are
// tried too: a limit is met there and not nearly.
template <class Value>
double least_between(const Stretch& s, Value at) {
  constexpr double golden = 0.6180339887498949;
  double a = s.low, b = s.high;
  double c = b - golden * (b - a), d = a + golden * (b - a);
  double fc = at(c), fd = at(d);
  while (b - a > 1e-12 * std::max(1.0, std::abs(a) + std::abs(b))) {
    if (fc <= fd) {
      b = d, d = c, fd = fc;
      c = b - golden * (b - a);
      fc = at(c);
    } else {
      a = c, c = d, fc = fd;
      d = a + golden * (b - a);
      fd = at(d);
    }
    if (b - a < 1e-8 && std::abs(fc - fd) <= 1e-15 * fc) break;
  }
  double best = inf, best_y = (a + b) / 2;
  for (const double y : {s.low, (a + b) / 2, s.high})
    if (const double found = at(y); found < best - 1e-15 * std::abs(best)) best = found, best_y = y;
  return best_y;
}

// The cost as a function of ln v alone: sum of c exp(a y).
class SpeedCost {
 public:
  SpeedCost(const std::vector<LogTerm>& terms, const Logs& x)
      : terms_(terms), n_(std::min(terms.size(), c_.size())) {
    for (std::size_t i = 0; i < n_; ++i)
      c_[i] = std::exp(terms[i].log_factor + terms[i].power[1] * x[1] + terms[i].power[2] * x[2]);
  }
  double slope(double y, double& curve) const {
    double first = 0;
    curve = 0;
    for (std::size_t i = 0; i < n_; ++i) {
      const double a = terms_[i].power[0], value = a * c_[i] * std::exp(a * y);
      first += value;
      curve += a * value;
    }
    return first;
  }

 private:
  const std::vector<LogTerm>& terms_;
  std::array<double, 8> c_{};
  std::size_t n_;
};

// Newton within the span, halving where it leaves it.
double level_between(const SpeedCost& cost, double low, double high) {
  double y = (low + high) / 2, curve = 0;
  for (int i = 0; i < 100; ++i) {
    const double g = cost.slope(y, curve);
    (g > 0 ? high : low) = y;
    double next = curve > 0 ? y - g / curve : (low + high) / 2;
    if (!(next > low && next < high)) next = (low + high) / 2;
    const double step = std::abs(next - y);
    y = next;
    if (step < 1e-14 * std::max(1.0, std::abs(y))) break;
  }
  return y;
}

double best_speed(const LogProblem& p, const Stretch& s, Logs& x) {
  const SpeedCost cost(p.cost, x);
  double curve = 0;
  if (cost.slope(s.low, curve) >= 0)
    x[0] = s.low;
  else if (cost.slope(s.high, curve) <= 0)
    x[0] = s.high;
  else
    x[0] = level_between(cost, s.low, s.high);
  return cost_at(p, x);
}

// levels[k]: planes of the variables from k on.
using Levels = std::array<std::vector<Plane>, 4>;
Levels levels_of(const LogProblem& p) {
  Levels levels;
  levels[0] = p.planes;
  for (std::size_t k = 0; k < 3; ++k) levels[k + 1] = without_variable(levels[k], k);
  return levels;
}

// The best of the first k + 1 variables, the later ones given; fills x.
double best_over(const LogProblem& p, const Levels& levels, std::size_t k, Logs& x) {
  const Stretch s = span_of(levels[k], k, x);
  if (k == 0) return best_speed(p, s, x);
  auto at = [&](double y) {
    x[k] = y;
    return best_over(p, levels, k - 1, x);
  };
  if (s.high - s.low <= 1e-14) return at(s.low);
  // Convex in y: the least of a partly minimised convex function. An end that is lower than just
  // beside it is the least.
  const double beside = 1e-5 * (s.high - s.low);
  const double inner_high = at(s.high - beside);
  const double at_high = at(s.high);
  if (at_high <= inner_high) return at_high;
  const double inner_low = at(s.low + beside);
  const double at_low = at(s.low);
  if (at_low <= inner_low) return at_low;
  return at(least_between(s, at));
}

// The contradiction that is worst, where no variable is left in it; or nullptr.
const Plane* contradiction(const std::vector<Plane>& fixed) {
  const Plane* worst = nullptr;
  for (const Plane& p : fixed)
    if (p.b < -1e-9 && (worst == nullptr || p.b < worst->b)) worst = &p;
  return worst;
}

CutOptimum contradicted(const LogProblem& p, const Plane& worst) {
  CutOptimum out;
  for (std::size_t i = 0; i < p.limits.size(); ++i) {
    if (worst.from[i] <= 1e-12) continue;
    out.contradict.push_back(p.limits[i]);
    out.give_way.push_back(std::exp(-worst.b / worst.from[i]));
  }
  return out;
}

}  // namespace

double CutTerm::at(double v, double f, double d) const {
  return factor * std::pow(v, speed) * std::pow(f, feed) * std::pow(d, depth);
}
CutTerm operator*(const CutTerm& a, const CutTerm& b) {
  return {a.factor * b.factor, a.speed + b.speed, a.feed + b.feed, a.depth + b.depth};
}
CutTerm power(const CutTerm& a, double exponent) {
  return {std::pow(a.factor, exponent), a.speed * exponent, a.feed * exponent, a.depth * exponent};
}

CutOptimum least_cost(const CutProblem& problem) {
  CutOptimum out;
  out.contradict = not_above_zero(problem);
  out.give_way.assign(out.contradict.size(), inf);
  if (!out.contradict.empty() || problem.limits.size() > most_planes - 6) return out;
  const LogProblem p = in_logarithms(problem);
  if (p.cost.empty()) return out;
  const Levels levels = levels_of(p);
  if (const Plane* worst = contradiction(levels[3])) return contradicted(p, *worst);
  Logs x{};
  best_over(p, levels, 2, x);
  out.found = true;
  out.speed = std::exp(x[0]);
  out.feed = std::exp(x[1]);
  out.depth = std::exp(x[2]);
  out.cost = cost_at(p, x);
  prove(p, x, out);
  return out;
}

}  // namespace turnwright
