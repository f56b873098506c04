// SPDX-License-Identifier: MIT
#include "weighted_lives.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

struct Range {
  double low = 0, high = 0;
};

// How much ln (1 + k / P) falls by a step of ln t, P = share t + rest: k share t / (P (P + k)).
Range falls(double k, double share, const Range& t, const Range& rest_of) {
  auto g = [&](double life, double rest) {
    const double p = share * life + rest;
    return k * share * life / (p * (p + k));
  };
  // In t it rises to a top and falls; in rest it falls.
  const double top = share > 0 ? std::sqrt(rest_of.low * (rest_of.low + k)) / share : t.high;
  return {std::min(g(t.low, rest_of.high), g(t.high, rest_of.high)),
          g(std::clamp(top, t.low, t.high), rest_of.low)};
}

// Where ln N rises by more than the bracket can fall, only the short life counts; where by less,
// only the long one.
Range side_of(double w, const Range& own, const Range& other, const Range& fall, const Range& t) {
  Range kept = t;
  if (w * own.low / (own.low + other.high) >= fall.high)
    kept.high = t.low;
  else if (w * own.high / (own.high + other.low) <= fall.low)
    kept.low = t.high;
  return kept;
}

}  // namespace

double least_alone(double w, double k, double low, double high) {
  const double best = w < 1 ? std::log(k * (1 - w) / w) : high;
  const double t = std::exp(std::clamp(best, low, high));
  return std::pow(t, w) * (1 + k / t);
}

LeastFactors least_weighted(const WeightedLives& l, const Box& box) {
  const Range rough{std::exp(box.tr_low), std::exp(box.tr_high)};
  const Range finish{std::exp(box.ts_low), std::exp(box.ts_high)};
  const double u = l.weight, v = 1 - l.weight;
  const Range a{l.a_least * std::pow(rough.low, l.w), l.a_most * std::pow(rough.high, l.w)};
  const Range b{l.b_least * std::pow(finish.low, l.w), l.b_most * std::pow(finish.high, l.w)};
  const Range r =
      side_of(l.w, a, b, falls(l.k, u, rough, {v * finish.low, v * finish.high}), rough);
  const Range s =
      side_of(l.w, b, a, falls(l.k, v, finish, {u * rough.low, u * rough.high}), finish);
  const double more = 1 + l.k / (u * r.high + v * s.high);
  return {std::pow(r.low, l.w) * more, std::pow(s.low, l.w) * more};
}

}  // namespace turnwright
