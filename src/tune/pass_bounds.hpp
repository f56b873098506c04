// SPDX-License-Identifier: MIT
#pragma once
// What a number of roughing passes and a finish cost at best within a box of lives and depths.
#include "feed_limits.hpp"

namespace turnwright {

/// ln of both lives (r: roughing, s: finishing), the finishing depth in mm.
struct Box {
  double tr_low, tr_high, ts_low, ts_high, ds_low, ds_high;
  double bound = 0;
  bool operator<(const Box& other) const { return bound > other.bound; }  // least bound first
};

class PassBounds {
 public:
  PassBounds(const MultiPassProblem& p, int n);
  /// The whole of what the passes can be; false when the depths do not fit.
  bool whole(Box& b) const;
  /// Below every point of the box; infinite where it holds none.
  double bound(const Box& b) const;
  /// The cost at the best feeds of a point, with both cuts; infinite where it is not feasible.
  double at(double tr, double ts, double ds, CutPoint& r, CutPoint& s) const;

 private:
  // Powers of life, feed and depth in the minutes of a cut.
  struct Powers {
    double t, f, d;
  };
  Powers powers() const {
    return {1 / p_.life.p, p_.life.q / p_.life.p - 1, p_.life.r / p_.life.p};
  }
  struct Feeds {
    double rough = 0, finish = 0;  // ln
  };
  // c ds^a dr^b, dr = (stock - ds) / n.
  struct Product {
    double c = 0, a = 0, b = 0;
    double at(double s, double r) const;
  };
  // Least minutes of both cuts for a minute at life 1.
  struct LifeFactors {
    double rough = 0, finish = 0;
  };
  double rough_depth(double ds) const { return (p_.stock - ds) / n_; }
  LifeAndDepth rough_of(const Box& b) const;
  static LifeAndDepth finish_of(const Box& b);
  CutPoint point(double t, double f, double d) const;
  bool feeds(const Box& b, const LifeAndDepth& rough, const LifeAndDepth& finish, Feeds& f) const;
  LifeFactors life_factors(const Box& b, const LifeAndDepth& rough, const LifeAndDepth& finish,
                           double A, double B) const;
  double most_over_least(const FeedLimits& limits, const LifeAndDepth& at) const;
  double finish_most_over_least(const Box& b) const;
  Product rough_product(double wr, const FeedLimits::Tightest& r) const;
  Product finish_product(const Box& box, double ws, const FeedLimits::Tightest& r) const;
  double curved(const Box& box, const LifeFactors& by) const;
  double curvature(const Box& box, const Product& g) const;

  const MultiPassProblem& p_;
  int n_;
  FeedLimits rough_, finish_;
  double path_ = 0, log_c_ = 0;
};

}  // namespace turnwright
