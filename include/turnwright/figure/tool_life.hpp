// SPDX-License-Identifier: MIT
#pragma once
// Taylor's tool life and the economy of an edge.
#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"
#include "turnwright/figure/speeds.hpp"

namespace turnwright::figure {

struct ToolLife {
  template <class N = double>
  struct Inputs {
    SpeedOf<N> surface_speed;
    Pure<N> exponent;
    SpeedOf<N> constant;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> life;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [v, n, C] = given;
    return {pow(C / v, 1.0 / n) * unit::min};
  }
  static constexpr Identity identity{
      "tool-life",
      std::array{needed("surface-speed", "v", unit::m_per_min, 0.01, 10000),
                 needed("exponent", "n", unit::ratio, 0.01, 1),
                 needed("constant", "C", unit::m_per_min, 0.01, 100000)},
      std::array{result("life", "T", unit::min)}, "T = (C/v)^(1/n) (v and C in one unit, T in min)",
      "F. W. Taylor, On the art of cutting metals, 1907, v T^n = C"};
};

struct ToolLifeExponent {
  template <class N = double>
  struct Inputs {
    SpeedOf<N> first_speed;
    TimeOf<N> first_life;
    SpeedOf<N> second_speed;
    TimeOf<N> second_life;
  };
  template <class N = double>
  struct Results {
    Pure<N> exponent;
    SpeedOf<N> constant;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [v1, T1, v2, T2] = given;
    const Pure<N> n = log(v1 / v2) / log(T2 / T1);
    return {n, v1 * pow(T1 / unit::min, n)};
  }
  static constexpr Identity identity{
      "tool-life-exponent",
      std::array{needed("first-speed", "v1", unit::m_per_min, 0.01, 10000),
                 needed("first-life", "T1", unit::min, 0.001, 100000),
                 needed("second-speed", "v2", unit::m_per_min, 0.01, 10000),
                 needed("second-life", "T2", unit::min, 0.001, 100000)},
      std::array{result("exponent", "n", unit::ratio), result("constant", "C", unit::m_per_min)},
      "n = ln(v1/v2)/ln(T2/T1); C = v1 T1^n",
      "M. P. Groover, Fundamentals of Modern Manufacturing, 3rd ed. 2007, example 23.1 (from "
      "memory)"};
};

struct ToolLifeRatio {
  template <class N = double>
  struct Inputs {
    Pure<N> exponent, speed_ratio, feed_ratio, depth_ratio, feed_exponent, depth_exponent;
  };
  template <class N = double>
  struct Results {
    Pure<N> life_ratio;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [n, v, f, d, a, b] = given;
    return {pow(v * pow(f, a) * pow(d, b), -1.0 / n)};
  }
  static constexpr Identity identity{
      "tool-life-ratio",
      std::array{needed("exponent", "n", unit::ratio, 0.01, 1),
                 optional("speed-ratio", "v2/v1", unit::ratio, 1, 0.01, 100),
                 optional("feed-ratio", "f2/f1", unit::ratio, 1, 0.01, 100),
                 optional("depth-ratio", "d2/d1", unit::ratio, 1, 0.01, 100),
                 optional("feed-exponent", "a", unit::ratio, 0, 0, 5),
                 optional("depth-exponent", "b", unit::ratio, 0, 0, 5)},
      std::array{result("life-ratio", "T2/T1", unit::ratio)},
      "T2/T1 = (v f^a d^b)^(-1/n), from v T^n f^a d^b = C",
      "extended Taylor equation; GATE Mechanical 2016 (key from memory)"};
};

struct LifeForLeastTime {
  template <class N = double>
  struct Inputs {
    Pure<N> exponent;
    TimeOf<N> change_time;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> life;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {(1.0 / given.exponent - 1.0) * given.change_time};
  }
  static constexpr Identity identity{
      "life-for-least-time",
      std::array{needed("exponent", "n", unit::ratio, 0.01, 0.99),
                 needed("change-time", "tc", unit::min, 0, 1000)},
      std::array{result("life", "T", unit::min)}, "T = (1/n - 1) tc",
      "W. W. Gilbert, Economics of machining, 1950, as in A. Ghosh and A. K. Mallik, Manufacturing "
      "Science, p. 277-281"};
};

struct LifeForLeastCost {
  template <class N = double>
  struct Inputs {
    Pure<N> exponent;
    TimeOf<N> change_time;
    RateOf<N> rate;
    AmountOf<N> edge_cost;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> life;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {(1.0 / given.exponent - 1.0) * (given.change_time + given.edge_cost / given.rate)};
  }
  static constexpr Identity identity{
      "life-for-least-cost",
      std::array{needed("exponent", "n", unit::ratio, 0.01, 0.99),
                 needed("change-time", "tc", unit::min, 0, 1000),
                 needed("rate", "Co", unit::money_per_h, 0.001, 100000),
                 needed("edge-cost", "Ct", unit::money, 0, 100000)},
      std::array{result("life", "T", unit::min)}, "T = (1/n - 1)(tc + Ct/Co)",
      "W. W. Gilbert, Economics of machining, 1950, as in A. Ghosh and A. K. Mallik, Manufacturing "
      "Science, p. 277-281"};
};

struct SpeedForLeastTime {
  template <class N = double>
  struct Inputs {
    Pure<N> exponent;
    SpeedOf<N> constant;
    TimeOf<N> change_time;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> life;
    SpeedOf<N> surface_speed;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const TimeOf<N> T = LifeForLeastTime::work_out<N>({given.exponent, given.change_time}).life;
    return {T, given.constant / pow(T / unit::min, given.exponent)};
  }
  static constexpr Identity identity{
      "speed-for-least-time",
      std::array{needed("exponent", "n", unit::ratio, 0.01, 0.99),
                 needed("constant", "C", unit::m_per_min, 0.01, 100000),
                 needed("change-time", "tc", unit::min, 0.0001, 1000)},
      std::array{result("life", "T", unit::min), result("surface-speed", "v", unit::m_per_min)},
      "T = (1/n - 1) tc; v = C / T^n",
      "W. W. Gilbert, Economics of machining, 1950; M. P. Groover, Fundamentals of Modern "
      "Manufacturing, 3rd ed., example 24.2 (from memory)"};
};

struct SpeedForLeastCost {
  template <class N = double>
  struct Inputs {
    Pure<N> exponent;
    SpeedOf<N> constant;
    TimeOf<N> change_time;
    RateOf<N> rate;
    AmountOf<N> edge_cost;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> life;
    SpeedOf<N> surface_speed;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [n, C, tc, Co, Ct] = given;
    const TimeOf<N> T = LifeForLeastCost::work_out<N>({n, tc, Co, Ct}).life;
    return {T, C / pow(T / unit::min, n)};
  }
  static constexpr Identity identity{
      "speed-for-least-cost",
      std::array{needed("exponent", "n", unit::ratio, 0.01, 0.99),
                 needed("constant", "C", unit::m_per_min, 0.01, 100000),
                 needed("change-time", "tc", unit::min, 0, 1000),
                 needed("rate", "Co", unit::money_per_h, 0.001, 100000),
                 needed("edge-cost", "Ct", unit::money, 0, 100000)},
      std::array{result("life", "T", unit::min), result("surface-speed", "v", unit::m_per_min)},
      "T = (1/n - 1)(tc + Ct/Co); v = C / T^n",
      "W. W. Gilbert, Economics of machining, 1950; M. P. Groover, Fundamentals of Modern "
      "Manufacturing, 3rd ed., example 24.2 (from memory)"};
};

enum class EdgeUse { whole, shared };

struct PieceCost {
  template <class N = double>
  struct Inputs {
    TimeOf<N> cutting_time, life, handling_time, change_time;
    RateOf<N> rate;
    AmountOf<N> edge_cost;
    EdgeUse pieces_per_edge_counted = EdgeUse::whole;
  };
  template <class N = double>
  struct Results {
    Pure<N> pieces_per_edge;
    TimeOf<N> time;
    AmountOf<N> cost;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [tm, T, th, tc, Co, Ct, counted] = given;
    const Pure<N> np = counted == EdgeUse::whole ? whole_down(T / tm) : Pure<N>(T / tm);
    const TimeOf<N> t = th + tm + tc / np;
    return {np, t, Co * t + Ct / np};
  }
  static constexpr Identity identity{
      "piece-cost",
      std::array{needed("cutting-time", "tm", unit::min, 0.0001, 100000),
                 needed("life", "T", unit::min, 0.0001, 1000000),
                 needed("handling-time", "th", unit::min, 0, 100000),
                 needed("change-time", "tc", unit::min, 0, 10000),
                 needed("rate", "Co", unit::money_per_h, 0, 100000),
                 needed("edge-cost", "Ct", unit::money, 0, 100000),
                 choice("pieces-per-edge", {"whole", "shared", ""})},
      std::array{result("pieces-per-edge", "np", unit::ratio), result("time", "t", unit::min),
                 result("cost", "C", unit::money)},
      "np = floor(T/tm) or T/tm; t = th + tm + tc/np; C = Co t + Ct/np",
      "M. P. Groover, Fundamentals of Modern Manufacturing, 3rd ed. 2007, section 24.3 (from "
      "memory)"};
};

/// The minutes at a reference speed that wear an edge as a cut at another speed does: wear is the
/// sum of dt / T(v).
struct WearTime {
  template <class N = double>
  struct Inputs {
    TimeOf<N> cutting_time;
    SpeedOf<N> surface_speed, reference_speed;
    Pure<N> exponent;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [tm, v, v0, n] = given;
    return {tm * pow(v / v0, 1.0 / n)};
  }
  static constexpr Identity identity{
      "wear-time",
      std::array{needed("cutting-time", "tm", unit::min, 0, 100000),
                 needed("surface-speed", "v", unit::m_per_min, 0, 10000),
                 needed("reference-speed", "v0", unit::m_per_min, 0.01, 10000),
                 needed("exponent", "n", unit::ratio, 0.01, 1)},
      std::array{result("time", "tw", unit::min)}, "tw = tm (v/v0)^(1/n)",
      "F. W. Taylor, On the art of cutting metals, 1907, v T^n = C; wear adds up as dt / T(v)"};
};

/// What is left of the integral of (v/v0)^rise over the diameters at one spindle speed, before the
/// division by rise + 1.
template <class N>
LengthOf<N> diameters_worn(LengthOf<N> D, LengthOf<N> d, FrequencyOf<N> n, SpeedOf<N> v0,
                           Pure<N> rise) {
  return D * pow(pi * D * n / v0, rise) - d * pow(pi * d * n / v0, rise);
}

/// The same where the diameter changes along a straight path and the spindle keeps its speed.
struct WearTimeOneSpindleSpeed {
  template <class N = double>
  struct Inputs {
    LengthOf<N> large_diameter, small_diameter, path_length, feed;
    FrequencyOf<N> spindle_speed;
    SpeedOf<N> reference_speed;
    Pure<N> exponent;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, d, L, f, ns, v0, n] = given;
    const Pure<N> rise = 1.0 / n;
    return {L / (f * ns * (D - d)) * diameters_worn<N>(D, d, ns, v0, rise) / (rise + 1.0)};
  }
  static constexpr Identity identity{
      "wear-time-one-spindle-speed",
      std::array{needed("large-diameter", "D", unit::mm, 0.01, 20000),
                 needed("small-diameter", "d", unit::mm, 0, 20000),
                 needed("path-length", "L", unit::mm, 0.001, 100000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("spindle-speed", "ns", unit::rev_per_min, 0.01, 200000),
                 needed("reference-speed", "v0", unit::m_per_min, 0.01, 10000),
                 needed("exponent", "n", unit::ratio, 0.01, 1)},
      std::array{result("time", "tw", unit::min)},
      "tw = L/(f ns (D - d)) (D (pi D ns/v0)^(1/n) - d (pi d ns/v0)^(1/n)) / (1/n + 1)",
      "integral of dt (v/v0)^(1/n) over the diameters; G. Boothroyd and W. A. Knight, Fundamentals "
      "of Machining and Machine Tools, facing at one spindle speed (from memory)"};
};

/// The same at constant surface speed, up to the fastest that the spindle runs.
struct WearTimeSlopedPath {
  template <class N = double>
  struct Inputs {
    LengthOf<N> large_diameter, small_diameter, path_length, feed;
    SpeedOf<N> surface_speed;
    FrequencyOf<N> fastest_speed;
    Pure<N> exponent;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> clamp_diameter;
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, d, L, f, vc, nmax, n] = given;
    const LengthOf<N> Dc = clamp_diameter<N>(D, d, vc, nmax);
    const Pure<N> rise = 1.0 / n;
    return {Dc, L / (D - d) *
                    (pi * (square(D) - square(Dc)) / (2.0 * vc * f) +
                     diameters_worn<N>(Dc, d, nmax, vc, rise) / ((rise + 1.0) * f * nmax))};
  }
  static constexpr Identity identity{
      "wear-time-sloped-path",
      std::array{needed("large-diameter", "D", unit::mm, 0.01, 20000),
                 needed("small-diameter", "d", unit::mm, 0, 20000),
                 needed("path-length", "L", unit::mm, 0.001, 100000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("fastest-speed", "nmax", unit::rev_per_min, 0.01, 200000),
                 needed("exponent", "n", unit::ratio, 0.01, 1)},
      std::array{result("clamp-diameter", "Dc", unit::mm), result("time", "tw", unit::min)},
      "tw = L/(D - d) (pi (D^2 - Dc^2)/(2 vc f) + (Dc (pi Dc nmax/vc)^(1/n) - d (pi d "
      "nmax/vc)^(1/n)) / ((1/n + 1) f nmax)), Dc = min(D, max(d, vc/(pi nmax)))",
      "integral of dt (v/vc)^(1/n), v = vc down to the clamp, pi D nmax below it"};
};

/// The share of an edge that a cut uses up.
struct EdgeShare {
  template <class N = double>
  struct Inputs {
    TimeOf<N> cutting_time, life;
  };
  template <class N = double>
  struct Results {
    Pure<N> share;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.cutting_time / given.life};
  }
  static constexpr Identity identity{
      "edge-share",
      std::array{needed("cutting-time", "tm", unit::min, 0, 100000),
                 needed("life", "T", unit::min, 0.0001, 1e9)},
      std::array{result("share", "tm/T", unit::ratio)}, "share = tm / T",
      "A. Ghosh and A. K. Mallik, Manufacturing Science, p. 277 (edges counted in fractions)"};
};

}  // namespace turnwright::figure
