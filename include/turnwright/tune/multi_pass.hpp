// SPDX-License-Identifier: MIT
#pragma once
// Several roughing passes and a finishing pass, all of a depth to be divided: the whole number of
// passes, depths, feeds and speeds of least cost, with a bound that is proved by boxes. The model
// is that of Y. C. Shin, Y. S. Joo 1992 and M.-C. Chen, D.-M. Tsai, Int. J. Prod. Res. 34, 1996;
// lives of both tools are weighted as there, or their wear is added up, as is usual.
#include <optional>
#include <vector>

#include "turnwright/tune/cut_optimum.hpp"

namespace turnwright {

/// Life = constant / (v^p f^q d^r), v in m/min, f in mm/rev, d in mm, life in min.
struct ToolLife {
  double constant = 0, p = 0, q = 0, r = 0;
  double at(double v, double f, double d) const;
};

/// One of the two cuts: its ranges and its limits of v, f, d (every one monotone in the feed once
/// the life stands in the place of the speed; limits that bound it from below have a power of f
/// below q/p of v's).
struct PassModel {
  CutRange speed, feed, depth, life;
  std::vector<CutLimit> limits;
};

struct MultiPassProblem {
  double diameter = 0, length = 0;  // mm
  double stock = 0;                 // to take off in all, on the radius, mm
  ToolLife life;
  PassModel rough, finish;
  double minute = 0, edge = 0;                       // money a minute of the machine, an edge
  double fixed = 0, each_pass = 0, change_edge = 0;  // minutes per piece, pass, an edge
  std::optional<double> life_weight;                 // of roughing; none: wear adds up
  double speed_ratio = 1, feed_ratio = 1,
         depth_ratio = 1;  // v_s >= . v_r, f_r >= . f_s, d_r >= . d_s
};

struct CutPoint {
  double speed = 0, feed = 0, depth = 0, life = 0;
};
/// Why an optimum has no proof: exponents outside what it rests on, or the boxes ran out.
enum class Unproved { no, life_exponents, boxes_ran_out };

struct MultiPassOptimum {
  bool found = false;
  int passes = 0;  // of roughing
  CutPoint rough, finish;
  double cost = 0, at_least = 0;
  long boxes = 0;
  Unproved unproved = Unproved::no;

  double gap() const { return cost > 0 ? (cost - at_least) / cost : 0; }
  bool proved() const { return found && unproved == Unproved::no && gap() <= 1e-6; }
};

/// The problem's cost at a point, n roughing passes of the depth of `rough`.
double cost_of(const MultiPassProblem& problem, int passes, const CutPoint& rough,
               const CutPoint& finish);

/// `gap`: relative, at which a proof is enough; `most_boxes`: after which it is given up.
MultiPassOptimum least_cost(const MultiPassProblem& problem, double gap = 1e-6,
                            long most_boxes = 200000);

}  // namespace turnwright
