// SPDX-License-Identifier: MIT
#pragma once
// The best speed, feed and depth of one cut, with a proof. Cost and limits are products of powers
// of v, f and d; in their logarithms the limits are planes and the cost is convex (geometric
// programming: R. J. Duffin, E. L. Peterson, C. Zener, 1967; for turning D. S. Ermer, J. Eng. Ind.
// 93, 1971), so a point whose gradient the limits hold up is the best there is.
//   const CutOptimum best = least_cost(problem);
#include <array>
#include <vector>

#include "turnwright/tune/limit.hpp"

namespace turnwright {

/// factor * v^speed * f^feed * d^depth, in whatever units the problem is written in.
struct CutTerm {
  double factor = 1, speed = 0, feed = 0, depth = 0;
  double at(double v, double f, double d) const;
};
CutTerm operator*(const CutTerm& a, const CutTerm& b);
/// The term to a power.
CutTerm power(const CutTerm& a, double exponent);

/// `of` is at most `at_most`.
struct CutLimit {
  LimitId limit = LimitId::power;
  CutTerm of;
  double at_most = 1;
};
struct CutRange {
  double low = 0, high = 0;  // 0 < low <= high
};
struct CutProblem {
  std::vector<CutTerm> cost;     // their sum is made small; a term that is not above 0 is left out
  std::vector<CutLimit> limits;  // at most 18
  CutRange speed, feed, depth;
  LimitId most_feed = LimitId::tool_feed;  // what the upper end of the feed's range rests on
};

struct CutOptimum {
  bool found = false;
  double speed = 0, feed = 0, depth = 0;
  double cost = 0;
  double at_least = 0;           // no feasible point costs less
  std::vector<LimitId> binding;  // limits met with equality
  /// By binding limit: what the cost falls by, as a share, for a share that the limit gives way
  /// (the multiplier; exact at the point).
  std::vector<double> worth;
  /// Where nothing is feasible: limits that contradict each other, and by what factor each alone
  /// would have to give way at least; infinite for a limit or a range that is not above 0.
  std::vector<LimitId> contradict;
  std::vector<double> give_way;

  /// (cost - at_least) / cost.
  double gap() const { return cost > 0 ? (cost - at_least) / cost : 0; }
  bool proved() const { return found && gap() <= 1e-6; }
};

/// The optimum, or one that is not found with the limits that contradict each other.
CutOptimum least_cost(const CutProblem& problem);

}  // namespace turnwright
