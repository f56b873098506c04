// SPDX-License-Identifier: MIT
#pragma once
// Cutting times of the turning operations.
#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"
#include "turnwright/figure/speeds.hpp"

namespace turnwright::figure {

struct TurningTime {
  template <class N = double>
  struct Inputs {
    LengthOf<N> length, feed;
    FrequencyOf<N> spindle_speed;
    Pure<N> passes;
    LengthOf<N> approach, overrun;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.passes * (given.approach + given.length + given.overrun) /
            (given.feed * given.spindle_speed)};
  }
  static constexpr Identity identity{
      "turning-time",
      std::array{needed("length", "l", unit::mm, 0.001, 100000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000),
                 optional("passes", "i", unit::ratio, 1, 1, 10000),
                 optional("approach", "la", unit::mm, 0, 0, 1000),
                 optional("overrun", "lu", unit::mm, 0, 0, 1000)},
      std::array{result("time", "t", unit::min)}, "t = i (la + l + lu) / (f n)",
      "M. P. Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, section 22.1 (edition "
      "from "
      "memory); any handbook"};
};

struct TurningTimeAtSpeed {
  template <class N = double>
  struct Inputs {
    LengthOf<N> diameter, length;
    SpeedOf<N> surface_speed;
    LengthOf<N> feed;
  };
  template <class N = double>
  struct Results {
    FrequencyOf<N> spindle_speed;
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.surface_speed / (pi * given.diameter),
            pi * given.diameter * given.length / (given.surface_speed * given.feed)};
  }
  static constexpr Identity identity{
      "turning-time-at-speed",
      std::array{needed("diameter", "D", unit::mm, 0.01, 20000),
                 needed("length", "l", unit::mm, 0.001, 100000),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100)},
      std::array{result("spindle-speed", "n", unit::rev_per_min), result("time", "t", unit::min)},
      "n = vc / (pi D); t = pi D l / (vc f)",
      "M. P. Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, section 22.1 (from "
      "memory)"};
};

struct FacingTime {
  template <class N = double>
  struct Inputs {
    LengthOf<N> outer_diameter, inner_diameter, feed;
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {(given.outer_diameter - given.inner_diameter) /
            (2.0 * given.feed * given.spindle_speed)};
  }
  static constexpr Identity identity{
      "facing-time",
      std::array{needed("outer-diameter", "Do", unit::mm, 0.01, 20000),
                 optional("inner-diameter", "Di", unit::mm, 0, 0, 20000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000)},
      std::array{result("time", "t", unit::min)}, "t = (Do - Di) / (2 f n)",
      "M. P. Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, problem 22.3"};
};

struct FacingTimeConstantSurfaceSpeed {
  template <class N = double>
  struct Inputs {
    LengthOf<N> outer_diameter, inner_diameter, feed;
    SpeedOf<N> surface_speed;
    FrequencyOf<N> fastest_speed;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> clamp_diameter;
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [Do, Di, f, vc, nmax] = given;
    // Without a clamp the second term is 0, not 0 / infinity of a recorded formula.
    if (std::isinf(value_of(nmax.si))) return {Di, pi * (square(Do) - square(Di)) / (4.0 * vc * f)};
    const LengthOf<N> Dc = clamp_diameter<N>(Do, Di, vc, nmax);
    return {Dc, pi * (square(Do) - square(Dc)) / (4.0 * vc * f) + (Dc - Di) / (2.0 * f * nmax)};
  }
  static constexpr Identity identity{
      "facing-time-constant-surface-speed",
      std::array{needed("outer-diameter", "Do", unit::mm, 0.01, 20000),
                 optional("inner-diameter", "Di", unit::mm, 0, 0, 20000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 optional("fastest-speed", "nmax", unit::rev_per_min, unlimited, 0.01, unlimited)},
      std::array{result("clamp-diameter", "Dc", unit::mm), result("time", "t", unit::min)},
      "t = pi (Do^2 - Dc^2)/(4 vc f) + (Dc - Di)/(2 f nmax), Dc = min(Do, max(Di, vc/(pi nmax)))",
      "integral of the definition; GATE Production and Industrial 2013, facing question"};
};

/// Any straight or curved path at constant surface speed: the surface it sweeps over v f (Pappus).
struct SweptTime {
  template <class N = double>
  struct Inputs {
    AreaOf<N> swept_surface;
    SpeedOf<N> surface_speed;
    LengthOf<N> feed;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.swept_surface / (given.surface_speed * given.feed)};
  }
  static constexpr Identity identity{
      "swept-time",
      std::array{needed("swept-surface", "S", unit::mm2, 0, 1e12),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100)},
      std::array{result("time", "t", unit::min)}, "t = S / (vc f)",
      "integral of dt = 2 pi r ds / (vc f); theorem of Pappus"};
};

/// A straight path whose diameter changes along it: a cone or a face, with the clamp.
struct SlopedPathTime {
  template <class N = double>
  struct Inputs {
    LengthOf<N> large_diameter, small_diameter, path_length, feed;
    SpeedOf<N> surface_speed;
    FrequencyOf<N> fastest_speed;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> clamp_diameter;
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, d, L, f, vc, nmax] = given;
    const LengthOf<N> Dc = clamp_diameter<N>(D, d, vc, nmax);
    return {Dc,
            L / (D - d) * (pi * (square(D) - square(Dc)) / (2.0 * vc * f) + (Dc - d) / (f * nmax))};
  }
  static constexpr Identity identity{
      "sloped-path-time",
      std::array{needed("large-diameter", "D", unit::mm, 0.01, 20000),
                 needed("small-diameter", "d", unit::mm, 0, 20000),
                 needed("path-length", "L", unit::mm, 0.001, 100000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("fastest-speed", "nmax", unit::rev_per_min, 0.01, 200000)},
      std::array{result("clamp-diameter", "Dc", unit::mm), result("time", "t", unit::min)},
      "t = L/(D - d) (pi (D^2 - Dc^2)/(2 vc f) + (Dc - d)/(f nmax)), Dc = min(D, max(d, vc/(pi "
      "nmax)))",
      "integral of dt = pi D ds / (vc f), theorem of Pappus; D is linear along the path"};
};

/// A curved path that lies wholly above or wholly below the clamp.
struct CurvedPathTime {
  template <class N = double>
  struct Inputs {
    AreaOf<N> swept_surface;
    LengthOf<N> path_length, feed;
    SpeedOf<N> surface_speed;
    FrequencyOf<N> fastest_speed;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [S, L, f, vc, nmax] = given;
    return {max(S / (vc * f), L / (f * nmax))};
  }
  static constexpr Identity identity{
      "curved-path-time",
      std::array{needed("swept-surface", "S", unit::mm2, 0, 1e12),
                 needed("path-length", "L", unit::mm, 0.001, 100000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("fastest-speed", "nmax", unit::rev_per_min, 0.01, 200000)},
      std::array{result("time", "t", unit::min)}, "t = max(S / (vc f), L / (f nmax))",
      "theorem of Pappus; exact where the path does not cross the clamp diameter"};
};

struct TaperTurningTime {
  template <class N = double>
  struct Inputs {
    LengthOf<N> large_diameter, small_diameter, length, feed;
    SpeedOf<N> surface_speed;
  };
  template <class N = double>
  struct Results {
    FrequencyOf<N> spindle_speed_at_large, spindle_speed_at_small;
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, d, l, f, vc] = given;
    return {vc / (pi * D), vc / (pi * d), pi * l * (D + d) / (2.0 * vc * f)};
  }
  static constexpr Identity identity{
      "taper-turning-time",
      std::array{needed("large-diameter", "D", unit::mm, 0.01, 20000),
                 needed("small-diameter", "d", unit::mm, 0.01, 20000),
                 needed("length", "l", unit::mm, 0.001, 100000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000)},
      std::array{result("spindle-speed-at-large", "n1", unit::rev_per_min),
                 result("spindle-speed-at-small", "n2", unit::rev_per_min),
                 result("time", "t", unit::min)},
      "t = pi l (D + d)/2 / (vc f); n1 = vc/(pi D), n2 = vc/(pi d)",
      "integral of the definition; any handbook"};
};

struct DrillingTime {
  template <class N = double>
  struct Inputs {
    LengthOf<N> diameter, depth, feed;
    FrequencyOf<N> spindle_speed;
    Pure<N> point_angle;
    LengthOf<N> approach, overrun;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> point_length;
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, depth, f, n, point, la, lu] = given;
    // 180 degrees is a flat drill: no point.
    const bool flat = value_of(point.si) >= pi * (1 - 1e-12);
    const LengthOf<N> A = flat ? LengthOf<N>(N(0.0)) : LengthOf<N>(D / (2.0 * tan(point / 2.0)));
    return {A, (depth + A + la + lu) / (f * n)};
  }
  static constexpr Identity identity{
      "drilling-time",
      std::array{needed("diameter", "D", unit::mm, 0.01, 1000),
                 needed("depth", "l", unit::mm, 0.001, 10000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000),
                 optional("point-angle", "2k", unit::deg, 180, 1, 180),
                 optional("approach", "la", unit::mm, 0, 0, 1000),
                 optional("overrun", "lu", unit::mm, 0, 0, 1000)},
      std::array{result("point-length", "A", unit::mm), result("time", "t", unit::min)},
      "A = (D/2) / tan(point/2); t = (l + A + la + lu) / (f n)",
      "M. P. Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, section 22.2 (from "
      "memory); books differ on counting the point"};
};

struct ThreadingTime {
  template <class N = double>
  struct Inputs {
    LengthOf<N> length, lead;
    FrequencyOf<N> spindle_speed;
    Pure<N> passes;
    TimeOf<N> return_time;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.passes * (given.length / (given.lead * given.spindle_speed) + given.return_time)};
  }
  static constexpr Identity identity{
      "threading-time",
      std::array{needed("length", "l", unit::mm, 0.001, 100000),
                 needed("lead", "p", unit::mm, 0.001, 1000),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000),
                 needed("passes", "i", unit::ratio, 1, 1000),
                 optional("return-time", "tr", unit::s, 0, 0, 3600)},
      std::array{result("time", "t", unit::min)}, "t = i (l / (p n) + tr)",
      "catalogue formula; any handbook"};
};

}  // namespace turnwright::figure
