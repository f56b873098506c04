// SPDX-License-Identifier: MIT
// ln cost is convex: cost(y) >= cost(x) exp(g . (y - x)) with its gradient g. Where g is held up by
// limits that are met, with multipliers of the right sign, g . (y - x) is not below what they
// leave; the rest of g counts over the whole range.
#include <algorithm>
#include <cmath>
#include <optional>

#include "log_problem.hpp"

namespace turnwright {
namespace {

constexpr double least_worth = 1e-9;  // of the cost, for a share; less is rounding

Logs gradient(const LogProblem& p, const Logs& x, double cost) {
  Logs g{};
  for (const LogTerm& t : p.cost) {
    const double value = term_at(t, x);
    for (std::size_t i = 0; i < 3; ++i) g[i] += t.power[i] * value / cost;
  }
  return g;
}

// Planes that are met at a point, and how nearly.
struct Met {
  std::size_t plane = 0;
  double slack = 0;
};
std::vector<Met> met_at(const LogProblem& p, const Logs& x) {
  std::vector<Met> met;
  for (std::size_t i = 0; i < p.planes.size(); ++i) {
    const Plane& plane = p.planes[i];
    const double left = plane.b - plane.a[0] * x[0] - plane.a[1] * x[1] - plane.a[2] * x[2];
    if (left <= 1e-7) met.push_back({i, std::max(left, 0.0)});
  }
  return met;
}

// What a gradient can lose over the ranges.
double loss(const LogProblem& p, const Logs& g, const Logs& x) {
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i)
    sum += std::max({g[i] * (x[i] - std::log(p.ranges[i].low)),
                     g[i] * (x[i] - std::log(p.ranges[i].high)), 0.0});
  return sum;
}

using Equations = std::array<std::array<double, 4>, 3>;

// Gauss-Jordan with pivots; false when the planes hang together.
bool eliminated(Equations& m, std::size_t n) {
  for (std::size_t i = 0; i < n; ++i) {
    std::size_t pivot = i;
    for (std::size_t r = i + 1; r < n; ++r)
      if (std::abs(m[r][i]) > std::abs(m[pivot][i])) pivot = r;
    if (std::abs(m[pivot][i]) < 1e-12) return false;
    std::swap(m[i], m[pivot]);
    for (std::size_t r = 0; r < n; ++r) {
      if (r == i) continue;
      const double w = m[r][i] / m[i][i];
      for (std::size_t c = i; c < 4; ++c) m[r][c] -= w * m[i][c];
    }
  }
  return true;
}

double dot(const Logs& a, const Logs& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

// Multipliers >= 0 of the planes with g + sum m a = 0 as nearly as can be (normal equations).
std::optional<std::vector<double>> held_up(const Logs& g, const std::vector<const Plane*>& set) {
  const std::size_t n = set.size();
  Equations m{};
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) m[i][j] = dot(set[i]->a, set[j]->a);
    m[i][3] = -dot(set[i]->a, g);
  }
  if (!eliminated(m, n)) return std::nullopt;
  std::vector<double> found;
  found.reserve(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double value = m[i][3] / m[i][i];
    if (value < 0) return std::nullopt;
    found.push_back(value);
  }
  return found;
}

// The set of up to three planes that holds the gradient up best.
class Support {
 public:
  Support(const LogProblem& p, const Logs& x, const Logs& g)
      : p_(p), x_(x), g_(g), met_(met_at(p, x)), lost_(loss(p, g, x)), rest_(g) {}

  void try_all() {
    const std::size_t n = met_.size();
    for (std::size_t i = 0; i < n; ++i) {
      try_set({i});
      for (std::size_t j = i + 1; j < n; ++j) {
        try_set({i, j});
        for (std::size_t k = j + 1; k < n; ++k) try_set({i, j, k});
      }
    }
  }
  double lost() const { return lost_; }
  void report(CutOptimum& out) const {
    for (std::size_t i = 0; i < held_.size(); ++i) {
      const std::size_t plane = met_[held_[i]].plane;
      // A variable that is given is no limit.
      const std::size_t range = plane / 2;
      if (range < 3 && p_.ranges[range].low == p_.ranges[range].high) continue;
      out.binding.push_back(p_.limits[plane]);
      out.worth.push_back(worth_[i]);
    }
    report_ends(out);
  }

 private:
  // An end of a range holds up what the other limits leave of the gradient, and needs no proof.
  void report_ends(CutOptimum& out) const {
    for (std::size_t m = 0; m < met_.size(); ++m) {
      const std::size_t plane = met_[m].plane, range = plane / 2;
      const bool held = std::find(held_.begin(), held_.end(), m) != held_.end();
      if (held || range >= 3 || p_.ranges[range].low == p_.ranges[range].high) continue;
      const double worth = -rest_[range] * p_.planes[plane].a[range];
      if (worth < least_worth) continue;
      out.binding.push_back(p_.limits[plane]);
      out.worth.push_back(worth);
    }
  }
  void try_set(const std::vector<std::size_t>& set) {
    std::vector<const Plane*> planes;
    for (const std::size_t i : set) planes.push_back(&p_.planes[met_[i].plane]);
    const auto multipliers = held_up(g_, planes);
    if (!multipliers) return;
    Logs rest = g_;
    double loose = 0;
    for (std::size_t i = 0; i < set.size(); ++i) {
      for (std::size_t k = 0; k < 3; ++k) rest[k] += (*multipliers)[i] * planes[i]->a[k];
      loose += (*multipliers)[i] * met_[set[i]].slack;
    }
    const double lost = loss(p_, rest, x_) + loose;
    if (lost >= lost_ - 1e-16) return;
    lost_ = lost;
    rest_ = rest;
    held_ = set;
    worth_ = *multipliers;
  }

  const LogProblem& p_;
  const Logs &x_, &g_;
  std::vector<Met> met_;
  double lost_;
  Logs rest_;  // of the gradient, that no held plane takes
  std::vector<std::size_t> held_;
  std::vector<double> worth_;
};

}  // namespace

void prove(const LogProblem& problem, const Logs& x, CutOptimum& out) {
  const Logs g = gradient(problem, x, out.cost);
  Support support(problem, x, g);
  support.try_all();
  out.at_least = out.cost * std::exp(-support.lost());
  support.report(out);
}

}  // namespace turnwright
