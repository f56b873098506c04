// SPDX-License-Identifier: MIT
#pragma once
// What stands beside every formula: its name, inputs and results with symbol, unit,
// default and range, and where it was published. A figure is a struct with
//   Inputs<N>, Results<N>, work_out<N>(Inputs<N>) and a static `identity`,
// whose fields stand in the order of the members.
#include <array>
#include <limits>
#include <string_view>
#include <vector>

#include "turnwright/quantity/unit.hpp"

namespace turnwright::figure {

inline constexpr double required = std::numeric_limits<double>::quiet_NaN();
inline constexpr double unlimited = std::numeric_limits<double>::infinity();

struct Field {
  std::string_view name;
  std::string_view symbol;
  Unit unit;  // shown unit; `otherwise`, `low` and `high` are in it
  double otherwise = required;
  double low = 0;
  double high = unlimited;
  bool list = false;
  std::array<std::string_view, 3> choices{};  // a choice when the first is not empty
};

/// A list of quantities; figures that take or give one have no live formula.
template <Dim D, class N = double>
using List = std::vector<Quantity<D, N>>;

constexpr Field needed(std::string_view name, std::string_view symbol, Unit unit, double low,
                       double high) {
  return {name, symbol, unit, required, low, high, false, {}};
}
constexpr Field optional(std::string_view name, std::string_view symbol, Unit unit,
                         double otherwise, double low, double high) {
  return {name, symbol, unit, otherwise, low, high, false, {}};
}
constexpr Field list(std::string_view name, std::string_view symbol, Unit unit, double low,
                     double high) {
  return {name, symbol, unit, required, low, high, true, {}};
}
constexpr Field choice(std::string_view name, std::array<std::string_view, 3> words) {
  return {name, "", unit::ratio, 0, 0, 2, false, words};
}
constexpr Field result(std::string_view name, std::string_view symbol, Unit unit) {
  return {name, symbol, unit, required, 0, unlimited, false, {}};
}
constexpr Field results(std::string_view name, std::string_view symbol, Unit unit) {
  return {name, symbol, unit, required, 0, unlimited, true, {}};
}

template <std::size_t I, std::size_t R>
struct Identity {
  std::string_view name;  // its sentence stands in the words catalogue under "figure." and this
  std::array<Field, I> inputs;
  std::array<Field, R> results;
  std::string_view formula;  // in the trade's symbols
  std::string_view source;
};
template <std::size_t I, std::size_t R>
Identity(std::string_view, std::array<Field, I>, std::array<Field, R>, std::string_view,
         std::string_view) -> Identity<I, R>;

}  // namespace turnwright::figure
