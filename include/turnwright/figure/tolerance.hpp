// SPDX-License-Identifier: MIT
#pragma once
// The standard tolerance grades, a table and so never a live formula.
#include <array>
#include <cmath>

#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"

namespace turnwright::figure {

struct ToleranceGrade {
  template <class N = double>
  struct Inputs {
    LengthOf<N> size;
    Pure<N> grade;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> tolerance;
  };
  /// Upper ends of the size steps, mm; "over, up to and including".
  static constexpr std::array<double, 13> steps{3,   6,   10,  18,  30,  50, 80,
                                                120, 180, 250, 315, 400, 500};
  static constexpr std::array<std::array<double, 13>, 10> micrometres{{
      {4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27},
      {6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40},
      {10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63},
      {14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97},
      {25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155},
      {40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250},
      {60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400},
      {100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630},
      {140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970},
      {250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300, 1400, 1550},
  }};
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const double size = value_of(given.size.si) * 1000.0;
    std::size_t step = 0;
    while (step + 1 < steps.size() && size > steps[step] + whole_slack) ++step;
    const auto row = static_cast<std::size_t>(std::lround(value_of(given.grade.si)) - 5);
    return {LengthOf<N>(N(micrometres[row][step] * 1e-6))};
  }
  static constexpr Identity identity{
      "tolerance-grade",
      std::array{needed("size", "D", unit::mm, 0.001, 500),
                 needed("grade", "IT", unit::ratio, 5, 14)},
      std::array{result("tolerance", "IT", unit::um)},
      "table; i = 0.45 D^(1/3) + 0.001 D (um, mm), IT6 = 10 i, IT7 = 16 i …",
      "ISO 286-1:2010 table 1 (transcript to 315 mm; 315-500 mm from memory)"};
};

}  // namespace turnwright::figure
