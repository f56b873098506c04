// SPDX-License-Identifier: MIT
#pragma once
// Bending of round work.
#include "turnwright/figure/identity.hpp"

namespace turnwright::figure {

/// pi D^4 / 64, the second moment of area of a round bar.
template <class N>
auto second_moment(LengthOf<N> diameter) {
  return pi * square(square(diameter)) / 64.0;
}

struct DeflectionChuck {
  template <class N = double>
  struct Inputs {
    ForceOf<N> force;
    LengthOf<N> overhang, diameter;
    PressureOf<N> elastic_modulus;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> deflection;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [F, L, D, E] = given;
    return {F * L * square(L) / (3.0 * E * second_moment(D))};
  }
  static constexpr Identity identity{
      "deflection-chuck",
      std::array{needed("force", "F", unit::N, 0, 1e7),
                 needed("overhang", "L", unit::mm, 0.001, 100000),
                 needed("diameter", "D", unit::mm, 0.001, 20000),
                 needed("elastic-modulus", "E", unit::GPa, 0.001, 2000)},
      std::array{result("deflection", "y", unit::um)}, "y = F L^3/(3 E I), I = pi D^4/64",
      "Machinery's Handbook, beam formulas, cantilever with end load"};
};

struct DeflectionCentres {
  template <class N = double>
  struct Inputs {
    ForceOf<N> force;
    LengthOf<N> length, diameter;
    PressureOf<N> elastic_modulus;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> deflection;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [F, L, D, E] = given;
    return {F * L * square(L) / (48.0 * E * second_moment(D))};
  }
  static constexpr Identity identity{
      "deflection-centres",
      std::array{needed("force", "F", unit::N, 0, 1e7),
                 needed("length", "L", unit::mm, 0.001, 100000),
                 needed("diameter", "D", unit::mm, 0.001, 20000),
                 needed("elastic-modulus", "E", unit::GPa, 0.001, 2000)},
      std::array{result("deflection", "y", unit::um)}, "y = F L^3/(48 E I), I = pi D^4/64",
      "Machinery's Handbook, beam formulas, both ends supported, load in the middle"};
};

struct DeflectionChuckCentre {
  template <class N = double>
  struct Inputs {
    ForceOf<N> force;
    LengthOf<N> length, diameter;
    PressureOf<N> elastic_modulus;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> deflection;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [F, L, D, E] = given;
    return {7.0 * F * L * square(L) / (768.0 * E * second_moment(D))};
  }
  static constexpr Identity identity{
      "deflection-chuck-centre",
      std::array{needed("force", "F", unit::N, 0, 1e7),
                 needed("length", "L", unit::mm, 0.001, 100000),
                 needed("diameter", "D", unit::mm, 0.001, 20000),
                 needed("elastic-modulus", "E", unit::GPa, 0.001, 2000)},
      std::array{result("deflection", "y", unit::um)}, "y = 7 F L^3/(768 E I), I = pi D^4/64",
      "W. C. Young, Roark's Formulas for Stress and Strain, fixed and supported beam, load in the "
      "middle"};
};

}  // namespace turnwright::figure
