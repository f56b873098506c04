// SPDX-License-Identifier: MIT
#pragma once
// Surface speed, spindle speed, and the steps of a geared head.
#include <cmath>

#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"

namespace turnwright::figure {

/// Between two diameters, the one below which the spindle runs at its fastest.
template <class N>
LengthOf<N> clamp_diameter(LengthOf<N> large, LengthOf<N> small, SpeedOf<N> vc,
                           FrequencyOf<N> nmax) {
  return min(large, max(small, vc / (pi * nmax)));
}

struct SurfaceSpeed {
  template <class N = double>
  struct Inputs {
    LengthOf<N> diameter;
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  struct Results {
    SpeedOf<N> surface_speed;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {pi * given.diameter * given.spindle_speed};
  }
  static constexpr Identity identity{
      "surface-speed",
      std::array{needed("diameter", "D", unit::mm, 0.01, 20000),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000)},
      std::array{result("surface-speed", "vc", unit::m_per_min)}, "vc = pi D n",
      "definition; ISO 3002-1:1982, cutting speed"};
};

struct SpindleSpeed {
  template <class N = double>
  struct Inputs {
    SpeedOf<N> surface_speed;
    LengthOf<N> diameter;
  };
  template <class N = double>
  struct Results {
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.surface_speed / (pi * given.diameter)};
  }
  static constexpr Identity identity{
      "spindle-speed",
      std::array{needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("diameter", "D", unit::mm, 0.01, 20000)},
      std::array{result("spindle-speed", "n", unit::rev_per_min)}, "n = vc / (pi D)",
      "definition; ISO 3002-1:1982, cutting speed, solved for n"};
};

struct SpindleSpeedShopRule {
  template <class N = double>
  struct Inputs {
    SpeedOf<N> surface_speed;
    LengthOf<N> diameter;
  };
  template <class N = double>
  struct Results {
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {4.0 * (given.surface_speed / unit::ft_per_min) / (given.diameter / unit::inch) *
            unit::rev_per_min};
  }
  static constexpr Identity identity{
      "spindle-speed-shop-rule",
      std::array{needed("surface-speed", "CS", unit::ft_per_min, 0.01, 30000),
                 needed("diameter", "D", unit::inch, 0.001, 800)},
      std::array{result("spindle-speed", "n", unit::rev_per_min)},
      "n = 4 CS / D (CS in ft/min, D in inch)",
      "common practice; M. R. Jennings, Introduction to Machining 1, section 10.9 (Open "
      "Washington)"};
};

struct SpeedLadder {
  template <class N = double>
  struct Inputs {
    FrequencyOf<N> slowest, fastest;
    Pure<N> steps;
  };
  template <class N = double>
  struct Results {
    Pure<N> ratio;
    List<Dim{0, 0, -1}, N> speeds;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const Pure<N> ratio = pow(given.fastest / given.slowest, 1.0 / (given.steps - 1.0));
    Results<N> found{ratio, {}};
    const int count = static_cast<int>(std::lround(value_of(given.steps.si)));
    for (int i = 0; i < count; ++i)
      found.speeds.push_back(given.slowest * pow(ratio, static_cast<double>(i)));
    return found;
  }
  static constexpr Identity identity{
      "speed-ladder",
      std::array{needed("slowest", "n1", unit::rev_per_min, 0.1, 100000),
                 needed("fastest", "nz", unit::rev_per_min, 0.1, 100000),
                 needed("steps", "z", unit::ratio, 2, 200)},
      std::array{result("ratio", "phi", unit::ratio), results("speeds", "n_i", unit::rev_per_min)},
      "phi = (nz/n1)^(1/(z-1)); n_i = n1 phi^(i-1)", "ISO 3:1973, preferred numbers; DIN 804:1977"};
};

struct LadderSpeed {
  template <class N = double>
  struct Inputs {
    FrequencyOf<N> wanted;
    List<Dim{0, 0, -1}, N> speeds;
    Pure<N> band;
  };
  template <class N = double>
  struct Results {
    FrequencyOf<N> spindle_speed;
    Pure<N> deviation;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    // The nearest step that is not above the band; all steps above it: the slowest there is.
    FrequencyOf<N> best = given.speeds.empty() ? given.wanted : given.speeds.front();
    bool found = false;
    const double wanted = value_of(given.wanted.si);
    const double top = wanted * (1.0 + value_of(given.band.si)) * (1.0 + whole_slack);
    for (const auto& step : given.speeds) {
      const double n = value_of(step.si);
      if (n > top) {
        if (!found && n < value_of(best.si)) best = step;
      } else if (!found || std::abs(n - wanted) < std::abs(value_of(best.si) - wanted)) {
        best = step;
        found = true;
      }
    }
    return {best, best / given.wanted - 1.0};
  }
  static constexpr Identity identity{
      "ladder-speed",
      std::array{needed("wanted", "n", unit::rev_per_min, 0.1, 100000),
                 list("speeds", "n_i", unit::rev_per_min, 0.1, 100000),
                 optional("band", "b", unit::ratio, 0.1, 0, 1)},
      std::array{result("spindle-speed", "n_s", unit::rev_per_min),
                 result("deviation", "d", unit::ratio)},
      "n_s = nearest n_i <= n (1 + b)",
      "common practice; the next lower step in P. N. Rao, Manufacturing Technology vol. 2, 2nd ed. "
      "2009, p. 130"};
};

}  // namespace turnwright::figure
