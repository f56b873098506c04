// SPDX-License-Identifier: MIT
#pragma once
// Bars: mass, pieces.
#include <cmath>

#include "turnwright/figure/identity.hpp"

namespace turnwright::figure {

enum class Section { round, hexagon, square };

struct BarWeight {
  template <class N = double>
  struct Inputs {
    LengthOf<N> size, length;
    DensityOf<N> density;
    Section section = Section::round;
  };
  template <class N = double>
  struct Results {
    MassOf<N> mass;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const AreaOf<N> s2 = square(given.size);
    const AreaOf<N> A = given.section == Section::round     ? AreaOf<N>(pi * s2 / 4.0)
                        : given.section == Section::hexagon ? AreaOf<N>(std::sqrt(3.0) / 2.0 * s2)
                                                            : s2;
    return {A * given.length * given.density};
  }
  static constexpr Identity identity{
      "bar-weight",
      std::array{needed("size", "d", unit::mm, 0.001, 20000),
                 needed("length", "L", unit::mm, 0.001, 1e7),
                 needed("density", "rho", unit::kg_per_m3, 1, 30000),
                 choice("section", {"round", "hexagon", "square"})},
      std::array{result("mass", "m", unit::kg)},
      "m = A L rho, A = pi/4 d^2 round, sqrt(3)/2 d^2 hexagon, d^2 square", "plain geometry"};
};

struct PartsPerBar {
  template <class N = double>
  struct Inputs {
    LengthOf<N> bar_length, part_length, kerf, facing, bar_end;
  };
  template <class N = double>
  struct Results {
    Pure<N> parts;
    LengthOf<N> remainder;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [L, l, k, x, e] = given;
    const LengthOf<N> pitch = l + k + x;
    const Pure<N> parts = whole_down((L - e) / pitch);
    return {parts, L - parts * pitch};
  }
  static constexpr Identity identity{
      "parts-per-bar",
      std::array{needed("bar-length", "L", unit::mm, 0.001, 1e7),
                 needed("part-length", "l", unit::mm, 0.001, 1e6),
                 optional("kerf", "k", unit::mm, 0, 0, 1000),
                 optional("facing", "x", unit::mm, 0, 0, 1000),
                 optional("bar-end", "e", unit::mm, 0, 0, 1e6)},
      std::array{result("parts", "n", unit::ratio), result("remainder", "R", unit::mm)},
      "n = floor((L - e)/(l + k + x)); R = L - n (l + k + x)", "common practice"};
};

}  // namespace turnwright::figure
