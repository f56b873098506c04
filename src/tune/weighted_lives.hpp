// SPDX-License-Identifier: MIT
#pragma once
// Lives of two tools that are weighted against each other.
#include "pass_bounds.hpp"

namespace turnwright {

/// N = A Tr^w + B Ts^w minutes, A and B within what the depths let them be, times 1 + k / P with
/// P = weight Tr + (1 - weight) Ts.
struct WeightedLives {
  double a_least = 0, a_most = 0, b_least = 0, b_most = 0;
  double w = 0, k = 0, weight = 0;
};
/// What A and B are multiplied by at least over a box.
struct LeastFactors {
  double rough = 0, finish = 0;
};
LeastFactors least_weighted(const WeightedLives& lives, const Box& box);

/// Least of T^w (1 + k / T) between two ln T: falls, then rises.
double least_alone(double w, double k, double low, double high);

}  // namespace turnwright
