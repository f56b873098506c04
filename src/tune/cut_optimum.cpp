// SPDX-License-Identifier: MIT
#include "turnwright/tune/cut_optimum.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <stdexcept>

namespace turnwright {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr int most_limits = 24;

// a . x <= b, where x = ln v, ln f, ln d; `from`: how much of each limit it was added up from.
struct Plane {
  std::array<double, 3> a{};
  double b = 0;
  std::array<double, most_limits> from{};
};

// Planes without variable k: each pair of a lower and an upper one (Fourier 1826, Motzkin 1936).
std::vector<Plane> without_variable(const std::vector<Plane>& planes, std::size_t k) {
  std::vector<Plane> out, up, down;
  for (const Plane& p : planes) (p.a[k] > 1e-12 ? up : p.a[k] < -1e-12 ? down : out).push_back(p);
  for (const Plane& u : up)
    for (const Plane& l : down) {
      const double wu = 1 / u.a[k], wl = -1 / l.a[k];
      Plane sum;
      for (std::size_t i = 0; i < 3; ++i) sum.a[i] = wu * u.a[i] + wl * l.a[i];
      sum.a[k] = 0;
      sum.b = wu * u.b + wl * l.b;
      for (std::size_t i = 0; i < sum.from.size(); ++i)
        sum.from[i] = wu * u.from[i] + wl * l.from[i];
      out.push_back(sum);
    }
  return out;
}

struct Span1 {
  double low = -inf, high = inf;
};
// What the planes leave of variable k when the later ones are given.
Span1 span_of(const std::vector<Plane>& planes, std::size_t k, const std::array<double, 3>& x) {
  Span1 s;
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

class Search {
 public:
  explicit Search(const CutProblem& problem) : p_(problem) {
    auto range = [&](std::size_t k, const CutRange& r, const char* name) {
      if (!(r.low > 0 && r.low <= r.high))
        throw std::invalid_argument(std::string("the range of ") + name + " is none above 0");
      Plane low, high;
      low.a[k] = -1;
      low.b = -std::log(r.low);
      high.a[k] = 1;
      high.b = std::log(r.high);
      add(low, std::string("least ") + name);
      add(high, std::string("most ") + name);
    };
    range(0, problem.speed, "surface speed");
    range(1, problem.feed, "feed");
    range(2, problem.depth, "depth");
    for (const CutLimit& limit : problem.limits) {
      if (!(limit.of.factor > 0 && limit.at_most > 0))
        throw std::invalid_argument("the limit '" + limit.name + "' is not above 0");
      Plane p;
      p.a = {limit.of.speed, limit.of.feed, limit.of.depth};
      p.b = std::log(limit.at_most / limit.of.factor);
      add(p, limit.name);
    }
    for (const CutTerm& term : problem.cost) {
      if (!(term.factor > 0)) throw std::invalid_argument("a term of the cost is not above 0");
      terms_.push_back({std::log(term.factor), {term.speed, term.feed, term.depth}});
    }
    levels_[0] = planes_;
    levels_[1] = without_variable(levels_[0], 0);
    levels_[2] = without_variable(levels_[1], 1);
    fixed_ = without_variable(levels_[2], 2);
  }

  CutOptimum work_out() {
    CutOptimum out;
    const Plane* worst = nullptr;
    for (const Plane& p : fixed_)
      if (p.b < -1e-9 && (worst == nullptr || p.b < worst->b)) worst = &p;
    if (worst != nullptr) {
      for (std::size_t i = 0; i < names_.size(); ++i) {
        if (worst->from[i] <= 1e-12) continue;
        out.contradict.push_back(names_[i]);
        out.give_way.push_back(std::exp(-worst->b / worst->from[i]));
      }
      return out;
    }
    std::array<double, 3> x{};
    best_over(2, x);
    out.found = true;
    out.speed = std::exp(x[0]);
    out.feed = std::exp(x[1]);
    out.depth = std::exp(x[2]);
    out.cost = cost(x);
    prove(x, out);
    return out;
  }

 private:
  struct Term {
    double log_factor;
    std::array<double, 3> power;
  };
  void add(Plane p, std::string name) {
    if (names_.size() == most_limits) throw std::invalid_argument("too many limits");
    p.from[names_.size()] = 1;
    names_.push_back(std::move(name));
    planes_.push_back(p);
  }
  double cost(const std::array<double, 3>& x) const {
    double sum = 0;
    for (const Term& t : terms_)
      sum += std::exp(t.log_factor + t.power[0] * x[0] + t.power[1] * x[1] + t.power[2] * x[2]);
    return sum;
  }
  // The best of the first k + 1 variables, the later ones given; fills x.
  double best_over(std::size_t k, std::array<double, 3>& x) const {
    const Span1 s = span_of(levels_[k], k, x);
    if (k == 0) return best_speed(s, x);
    auto at = [&](double y) {
      x[k] = y;
      return best_over(k - 1, x);
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
    // Golden section.
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
    // The ends themselves: a limit is met there and not nearly.
    double best = inf, best_y = (a + b) / 2;
    for (const double y : {s.low, (a + b) / 2, s.high})
      if (const double found = at(y); found < best - 1e-15 * std::abs(best))
        best = found, best_y = y;
    return at(best_y);
  }
  // Newton within the span, halving where it leaves it.
  double best_speed(Span1 s, std::array<double, 3>& x) const {
    double low = s.low, high = s.high;
    std::array<double, 8> c{};
    const std::size_t n = std::min(terms_.size(), c.size());
    for (std::size_t i = 0; i < n; ++i)
      c[i] = std::exp(terms_[i].log_factor + terms_[i].power[1] * x[1] + terms_[i].power[2] * x[2]);
    auto slope = [&](double y, double& curve) {
      double first = 0;
      curve = 0;
      for (std::size_t i = 0; i < n; ++i) {
        const double a = terms_[i].power[0], value = a * c[i] * std::exp(a * y);
        first += value;
        curve += a * value;
      }
      return first;
    };
    double curve = 0;
    double y = low;
    if (slope(low, curve) >= 0)
      y = low;
    else if (slope(high, curve) <= 0)
      y = high;
    else {
      y = (low + high) / 2;
      for (int i = 0; i < 100; ++i) {
        const double g = slope(y, curve);
        (g > 0 ? high : low) = y;
        double next = curve > 0 ? y - g / curve : (low + high) / 2;
        if (!(next > low && next < high)) next = (low + high) / 2;
        const double step = std::abs(next - y);
        y = next;
        if (step < 1e-14 * std::max(1.0, std::abs(y))) break;
      }
    }
    x[0] = y;
    return cost(x);
  }
  // ln cost is convex: cost(y) >= cost(x) exp(g . (y - x)) with its gradient g. Where g is held up
  // by limits that are met, with multipliers of the right sign, g . (y - x) is not below what they
  // leave; the rest of g counts over the whole range.
  void prove(const std::array<double, 3>& x, CutOptimum& out) const {
    std::array<double, 3> g{};
    for (const Term& t : terms_) {
      const double value =
          std::exp(t.log_factor + t.power[0] * x[0] + t.power[1] * x[1] + t.power[2] * x[2]);
      for (std::size_t i = 0; i < 3; ++i) g[i] += t.power[i] * value / out.cost;
    }
    std::vector<std::size_t> active;
    std::vector<double> slack;
    for (std::size_t i = 0; i < planes_.size(); ++i) {
      const Plane& p = planes_[i];
      const double left = p.b - p.a[0] * x[0] - p.a[1] * x[1] - p.a[2] * x[2];
      if (left > 1e-7) continue;
      active.push_back(i);
      slack.push_back(std::max(left, 0.0));
    }
    double best = loss(g, x);
    std::vector<std::size_t> held;
    std::vector<double> worth;
    auto tried = [&](const std::vector<std::size_t>& set) {
      const auto multipliers = held_up(g, set, active);
      if (!multipliers) return;
      std::array<double, 3> rest = g;
      double loose = 0;
      for (std::size_t i = 0; i < set.size(); ++i) {
        for (std::size_t k = 0; k < 3; ++k)
          rest[k] += (*multipliers)[i] * planes_[active[set[i]]].a[k];
        loose += (*multipliers)[i] * slack[set[i]];
      }
      const double lost = loss(rest, x) + loose;
      if (lost >= best - 1e-16) return;
      best = lost;
      held = set;
      worth = *multipliers;
    };
    const std::size_t n = active.size();
    for (std::size_t i = 0; i < n; ++i) {
      tried({i});
      for (std::size_t j = i + 1; j < n; ++j) {
        tried({i, j});
        for (std::size_t k = j + 1; k < n; ++k) tried({i, j, k});
      }
    }
    out.at_least = out.cost * std::exp(-best);
    const CutRange ranges[] = {p_.speed, p_.feed, p_.depth};
    for (std::size_t i = 0; i < held.size(); ++i) {
      const std::size_t k = held[i];
      // A variable that is given is no limit.
      const std::size_t range = active[k] / 2;
      if (range < 3 && ranges[range].low == ranges[range].high) continue;
      out.binding.push_back(names_[active[k]]);
      out.worth.push_back(worth[i]);
    }
  }
  // What a gradient can lose over the ranges.
  double loss(const std::array<double, 3>& g, const std::array<double, 3>& x) const {
    const CutRange ranges[] = {p_.speed, p_.feed, p_.depth};
    double sum = 0;
    for (std::size_t i = 0; i < 3; ++i)
      sum += std::max(
          {g[i] * (x[i] - std::log(ranges[i].low)), g[i] * (x[i] - std::log(ranges[i].high)), 0.0});
    return sum;
  }
  // Multipliers >= 0 of the planes with g + sum m a = 0 as nearly as can be (normal equations).
  std::optional<std::vector<double>> held_up(const std::array<double, 3>& g,
                                             const std::vector<std::size_t>& set,
                                             const std::vector<std::size_t>& active) const {
    const std::size_t n = set.size();
    std::array<std::array<double, 4>, 3> m{};
    for (std::size_t i = 0; i < n; ++i) {
      const auto& a = planes_[active[set[i]]].a;
      for (std::size_t j = 0; j < n; ++j) {
        const auto& b = planes_[active[set[j]]].a;
        m[i][j] = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
      }
      m[i][3] = -(a[0] * g[0] + a[1] * g[1] + a[2] * g[2]);
    }
    for (std::size_t i = 0; i < n; ++i) {
      std::size_t pivot = i;
      for (std::size_t r = i + 1; r < n; ++r)
        if (std::abs(m[r][i]) > std::abs(m[pivot][i])) pivot = r;
      if (std::abs(m[pivot][i]) < 1e-12) return std::nullopt;
      std::swap(m[i], m[pivot]);
      for (std::size_t r = 0; r < n; ++r) {
        if (r == i) continue;
        const double w = m[r][i] / m[i][i];
        for (std::size_t c = i; c < 4; ++c) m[r][c] -= w * m[i][c];
      }
    }
    std::vector<double> found;
    found.reserve(n);
    for (std::size_t i = 0; i < n; ++i) {
      const double value = m[i][3] / m[i][i];
      if (value < 0) return std::nullopt;
      found.push_back(value);
    }
    return found;
  }

  const CutProblem& p_;
  std::vector<Plane> planes_, fixed_;
  std::array<std::vector<Plane>, 3> levels_;
  std::vector<std::string> names_;
  std::vector<Term> terms_;
};

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

CutOptimum least_cost(const CutProblem& problem) { return Search(problem).work_out(); }

}  // namespace turnwright
