// SPDX-License-Identifier: MIT
#pragma once
// A cut in logarithms: its limits are planes, its cost is convex.
#include <array>
#include <limits>
#include <vector>

#include "turnwright/tune/cut_optimum.hpp"

namespace turnwright {

/// ln v, ln f, ln d.
using Logs = std::array<double, 3>;
/// Planes of the six ends of the ranges and of the problem's own limits.
inline constexpr std::size_t most_planes = 24;

/// a . x <= b; `from`: how much of each limit it was added up from.
struct Plane {
  Logs a{};
  double b = 0;
  std::array<double, most_planes> from{};
};
struct LogTerm {
  double log_factor = 0;
  Logs power{};
};
struct LogProblem {
  std::vector<Plane> planes;    // two ends of each range, then the limits
  std::vector<LimitId> limits;  // by plane
  std::vector<LogTerm> cost;
  std::array<CutRange, 3> ranges;
};

/// Limits and ranges that are not above 0: no logarithm stands for them.
std::vector<LimitId> not_above_zero(const CutProblem& problem);
/// The problem in logarithms; only where every limit is above 0.
LogProblem in_logarithms(const CutProblem& problem);
double term_at(const LogTerm& term, const Logs& x);
double cost_at(const LogProblem& problem, const Logs& x);

/// Planes without variable k: each pair of a lower and an upper one (Fourier 1826, Motzkin 1936).
std::vector<Plane> without_variable(const std::vector<Plane>& planes, std::size_t k);

struct Stretch {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
};
/// What the planes leave of variable k when the later ones are given.
Stretch span_of(const std::vector<Plane>& planes, std::size_t k, const Logs& x);

/// Fills the bound, the binding limits and what they are worth at the point of least cost.
void prove(const LogProblem& problem, const Logs& x, CutOptimum& out);

}  // namespace turnwright
