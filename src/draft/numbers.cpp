// SPDX-License-Identifier: MIT
#include <cmath>

#include "drafting.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

std::string written(double value, int places) {
  const double step = std::pow(10.0, -places);
  if (std::abs(value) < step / 2) value = 0;  // no -0
  std::string text = fixed(value, places);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

double in_unit(Length l, bool inch) { return inch ? in(l, unit::inch) : in(l, unit::mm); }

}  // namespace

std::string Numbers::place(Length l) const { return written(in_unit(l, inch_), inch_ ? 4 : 3); }

// Where a coarser size is meant, the finer digits of the model's points say nothing.
std::string Numbers::size(Length l) const {
  const double value = in_unit(l, inch_);
  const double coarse = inch_ ? 1e4 : 1e3, rounded = std::round(value * coarse) / coarse;
  constexpr Length noise(3e-8);
  const double points = in_unit(noise, inch_);
  return std::abs(value - rounded) < points ? written(rounded, inch_ ? 4 : 3)
                                            : written(value, inch_ ? 6 : 5);
}

std::string Numbers::degrees(double radians) { return written(radians * 180 / pi, 3); }

}  // namespace turnwright
