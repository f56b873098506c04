// SPDX-License-Identifier: MIT
#pragma once
// Roughness from feed and edge.
#include "turnwright/figure/identity.hpp"

namespace turnwright::figure {

struct Roughness {
  template <class N = double>
  struct Inputs {
    LengthOf<N> feed, nose_radius;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> Ra, Rt;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {square(given.feed) / (32.0 * given.nose_radius),
            square(given.feed) / (8.0 * given.nose_radius)};
  }
  static constexpr Identity identity{
      "roughness",
      std::array{needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("nose-radius", "r", unit::mm, 0.001, 100)},
      std::array{result("Ra", "Ra", unit::um), result("Rt", "Rt", unit::um)},
      "Rt = f^2/(8 r); Ra = f^2/(32 r) (the exact mean of the arc is f^2/(18 sqrt(3) r))",
      "Mitsubishi Materials, Technical information, theoretical finished surface roughness; exact "
      "mean in P. N. Rao, Manufacturing Technology vol. 2, p. 62"};
};

struct RoughnessSharp {
  template <class N = double>
  struct Inputs {
    LengthOf<N> feed;
    Pure<N> side_angle, end_angle;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> Rt;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.feed / (tan(given.side_angle) + 1.0 / tan(given.end_angle))};
  }
  static constexpr Identity identity{
      "roughness-sharp",
      std::array{needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("side-angle", "Cs", unit::deg, 0, 89),
                 needed("end-angle", "Ce", unit::deg, 0.1, 89)},
      std::array{result("Rt", "Rt", unit::um)}, "Rt = f / (tan Cs + cot Ce)",
      "A. Ghosh and A. K. Mallik, Manufacturing Science, section 4 (from memory)"};
};

}  // namespace turnwright::figure
