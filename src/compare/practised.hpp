// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/compare/compare.hpp"

namespace turnwright {

/// What a record of a method decides; two that decide the same do not go together.
enum class MethodChoice {
  stock,
  operations,
  condition,
  tools,
  conditions,
  spindle,
  pieces,
  machine,
  plan
};
MethodChoice choice_of(const Method& method);

/// Records that are planned together, on one of the machines ("": any).
struct Recipe {
  std::vector<Method> records;
  std::vector<std::string> machines;
};
/// Of every choice one record that the shop practises, or the fixed ones; what the part's stock
/// leaves no choice of is not in it. What leads at most quantities of most shops is first.
std::vector<Recipe> practised_recipes(const Part& part, const Shop& shop, const FixedMethod& fixed);

/// Why a method does not lead unasked: stock that does not clean up, bar on a lathe without a
/// feeder, conditions beyond their evidence, an edge that lasts too short; a surface that bends by
/// more than it may; a lathe that holds a coarser grade than a surface asks for.
HeldBack held_back(const Quote& quote, const Shop& shop);
/// What keeps a method from leading, whatever the others are; nothing of one that is impossible.
void judge_alone(MethodResult& method, const Shop& shop);

/// An edge that lasts less than this share of what the table's speeds stand for is beyond its
/// evidence.
inline constexpr double least_life_share = 1.0 / 3;  // a convention of ours

}  // namespace turnwright
