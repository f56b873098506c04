// SPDX-License-Identifier: MIT
#pragma once
// Tapers.
#include "turnwright/figure/identity.hpp"

namespace turnwright::figure {

struct TaperAngle {
  template <class N = double>
  struct Inputs {
    LengthOf<N> large_diameter, small_diameter, length;
  };
  template <class N = double>
  struct Results {
    Pure<N> half_angle, ratio;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const Pure<N> ratio = (given.large_diameter - given.small_diameter) / given.length;
    return {atan(ratio / 2.0), ratio};
  }
  static constexpr Identity identity{
      "taper-angle",
      std::array{needed("large-diameter", "D", unit::mm, 0.001, 20000),
                 needed("small-diameter", "d", unit::mm, 0, 20000),
                 needed("length", "l", unit::mm, 0.001, 100000)},
      std::array{result("half-angle", "a", unit::deg), result("ratio", "C", unit::ratio)},
      "tan a = (D - d)/(2 l); C = (D - d)/l", "definition; ISO 3040"};
};

struct TailstockOffset {
  template <class N = double>
  struct Inputs {
    LengthOf<N> large_diameter, small_diameter, taper_length, work_length;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> offset;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, d, l, L] = given;
    return {L * (D - d) / (2.0 * l)};
  }
  static constexpr Identity identity{
      "tailstock-offset",
      std::array{needed("large-diameter", "D", unit::mm, 0.001, 20000),
                 needed("small-diameter", "d", unit::mm, 0, 20000),
                 needed("taper-length", "l", unit::mm, 0.001, 100000),
                 needed("work-length", "L", unit::mm, 0.001, 100000)},
      std::array{result("offset", "s", unit::mm)}, "s = L (D - d)/(2 l)",
      "University lathe notes, worked example; any handbook"};
};

}  // namespace turnwright::figure
