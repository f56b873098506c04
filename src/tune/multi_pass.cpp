// SPDX-License-Identifier: MIT
#include "turnwright/tune/multi_pass.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <queue>

namespace turnwright {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

// With the life T in the place of v, a limit is ln k + t ln T + f ln f + d ln d <= 0.
struct LogLimit {
  double k = 0, t = 0, f = 0, d = 0;
};

// Largest and least feed that a pass's limits let it have, by ln T and ln d.
class FeedLimits {
 public:
  FeedLimits(const PassModel& pass, const ToolLife& life) {
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
  // The largest over a box: each limit is loosest at one of its corners.
  double most(double t_low, double t_high, double d_low, double d_high) const {
    double least = inf;
    for (const LogLimit& l : limits_)
      if (l.f > 1e-12) least = std::min(least, loosest(l, t_low, t_high, d_low, d_high) / l.f);
    return least;
  }
  double least(double t_low, double t_high, double d_low, double d_high) const {
    double most = -inf;
    for (const LogLimit& l : limits_)
      if (l.f < -1e-12) most = std::max(most, loosest(l, t_low, t_high, d_low, d_high) / l.f);
    return most;
  }
  // The limit that is tightest at a point, as ln f <= k - d ln d, k at the loosest life of the box.
  struct Tightest {
    double k = inf, d = 0;
  };
  Tightest tightest(double t_low, double t_high, double d) const {
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
  // Limits that the feed does not enter.
  bool possible(double t_low, double t_high, double d_low, double d_high) const {
    return std::all_of(limits_.begin(), limits_.end(), [&](const LogLimit& l) {
      return std::abs(l.f) > 1e-12 || loosest(l, t_low, t_high, d_low, d_high) >= -1e-12;
    });
  }

 private:
  static double loosest(const LogLimit& l, double t_low, double t_high, double d_low,
                        double d_high) {
    return -l.k - l.t * (l.t > 0 ? t_low : t_high) - l.d * (l.d > 0 ? d_low : d_high);
  }
  std::vector<LogLimit> limits_;
};

struct Box {
  // ln of both lives, the finishing depth.
  double tr_low, tr_high, ts_low, ts_high, ds_low, ds_high;
  double bound = 0;
  bool operator<(const Box& other) const { return bound > other.bound; }  // least bound first
};

class Passes {
 public:
  Passes(const MultiPassProblem& p, int n)
      : p_(p), n_(n), rough_(p.rough, p.life), finish_(p.finish, p.life) {
    path_ = std::numbers::pi * p.diameter * p.length / 1000;
    log_c_ = std::log(p.life.constant);
  }

  // The whole of what n passes can be; nothing when the depths do not fit.
  bool whole(Box& b) const {
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

  // Below every point of the box; infinite where it holds none.
  double bound(const Box& b) const {
    const double ds_low = std::log(b.ds_low), ds_high = std::log(b.ds_high);
    const double dr_low = std::log(rough_depth(b.ds_high));
    const double dr_high = std::log(rough_depth(b.ds_low));
    double fr = 0, fs = 0;
    if (!feeds(b, dr_low, dr_high, ds_low, ds_high, fr, fs)) return inf;
    // Minutes of a cut: path n / (v f), v by its life.
    const Powers w = powers();
    const double a = std::log(path_ * n_) - log_c_ / p_.life.p + w.d * dr_low + w.f * fr;
    const double c = std::log(path_) - log_c_ / p_.life.p + w.d * ds_low + w.f * fs;
    const double A = std::exp(a), B = std::exp(c);
    const double k = p_.change_edge + p_.edge / p_.minute;
    // Minutes are no less than wr A + ws B, whatever A and B are within what the depths let them
    // be.
    double wr = 0, ws = 0;
    if (!p_.life_weight) {
      wr = least_alone(w.t, k, b.tr_low, b.tr_high);
      ws = least_alone(w.t, k, b.ts_low, b.ts_high);
    } else {
      const double a_most =
          A * std::exp(w.d * (dr_high - dr_low)) * most_over_least(rough_, b, true);
      const double b_most =
          B * std::exp(w.d * (ds_high - ds_low)) * most_over_least(finish_, b, false);
      least_weighted(A, a_most, B, b_most, w.t, k, *p_.life_weight, b, wr, ws);
    }
    const double minutes = std::max(wr * A + ws * B, curved(b, wr, ws));
    return p_.minute * (p_.fixed + p_.each_pass * (n_ + 1) + minutes);
  }

  // The best feeds at a point; infinite where it is not feasible.
  double at(double tr, double ts, double ds, CutPoint& r, CutPoint& s) const {
    const double dr = rough_depth(ds);
    if (dr <= 0) return inf;
    double fr = 0, fs = 0;
    Box b{tr, tr, ts, ts, ds, ds};
    if (!feeds(b, std::log(dr), std::log(dr), std::log(ds), std::log(ds), fr, fs)) return inf;
    r = point(tr, fr, dr);
    s = point(ts, fs, ds);
    return cost_of(p_, n_, r, s);
  }

 private:
  struct Powers {
    double t, f, d;
  };
  Powers powers() const {
    return {1 / p_.life.p, p_.life.q / p_.life.p - 1, p_.life.r / p_.life.p};
  }
  double rough_depth(double ds) const { return (p_.stock - ds) / n_; }
  CutPoint point(double t, double f, double d) const {
    CutPoint c;
    c.feed = std::exp(f);
    c.depth = d;
    c.life = std::exp(t);
    c.speed = std::exp((log_c_ - t - p_.life.q * f - p_.life.r * std::log(d)) / p_.life.p);
    return c;
  }
  // ln of the largest feeds over the box; false when there is none.
  bool feeds(const Box& b, double dr_low, double dr_high, double ds_low, double ds_high, double& fr,
             double& fs) const {
    constexpr double slack = 1e-12;
    if (!rough_.possible(b.tr_low, b.tr_high, dr_low, dr_high) ||
        !finish_.possible(b.ts_low, b.ts_high, ds_low, ds_high))
      return false;
    fr = rough_.most(b.tr_low, b.tr_high, dr_low, dr_high);
    if (fr < rough_.least(b.tr_low, b.tr_high, dr_low, dr_high) - slack) return false;
    // f_r >= ratio f_s; v_s >= ratio v_r in lives: f_s^q <= T_r f_r^q d_r^r / (ratio^p T_s d_s^r).
    fs = std::min(finish_.most(b.ts_low, b.ts_high, ds_low, ds_high), fr - std::log(p_.feed_ratio));
    if (p_.life.q > 0)
      fs = std::min(fs, fr + (b.tr_high - b.ts_low + p_.life.r * (dr_high - ds_low) -
                              p_.life.p * std::log(p_.speed_ratio)) /
                                 p_.life.q);
    return fs >= finish_.least(b.ts_low, b.ts_high, ds_low, ds_high) - slack;
  }
  // Least of T^w (1 + k / T): falls, then rises.
  static double least_alone(double w, double k, double low, double high) {
    const double best = w < 1 ? std::log(k * (1 - w) / w) : high;
    const double t = std::exp(std::clamp(best, low, high));
    return std::pow(t, w) * (1 + k / t);
  }
  // c ds^a dr^b, dr = (stock - ds) / n.
  struct Product {
    double c = 0, a = 0, b = 0;
    double at(double s, double r) const { return c * std::pow(s, a) * std::pow(r, b); }
  };
  // Each cut's minutes are the greatest of products of the depths, one a limit of the feed; below
  // their sum for the limits that are tightest in the middle lies a parabola with the least
  // curvature that the box has. It is off by the square of the box's width, where corners are off
  // by the width.
  double curved(const Box& box, double wr, double ws) const {
    const double m = (box.ds_low + box.ds_high) / 2, half = (box.ds_high - box.ds_low) / 2;
    if (half <= 0) return 0;
    const Powers w = powers();
    const double lr = std::log(rough_depth(m)), ls = std::log(m);
    const double base = std::log(path_) - log_c_ / p_.life.p;
    const auto r = rough_.tightest(box.tr_low, box.tr_high, lr);
    Product parts[2];
    parts[0] = {wr * n_ * std::exp(base + w.f * r.k), 0, w.d - w.f * r.d};
    // f_s by its own limits, by f_r, by v_r.
    const auto s = finish_.tightest(box.ts_low, box.ts_high, ls);
    double least = s.k - s.d * ls;
    parts[1] = {ws * std::exp(base + w.f * s.k), w.d - w.f * s.d, 0};
    const double k4 = r.k - std::log(p_.feed_ratio);
    if (k4 - r.d * lr < least) {
      least = k4 - r.d * lr;
      parts[1] = {ws * std::exp(base + w.f * k4), w.d, -w.f * r.d};
    }
    if (p_.life.q > 0) {
      const double q = p_.life.q;
      const double k3 = r.k + (box.tr_high - box.ts_low - p_.life.p * std::log(p_.speed_ratio)) / q;
      const double in_r = r.d - p_.life.r / q, in_s = p_.life.r / q;
      if (k3 - in_r * lr - in_s * ls < least)
        parts[1] = {ws * std::exp(base + w.f * k3), w.d - w.f * in_s, -w.f * in_r};
    }
    double value = 0, slope = 0, curve = 0;
    const double s0 = box.ds_low, s1 = box.ds_high, r0 = rough_depth(s1), r1 = rough_depth(s0);
    for (const Product& g : parts) {
      const double rm = rough_depth(m), here = g.at(m, rm);
      value += here;
      slope += here * (g.a / m - g.b / (n_ * rm));
      // g'' / g = (a/s - b/(n r))^2 - a/s^2 - b/(n r)^2, from below.
      const double u = g.a / (g.a > 0 ? s1 : s0) - g.b / (n_ * (g.b > 0 ? r0 : r1));
      const double v = g.a / (g.a > 0 ? s0 : s1) - g.b / (n_ * (g.b > 0 ? r1 : r0));
      const double square = u > 0 ? u * u : v < 0 ? v * v : 0;
      const double s_at = g.a > 0 ? s0 : s1, r_at = g.b > 0 ? r0 : r1;
      const double bracket = square - g.a / (s_at * s_at) - g.b / (n_ * r_at * n_ * r_at);
      const double large =
          g.c * std::pow(g.a > 0 ? s1 : s0, g.a) * std::pow(g.b > 0 ? r1 : r0, g.b);
      const double small =
          g.c * std::pow(g.a > 0 ? s0 : s1, g.a) * std::pow(g.b > 0 ? r0 : r1, g.b);
      curve += bracket * (bracket < 0 ? large : small);
    }
    auto at = [&](double x) { return value + slope * x + curve * x * x / 2; };
    double lowest = std::min(at(-half), at(half));
    if (curve > 0 && std::abs(slope / curve) < half) lowest = std::min(lowest, at(-slope / curve));
    return lowest;
  }
  // By what factor a cut's minutes may grow within the box, its feed at its smallest largest.
  double most_over_least(const FeedLimits& limits, const Box& b, bool rough) const {
    const double t0 = rough ? b.tr_low : b.ts_low, t1 = rough ? b.tr_high : b.ts_high;
    const double d0 = std::log(rough ? rough_depth(b.ds_high) : b.ds_low);
    const double d1 = std::log(rough ? rough_depth(b.ds_low) : b.ds_high);
    double most = limits.most(t0, t1, d0, d1), least = most;
    for (const double t : {t0, t1})
      for (const double d : {d0, d1}) least = std::min(least, limits.most(t, t, d, d));
    if (!rough) {
      // The finish may hang on the roughing feed and speed.
      const double factor = most_over_least(rough_, b, true);
      return std::exp(powers().f * (least - most)) * factor *
             std::exp(-powers().f *
                      (b.tr_high - b.tr_low + b.ts_high - b.ts_low +
                       p_.life.r *
                           (d1 - d0 + std::log(rough_depth(b.ds_low) / rough_depth(b.ds_high)))) /
                      std::max(p_.life.q, 1e-9));
    }
    return std::exp(powers().f * (least - most));
  }
  // Least of N (1 + k / P) with N = A Tr^w + B Ts^w, P = weight Tr + (1 - weight) Ts. In ln T the
  // logarithm of N rises by shares of w that stay within what the box's corners give, and that of
  // the bracket falls by what its corners give: where the one outweighs the other, the side of the
  // box is known; else both at their best.
  static void least_weighted(double A, double a_most, double B, double b_most, double w, double k,
                             double weight, const Box& b, double& wr, double& ws) {
    const double x[2] = {b.tr_low, b.tr_high}, y[2] = {b.ts_low, b.ts_high};
    const double low_r = std::exp(x[0]), high_r = std::exp(x[1]);
    const double low_s = std::exp(y[0]), high_s = std::exp(y[1]);
    const double u = weight, v = 1 - weight;
    const double a_low = A * std::pow(low_r, w), a_high = a_most * std::pow(high_r, w);
    const double b_low = B * std::pow(low_s, w), b_high = b_most * std::pow(high_s, w);
    // d ln N / d ln Tr = w a / (a + b), d ln (1 + k/P) / d ln Tr = -k u Tr / (P (P + k)).
    auto falls = [&](double share, double t_low, double t_high, double rest_low, double rest_high,
                     double& least, double& most) {
      // The extremes of share t / (P (P + k)), P = share t + rest.
      auto g = [&](double t, double rest) {
        const double p = share * t + rest;
        return k * share * t / (p * (p + k));
      };
      // In t it rises to a top and falls; in rest it falls.
      least = std::min(g(t_low, rest_high), g(t_high, rest_high));
      const double top = share > 0 ? std::sqrt(rest_low * (rest_low + k)) / share : t_high;
      most = g(std::clamp(top, t_low, t_high), rest_low);
    };
    double fall_low = 0, fall_high = 0;
    double r_low = low_r, r_high = high_r, s_low = low_s, s_high = high_s;
    falls(u, low_r, high_r, v * low_s, v * high_s, fall_low, fall_high);
    if (w * a_low / (a_low + b_high) >= fall_high)
      r_high = low_r;
    else if (w * a_high / (a_high + b_low) <= fall_low)
      r_low = high_r;
    falls(v, low_s, high_s, u * low_r, u * high_r, fall_low, fall_high);
    if (w * b_low / (b_low + a_high) >= fall_high)
      s_high = low_s;
    else if (w * b_high / (b_high + a_low) <= fall_low)
      s_low = high_s;
    const double more = 1 + k / (u * r_high + v * s_high);
    wr = std::pow(r_low, w) * more;
    ws = std::pow(s_low, w) * more;
  }

  const MultiPassProblem& p_;
  int n_;
  FeedLimits rough_, finish_;
  double path_ = 0, log_c_ = 0;
};

// What the proof rests on: a larger feed is always better, and lives and depths only widen or only
// narrow each limit.
std::string not_provable(const MultiPassProblem& p) {
  if (!(p.life.q < p.life.p))
    return "the feed's exponent of the tool life is not below the speed's";
  if (p.life.q < 0 || p.life.r < 0) return "an exponent of the tool life is below 0";
  return "";
}

}  // namespace

double ToolLife::at(double v, double f, double d) const {
  return constant / (std::pow(v, p) * std::pow(f, q) * std::pow(d, r));
}

double cost_of(const MultiPassProblem& p, int n, const CutPoint& r, const CutPoint& s) {
  const double path = std::numbers::pi * p.diameter * p.length / 1000;
  const double rough = n * path / (r.speed * r.feed), finish = path / (s.speed * s.feed);
  const double worn =
      p.life_weight ? (rough + finish) / (*p.life_weight * r.life + (1 - *p.life_weight) * s.life)
                    : rough / r.life + finish / s.life;
  return p.minute * (rough + finish + p.fixed + p.each_pass * (n + 1) + p.change_edge * worn) +
         p.edge * worn;
}

std::string broken_by(const MultiPassProblem& p, int n, const CutPoint& r, const CutPoint& s,
                      double tolerance) {
  auto over = [&](double value, double most) { return value > most * (1 + tolerance); };
  auto outside = [&](double value, const CutRange& range) {
    return over(value, range.high) || over(range.low, value);
  };
  auto pass = [&](const CutPoint& c, const PassModel& m) -> std::string {
    if (outside(c.speed, m.speed)) return "surface speed";
    if (outside(c.feed, m.feed)) return "feed";
    if (outside(c.depth, m.depth)) return "depth";
    if (outside(p.life.at(c.speed, c.feed, c.depth), m.life)) return "life";
    for (const CutLimit& limit : m.limits)
      if (over(limit.of.at(c.speed, c.feed, c.depth), limit.at_most)) return limit.name;
    return "";
  };
  if (const std::string broken = pass(r, p.rough); !broken.empty()) return "rough: " + broken;
  if (const std::string broken = pass(s, p.finish); !broken.empty()) return "finish: " + broken;
  if (over(p.speed_ratio * r.speed, s.speed)) return "speed ratio";
  if (over(p.feed_ratio * s.feed, r.feed)) return "feed ratio";
  if (over(p.depth_ratio * s.depth, r.depth)) return "depth ratio";
  if (std::abs(n * r.depth + s.depth - p.stock) > tolerance * p.stock) return "stock";
  return "";
}

MultiPassOptimum least_cost(const MultiPassProblem& p, double gap, long most_boxes) {
  MultiPassOptimum out;
  out.not_proved = not_provable(p);
  struct Open {
    Box box;
    int n;
    bool operator<(const Open& other) const { return box < other.box; }
  };
  std::priority_queue<Open> open;
  std::vector<Passes> passes;
  const int most = std::max(
      1,
      static_cast<int>((p.stock - p.finish.depth.low) / std::max(p.rough.depth.low, 1e-9) + 1e-9));
  passes.reserve(static_cast<std::size_t>(most));
  out.cost = out.at_least = inf;
  auto look = [&](int n, double tr, double ts, double ds) {
    CutPoint r, s;
    const double cost = passes[static_cast<std::size_t>(n) - 1].at(tr, ts, ds, r, s);
    if (cost >= out.cost) return;
    out.found = true;
    out.cost = cost;
    out.passes = n;
    out.rough = r;
    out.finish = s;
  };
  auto corners = [&](int n, const Box& b) {
    for (const double tr : {b.tr_low, b.tr_high})
      for (const double ts : {b.ts_low, b.ts_high})
        for (const double ds : {b.ds_low, b.ds_high}) look(n, tr, ts, ds);
  };
  for (int n = 1; n <= most; ++n) {
    passes.emplace_back(p, n);
    Open whole{{}, n};
    if (!passes.back().whole(whole.box)) continue;
    whole.box.bound = passes.back().bound(whole.box);
    if (whole.box.bound == inf) continue;
    corners(n, whole.box);
    open.push(whole);
  }
  double left_out = inf;  // the least bound of what was not looked into
  while (!open.empty()) {
    const Open top = open.top();
    out.at_least = std::min(top.box.bound, left_out);
    if (top.box.bound >= out.cost * (1 - gap) || out.boxes >= most_boxes) break;
    open.pop();
    ++out.boxes;
    const Passes& its = passes[static_cast<std::size_t>(top.n) - 1];
    // The side whose halving lifts the bound most.
    Box halves[2];
    double best = -1;
    constexpr double lagging = 0.9;
    double widest = 0;
    if (out.boxes % 3 == 0)
      widest = std::max({top.box.tr_high - top.box.tr_low, top.box.ts_high - top.box.ts_low,
                         std::log(top.box.ds_high / top.box.ds_low)});
    else
      widest = 1e9;
    for (int side = 0; side < 3; ++side) {
      Box a = top.box, b = top.box;
      const double width = side == 0   ? a.tr_high - a.tr_low
                           : side == 1 ? a.ts_high - a.ts_low
                                       : std::log(a.ds_high / a.ds_low);
      if (width < 1e-13) continue;
      if (side == 0) a.tr_high = b.tr_low = (a.tr_low + a.tr_high) / 2;
      if (side == 1) a.ts_high = b.ts_low = (a.ts_low + a.ts_high) / 2;
      if (side == 2) a.ds_high = b.ds_low = (a.ds_low + a.ds_high) / 2;
      a.bound = std::max(its.bound(a), top.box.bound);
      b.bound = std::max(its.bound(b), top.box.bound);
      // What both halves lift; a side that lags behind the others goes first all the same.
      const double lift =
          std::min(a.bound, 2 * out.cost) + std::min(b.bound, 2 * out.cost) - 2 * top.box.bound;
      const double score = lift + 1e-9 * width + (width > lagging * widest ? 1e9 * width : 0);
      if (score <= best) continue;
      best = score;
      halves[0] = a;
      halves[1] = b;
    }
    if (best < 0) break;  // a point
    for (const Box& half : halves) {
      if (half.bound < out.cost) corners(top.n, half);
      if (half.bound >= out.cost * (1 - gap))
        left_out = std::min(left_out, half.bound);
      else
        open.push({half, top.n});
    }
    if (open.empty()) out.at_least = left_out;
  }
  out.at_least = std::min(out.at_least, out.cost);
  if (out.found && out.not_proved.empty() && out.gap() > gap * 1.0001)
    out.not_proved = "the boxes ran out";
  return out;
}

}  // namespace turnwright
