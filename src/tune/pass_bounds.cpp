// SPDX-License-Identifier: MIT
#include "pass_bounds.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "weighted_lives.hpp"

namespace turnwright {
namespace {
constexpr double inf = std::numeric_limits<double>::infinity();
}

PassBounds::PassBounds(const MultiPassProblem& p, int n)
    : p_(p), n_(n), rough_(p.rough, p.life), finish_(p.finish, p.life) {
  path_ = std::numbers::pi * p.diameter * p.length / 1000;
  log_c_ = std::log(p.life.constant);
}

bool PassBounds::whole(Box& b) const {
  // d_s within its range, d_r = (stock - d_s) / n within its own, d_r >= ratio d_s.
  b.ds_low = std::max(p_.finish.depth.low, p_.stock - n_ * p_.rough.depth.high);
  b.ds_high = std::min({p_.finish.depth.high, p_.stock - n_ * p_.rough.depth.low,
                        p_.stock / (1 + n_ * p_.depth_ratio)});
  // Where only one depth is left, rounding may cross the two.
  if (b.ds_low > b.ds_high && b.ds_low - b.ds_high < 1e-9) b.ds_low = b.ds_high;
  b.tr_low = std::log(p_.rough.life.low);
  b.tr_high = std::log(p_.rough.life.high);
  b.ts_low = std::log(p_.finish.life.low);
  b.ts_high = std::log(p_.finish.life.high);
  return b.ds_low <= b.ds_high;
}

LifeAndDepth PassBounds::rough_of(const Box& b) const {
  return {b.tr_low, b.tr_high, std::log(rough_depth(b.ds_high)), std::log(rough_depth(b.ds_low))};
}
LifeAndDepth PassBounds::finish_of(const Box& b) {
  return {b.ts_low, b.ts_high, std::log(b.ds_low), std::log(b.ds_high)};
}

double PassBounds::bound(const Box& b) const {
  const LifeAndDepth rough = rough_of(b), finish = finish_of(b);
  Feeds feed;
  if (!feeds(b, rough, finish, feed)) return inf;
  // Minutes of a cut: path n / (v f), v by its life.
  const Powers w = powers();
  const double a = std::log(path_ * n_) - log_c_ / p_.life.p + w.d * rough.d_low + w.f * feed.rough;
  const double c = std::log(path_) - log_c_ / p_.life.p + w.d * finish.d_low + w.f * feed.finish;
  const double A = std::exp(a), B = std::exp(c);
  const LifeFactors by = life_factors(b, rough, finish, A, B);
  const double minutes = std::max(by.rough * A + by.finish * B, curved(b, by));
  return p_.minute * (p_.fixed + p_.each_pass * (n_ + 1) + minutes);
}

// Minutes are no less than the factors times A and B, whatever A and B are within what the depths
// let them be.
PassBounds::LifeFactors PassBounds::life_factors(const Box& b, const LifeAndDepth& rough,
                                                 const LifeAndDepth& finish, double A,
                                                 double B) const {
  const Powers w = powers();
  const double k = p_.change_edge + p_.edge / p_.minute;
  if (!p_.life_weight)
    return {least_alone(w.t, k, b.tr_low, b.tr_high), least_alone(w.t, k, b.ts_low, b.ts_high)};
  const double a_most =
      A * std::exp(w.d * (rough.d_high - rough.d_low)) * most_over_least(rough_, rough);
  const double b_most =
      B * std::exp(w.d * (finish.d_high - finish.d_low)) * finish_most_over_least(b);
  const LeastFactors least = least_weighted({A, a_most, B, b_most, w.t, k, *p_.life_weight}, b);
  return {least.rough, least.finish};
}

double PassBounds::at(double tr, double ts, double ds, CutPoint& r, CutPoint& s) const {
  const double dr = rough_depth(ds);
  if (dr <= 0) return inf;
  Feeds feed;
  const Box b{tr, tr, ts, ts, ds, ds};
  if (!feeds(b, rough_of(b), finish_of(b), feed)) return inf;
  r = point(tr, feed.rough, dr);
  s = point(ts, feed.finish, ds);
  return cost_of(p_, n_, r, s);
}

CutPoint PassBounds::point(double t, double f, double d) const {
  CutPoint c;
  c.feed = std::exp(f);
  c.depth = d;
  c.life = std::exp(t);
  c.speed = std::exp((log_c_ - t - p_.life.q * f - p_.life.r * std::log(d)) / p_.life.p);
  return c;
}

// ln of the largest feeds over the box; false when there is none.
bool PassBounds::feeds(const Box& b, const LifeAndDepth& rough, const LifeAndDepth& finish,
                       Feeds& f) const {
  constexpr double slack = 1e-12;
  if (!rough_.possible(rough) || !finish_.possible(finish)) return false;
  f.rough = rough_.most(rough);
  if (f.rough < rough_.least(rough) - slack) return false;
  // f_r >= ratio f_s; v_s >= ratio v_r in lives: f_s^q <= T_r f_r^q d_r^r / (ratio^p T_s d_s^r).
  f.finish = std::min(finish_.most(finish), f.rough - std::log(p_.feed_ratio));
  if (p_.life.q > 0)
    f.finish = std::min(
        f.finish, f.rough + (b.tr_high - b.ts_low + p_.life.r * (rough.d_high - finish.d_low) -
                             p_.life.p * std::log(p_.speed_ratio)) /
                                p_.life.q);
  return f.finish >= finish_.least(finish) - slack;
}

// By what factor a cut's minutes may grow within the box, its feed at its smallest largest.
double PassBounds::most_over_least(const FeedLimits& limits, const LifeAndDepth& at) const {
  const double most = limits.most(at);
  double least = most;
  for (const double t : {at.t_low, at.t_high})
    for (const double d : {at.d_low, at.d_high}) least = std::min(least, limits.most({t, t, d, d}));
  return std::exp(powers().f * (least - most));
}
// The finish may hang on the roughing feed and speed.
double PassBounds::finish_most_over_least(const Box& b) const {
  const LifeAndDepth finish = finish_of(b);
  const double factor = most_over_least(rough_, rough_of(b));
  return most_over_least(finish_, finish) * factor *
         std::exp(-powers().f *
                  (b.tr_high - b.tr_low + b.ts_high - b.ts_low +
                   p_.life.r * (finish.d_high - finish.d_low +
                                std::log(rough_depth(b.ds_low) / rough_depth(b.ds_high)))) /
                  std::max(p_.life.q, 1e-9));
}

double PassBounds::Product::at(double s, double r) const {
  return c * std::pow(s, a) * std::pow(r, b);
}

PassBounds::Product PassBounds::rough_product(double wr, const FeedLimits::Tightest& r) const {
  const Powers w = powers();
  const double base = std::log(path_) - log_c_ / p_.life.p;
  return {wr * n_ * std::exp(base + w.f * r.k), 0, w.d - w.f * r.d};
}

// f_s by its own limits, by f_r, by v_r.
PassBounds::Product PassBounds::finish_product(const Box& box, double ws,
                                               const FeedLimits::Tightest& r) const {
  const double m = (box.ds_low + box.ds_high) / 2;
  const Powers w = powers();
  const double lr = std::log(rough_depth(m)), ls = std::log(m);
  const double base = std::log(path_) - log_c_ / p_.life.p;
  const auto s = finish_.tightest(box.ts_low, box.ts_high, ls);
  double least = s.k - s.d * ls;
  Product part{ws * std::exp(base + w.f * s.k), w.d - w.f * s.d, 0};
  const double by_feed = r.k - std::log(p_.feed_ratio);
  if (by_feed - r.d * lr < least) {
    least = by_feed - r.d * lr;
    part = {ws * std::exp(base + w.f * by_feed), w.d, -w.f * r.d};
  }
  if (p_.life.q <= 0) return part;
  const double q = p_.life.q;
  const double by_speed =
      r.k + (box.tr_high - box.ts_low - p_.life.p * std::log(p_.speed_ratio)) / q;
  const double in_r = r.d - p_.life.r / q, in_s = p_.life.r / q;
  if (by_speed - in_r * lr - in_s * ls < least)
    part = {ws * std::exp(base + w.f * by_speed), w.d - w.f * in_s, -w.f * in_r};
  return part;
}

// The least second derivative of a product over the box.
double PassBounds::curvature(const Box& box, const Product& g) const {
  const double s0 = box.ds_low, s1 = box.ds_high, r0 = rough_depth(s1), r1 = rough_depth(s0);
  // g'' / g = (a/s - b/(n r))^2 - a/s^2 - b/(n r)^2, from below.
  const double u = g.a / (g.a > 0 ? s1 : s0) - g.b / (n_ * (g.b > 0 ? r0 : r1));
  const double v = g.a / (g.a > 0 ? s0 : s1) - g.b / (n_ * (g.b > 0 ? r1 : r0));
  const double square = u > 0 ? u * u : v < 0 ? v * v : 0;
  const double s_at = g.a > 0 ? s0 : s1, r_at = g.b > 0 ? r0 : r1;
  const double bracket = square - g.a / (s_at * s_at) - g.b / (n_ * r_at * n_ * r_at);
  const double large = g.at(g.a > 0 ? s1 : s0, g.b > 0 ? r1 : r0);
  const double small = g.at(g.a > 0 ? s0 : s1, g.b > 0 ? r0 : r1);
  return bracket * (bracket < 0 ? large : small);
}

// Each cut's minutes are the greatest of products of the depths, one a limit of the feed; below
// their sum for the limits that are tightest in the middle lies a parabola with the least curvature
// that the box has. It is off by the square of the box's width, where corners are off by the width.
double PassBounds::curved(const Box& box, const LifeFactors& by) const {
  const double m = (box.ds_low + box.ds_high) / 2, half = (box.ds_high - box.ds_low) / 2;
  if (half <= 0) return 0;
  const auto r = rough_.tightest(box.tr_low, box.tr_high, std::log(rough_depth(m)));
  const Product parts[2] = {rough_product(by.rough, r), finish_product(box, by.finish, r)};
  double value = 0, slope = 0, curve = 0;
  for (const Product& g : parts) {
    const double rm = rough_depth(m), here = g.at(m, rm);
    value += here;
    slope += here * (g.a / m - g.b / (n_ * rm));
    curve += curvature(box, g);
  }
  auto at = [&](double x) { return value + slope * x + curve * x * x / 2; };
  double lowest = std::min(at(-half), at(half));
  if (curve > 0 && std::abs(slope / curve) < half) lowest = std::min(lowest, at(-slope / curve));
  return lowest;
}

}  // namespace turnwright
