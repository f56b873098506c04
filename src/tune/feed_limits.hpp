// SPDX-License-Identifier: MIT
#pragma once
// The feeds that a pass's limits leave, with its life in the place of its speed.
#include <limits>
#include <vector>

#include "turnwright/tune/multi_pass.hpp"

namespace turnwright {

/// A stretch of ln of the life and of the depth.
struct LifeAndDepth {
  double t_low = 0, t_high = 0, d_low = 0, d_high = 0;
};

/// Largest and least feed that a pass's limits let it have, by ln T and ln d.
class FeedLimits {
 public:
  FeedLimits(const PassModel& pass, const ToolLife& life);
  /// The largest over a stretch: each limit is loosest at one of its corners.
  double most(const LifeAndDepth& at) const;
  double least(const LifeAndDepth& at) const;
  /// The limit that is tightest at a depth, as ln f <= k - d ln d, k at the loosest life.
  struct Tightest {
    double k = std::numeric_limits<double>::infinity(), d = 0;
  };
  Tightest tightest(double t_low, double t_high, double d) const;
  /// Whether the limits hold that the feed does not enter.
  bool possible(const LifeAndDepth& at) const;

 private:
  // ln k + t ln T + f ln f + d ln d <= 0.
  struct LogLimit {
    double k = 0, t = 0, f = 0, d = 0;
  };
  static double loosest(const LogLimit& l, const LifeAndDepth& at);
  std::vector<LogLimit> limits_;
};

}  // namespace turnwright
