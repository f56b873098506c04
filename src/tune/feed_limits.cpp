// SPDX-License-Identifier: MIT
#include "feed_limits.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {
constexpr double inf = std::numeric_limits<double>::infinity();
}

FeedLimits::FeedLimits(const PassModel& pass, const ToolLife& life) {
  auto add = [&](const CutTerm& of, double at_most) {
    // v = (C / (T f^q d^r))^(1/p).
    const double by = of.speed / life.p;
    LogLimit l;
    l.k = std::log(of.factor / at_most) + by * std::log(life.constant);
    l.t = -by;
    l.f = of.feed - by * life.q;
    l.d = of.depth - by * life.r;
    limits_.push_back(l);
  };
  add({1, 1, 0, 0}, pass.speed.high);
  add({1, -1, 0, 0}, 1 / pass.speed.low);
  add({1, 0, 1, 0}, pass.feed.high);
  add({1, 0, -1, 0}, 1 / pass.feed.low);
  for (const CutLimit& limit : pass.limits) add(limit.of, limit.at_most);
}

double FeedLimits::loosest(const LogLimit& l, const LifeAndDepth& at) {
  return -l.k - l.t * (l.t > 0 ? at.t_low : at.t_high) - l.d * (l.d > 0 ? at.d_low : at.d_high);
}

double FeedLimits::most(const LifeAndDepth& at) const {
  double least = inf;
  for (const LogLimit& l : limits_)
    if (l.f > 1e-12) least = std::min(least, loosest(l, at) / l.f);
  return least;
}

double FeedLimits::least(const LifeAndDepth& at) const {
  double most = -inf;
  for (const LogLimit& l : limits_)
    if (l.f < -1e-12) most = std::max(most, loosest(l, at) / l.f);
  return most;
}

FeedLimits::Tightest FeedLimits::tightest(double t_low, double t_high, double d) const {
  Tightest best;
  double least = inf;
  for (const LogLimit& l : limits_) {
    if (l.f <= 1e-12) continue;
    const double k = (-l.k - l.t * (l.t > 0 ? t_low : t_high)) / l.f;
    const double at = k - l.d / l.f * d;
    if (at >= least) continue;
    least = at;
    best = {k, l.d / l.f};
  }
  return best;
}

bool FeedLimits::possible(const LifeAndDepth& at) const {
  return std::all_of(limits_.begin(), limits_.end(), [&](const LogLimit& l) {
    return std::abs(l.f) > 1e-12 || loosest(l, at) >= -1e-12;
  });
}

}  // namespace turnwright
