// SPDX-License-Identifier: MIT
// Branch and bound over boxes of both lives and the finishing depth.
#include "turnwright/tune/multi_pass.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <queue>

#include "pass_bounds.hpp"

namespace turnwright {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

// What the proof rests on: a larger feed is always better, and lives and depths only widen or only
// narrow each limit.
Unproved provable(const MultiPassProblem& p) {
  return p.life.q < p.life.p && p.life.q >= 0 && p.life.r >= 0 ? Unproved::no
                                                               : Unproved::life_exponents;
}

double width_of(const Box& b, int side) {
  return side == 0   ? b.tr_high - b.tr_low
         : side == 1 ? b.ts_high - b.ts_low
                     : std::log(b.ds_high / b.ds_low);
}
void halve(Box& a, Box& b, int side) {
  if (side == 0) a.tr_high = b.tr_low = (a.tr_low + a.tr_high) / 2;
  if (side == 1) a.ts_high = b.ts_low = (a.ts_low + a.ts_high) / 2;
  if (side == 2) a.ds_high = b.ds_low = (a.ds_low + a.ds_high) / 2;
}

class BoxSearch {
 public:
  BoxSearch(const MultiPassProblem& p, double gap, long most_boxes)
      : p_(p), gap_(gap), most_boxes_(most_boxes) {
    out_.unproved = provable(p);
    out_.cost = out_.at_least = inf;
  }

  MultiPassOptimum work_out() {
    open_all();
    while (!open_.empty() && look_into_best()) {
    }
    out_.at_least = std::min(out_.at_least, out_.cost);
    if (out_.found && out_.unproved == Unproved::no && out_.gap() > gap_ * 1.0001)
      out_.unproved = Unproved::boxes_ran_out;
    return out_;
  }

 private:
  struct Open {
    Box box;
    int n;
    bool operator<(const Open& other) const { return box < other.box; }
  };
  const PassBounds& bounds(int n) const { return bounds_[static_cast<std::size_t>(n) - 1]; }

  void look(int n, double tr, double ts, double ds) {
    CutPoint r, s;
    const double cost = bounds(n).at(tr, ts, ds, r, s);
    if (cost >= out_.cost) return;
    out_.found = true;
    out_.cost = cost;
    out_.passes = n;
    out_.rough = r;
    out_.finish = s;
  }
  void corners(int n, const Box& b) {
    for (const double tr : {b.tr_low, b.tr_high})
      for (const double ts : {b.ts_low, b.ts_high})
        for (const double ds : {b.ds_low, b.ds_high}) look(n, tr, ts, ds);
  }
  void open_all() {
    const int most = std::max(
        1, static_cast<int>((p_.stock - p_.finish.depth.low) / std::max(p_.rough.depth.low, 1e-9) +
                            1e-9));
    bounds_.reserve(static_cast<std::size_t>(most));
    for (int n = 1; n <= most; ++n) {
      bounds_.emplace_back(p_, n);
      Open whole{{}, n};
      if (!bounds_.back().whole(whole.box)) continue;
      whole.box.bound = bounds_.back().bound(whole.box);
      if (whole.box.bound == inf) continue;
      corners(n, whole.box);
      open_.push(whole);
    }
  }

  // False when there is nothing more to look into.
  bool look_into_best() {
    const Open top = open_.top();
    out_.at_least = std::min(top.box.bound, left_out_);
    if (top.box.bound >= out_.cost * (1 - gap_) || out_.boxes >= most_boxes_) return false;
    open_.pop();
    ++out_.boxes;
    Box halves[2];
    if (!split(top, halves)) return false;
    for (const Box& half : halves) {
      if (half.bound < out_.cost) corners(top.n, half);
      if (half.bound >= out_.cost * (1 - gap_))
        left_out_ = std::min(left_out_, half.bound);
      else
        open_.push({half, top.n});
    }
    if (open_.empty()) out_.at_least = left_out_;
    return true;
  }

  // By the side whose halving lifts the bound most; false for a point.
  bool split(const Open& top, Box (&halves)[2]) const {
    constexpr double lagging = 0.9;
    const Box& box = top.box;
    const double widest = out_.boxes % 3 == 0
                              ? std::max({width_of(box, 0), width_of(box, 1), width_of(box, 2)})
                              : 1e9;
    double best = -1;
    for (int side = 0; side < 3; ++side) {
      const double width = width_of(box, side);
      if (width < 1e-13) continue;
      Box a = box, b = box;
      halve(a, b, side);
      a.bound = std::max(bounds(top.n).bound(a), box.bound);
      b.bound = std::max(bounds(top.n).bound(b), box.bound);
      // What both halves lift; a side that lags behind the others goes first all the same.
      const double lift =
          std::min(a.bound, 2 * out_.cost) + std::min(b.bound, 2 * out_.cost) - 2 * box.bound;
      const double score = lift + 1e-9 * width + (width > lagging * widest ? 1e9 * width : 0);
      if (score <= best) continue;
      best = score;
      halves[0] = a;
      halves[1] = b;
    }
    return best >= 0;
  }

  const MultiPassProblem& p_;
  double gap_;
  long most_boxes_;
  MultiPassOptimum out_;
  std::priority_queue<Open> open_;
  std::vector<PassBounds> bounds_;  // by the number of passes
  double left_out_ = inf;           // the least bound of what was not looked into
};

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

MultiPassOptimum least_cost(const MultiPassProblem& problem, double gap, long most_boxes) {
  return BoxSearch(problem, gap, most_boxes).work_out();
}

}  // namespace turnwright
