// SPDX-License-Identifier: MIT
#pragma once
// What one input does, by changing it and planning everything again: steps and jumps are in it. No
// slope is used.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "turnwright/compare/compare.hpp"

namespace turnwright {

/// An input of the price that can be larger or smaller by a factor.
enum class InputId {
  machine_hour,
  person_hour,
  person_share,
  material_price,
  cutting_speeds,
  feeds,
  finishing_depth,
  cutting_force,
  insert_life,
  insert_price,
  tool_change,
  handling,
  setup,
  machine_power,
  outside_prices
};
/// How JSON spells it; the words stand under "input." and this.
const char* name_of(InputId input);
struct ChangeableInput {
  InputId input;
  std::function<void(Shop&, double factor)> change;
};
/// All inputs, in the order of InputId.
const std::vector<ChangeableInput>& changeable_inputs();

/// The price each at a quantity when an input is a tenth lower and higher.
struct Sensitivity {
  InputId input;
  Money lower, higher;
  double widest = 0;  // share of the price, without its sign
};
/// Of a method, the widest first; the price is not rounded to steps, so that a tenth shows.
std::vector<Sensitivity> sensitivities(const Part& part, const Shop& shop,
                                       const MethodResult& method, int quantity);

/// The smallest change of one input with which another method leads that is not as good, within the
/// shop's band, today.
struct WinnerChange {
  InputId input;
  double factor = 1;   // that many times what it is
  std::string leader;  // then
};
/// Every input that changes the winner between a fifth and five times itself, the smallest change
/// first; of the methods, those that come nearest to the winner.
std::vector<WinnerChange> winner_changes(const Part& part, const Shop& shop,
                                         const Comparison& comparison, int quantity);

/// Which method leads by stock per side and quantity.
struct MethodMap {
  std::vector<Length> stock;  // per side, over the finished largest diameter
  std::vector<int> quantities;
  std::vector<std::vector<int>> method;  // by stock, by quantity: of `names`, -1: none is possible
  std::vector<std::string> names;
};
/// Of the methods of a comparison, on round bar from a quarter of a millimetre per side to six;
/// nothing where the part is no bar work.
std::optional<MethodMap> method_map(const Part& part, const Shop& shop,
                                    const Comparison& comparison, int rows, int columns);

}  // namespace turnwright
