// SPDX-License-Identifier: MIT
#pragma once
// Single-point threads: depth, lead, infeed.
#include <cmath>

#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"

namespace turnwright::figure {

enum class ThreadKind { external, internal };

struct ThreadDepth {
  template <class N = double>
  struct Inputs {
    LengthOf<N> pitch;
    ThreadKind kind = ThreadKind::external;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> depth;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    // H = sqrt(3)/2 P; outside 17/24 H to the rounded root, inside 5/8 H.
    const double share = given.kind == ThreadKind::external ? 17.0 / 24.0 : 5.0 / 8.0;
    return {share * std::sqrt(3.0) / 2.0 * given.pitch};
  }
  static constexpr Identity identity{
      "thread-depth",
      std::array{needed("pitch", "P", unit::mm, 0.01, 100),
                 choice("kind", {"external", "internal", ""})},
      std::array{result("depth", "h", unit::mm)},
      "h = 17/24 H = 0.61343 P outside, 5/8 H = 0.54127 P inside, H = sqrt(3)/2 P",
      "ISO 68-1:1998 basic profile; ISO 965-1 rounded root"};
};

struct ThreadLead {
  template <class N = double>
  struct Inputs {
    LengthOf<N> pitch;
    Pure<N> starts;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> lead;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.starts * given.pitch};
  }
  static constexpr Identity identity{"thread-lead",
                                     std::array{needed("pitch", "P", unit::mm, 0.01, 100),
                                                needed("starts", "s", unit::ratio, 1, 100)},
                                     std::array{result("lead", "L", unit::mm)}, "L = s P",
                                     "definition; ISO 5408"};
};

struct ThreadInfeed {
  template <class N = double>
  struct Inputs {
    LengthOf<N> depth;
    Pure<N> passes, first_weight;
  };
  template <class N = double>
  struct Results {
    List<Dim{1}, N> infeeds;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    Results<N> found;
    const int passes = static_cast<int>(std::lround(value_of(given.passes.si)));
    for (int i = 1; i <= passes; ++i) {
      const Pure<N> weight = i == 1 ? given.first_weight : Pure<N>(N(i - 1.0));
      found.infeeds.push_back(passes == 1 ? given.depth
                                          : given.depth * sqrt(weight / (given.passes - 1.0)));
    }
    return found;
  }
  static constexpr Identity identity{
      "thread-infeed",
      std::array{needed("depth", "h", unit::mm, 0.001, 100),
                 needed("passes", "N", unit::ratio, 1, 200),
                 optional("first-weight", "w", unit::ratio, 0.3, 0.05, 1)},
      std::array{results("infeeds", "x_i", unit::mm)},
      "x_1 = h sqrt(w/(N-1)), x_i = h sqrt((i-1)/(N-1))",
      "weights of a tool maker's catalogue 2020-21, p. 1733; form from memory"};
};

struct ThreadGrooveVolume {
  template <class N = double>
  struct Inputs {
    LengthOf<N> diameter, pitch, depth, length;
    Pure<N> half_angle;
    ThreadKind kind = ThreadKind::external;
  };
  template <class N = double>
  struct Results {
    VolumeOf<N> volume;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    // A trapezoid that leaves a crest of an eighth of the pitch, turned about the axis, a groove in
    // every pitch of the length.
    const LengthOf<N> mouth = 0.875 * given.pitch;
    const LengthOf<N> floor = mouth - 2.0 * given.depth * tan(given.half_angle);
    const AreaOf<N> section = given.depth * (mouth + floor) / 2.0;
    const LengthOf<N> centre = given.depth * (mouth + 2.0 * floor) / (3.0 * (mouth + floor));
    const LengthOf<N> radius = given.kind == ThreadKind::external ? given.diameter / 2.0 - centre
                                                                  : given.diameter / 2.0 + centre;
    return {2.0 * (pi * radius) * section * (given.length / given.pitch)};
  }
  static constexpr Identity identity{
      "thread-groove-volume",
      std::array{needed("diameter", "d", unit::mm, 0.1, 20000),
                 needed("pitch", "P", unit::mm, 0.01, 100),
                 needed("depth", "h", unit::mm, 0.001, 100),
                 needed("length", "l", unit::mm, 0.001, 100000),
                 optional("half-angle", "alpha", unit::deg, 30, 1, 60),
                 choice("kind", {"external", "internal", ""})},
      std::array{result("volume", "V", unit::mm3)},
      "V = 2 pi r A l/P, A = h (a + b)/2, a = 7/8 P, b = a - 2 h tan(alpha), r at the middle of A",
      "theorem of Pappus on the basic profile of ISO 68-1:1998, root rounding left out"};
};

struct KnurlStartDiameter {
  template <class N = double>
  struct Inputs {
    LengthOf<N> diameter, pitch;
    Pure<N> share;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> start_diameter;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.diameter - given.share * given.pitch};
  }
  static constexpr Identity identity{
      "knurl-start-diameter",
      std::array{needed("diameter", "d", unit::mm, 0.1, 20000),
                 needed("pitch", "t", unit::mm, 0.1, 10),
                 optional("share", "k", unit::ratio, 0.5, 0, 2)},
      std::array{result("start-diameter", "d1", unit::mm)},
      "d1 = d - k t; k 0.5 RAA, RBL, RBR; 0.67 RGE, RKE; 0.33 RGV, RKV", "DIN 82, from memory"};
};

}  // namespace turnwright::figure
