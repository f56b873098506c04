// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/compare/compare.hpp"

namespace turnwright {

/// Money of `other` less `first` for a lot of this quantity, by cause.
Difference difference(const Quote& first, const Quote& other, int quantity);

/// Of those that are practised, what is held back least in a lot: mostly by nothing. One of them is
/// quoted.
std::vector<std::size_t> contenders(const std::vector<MethodResult>& methods, int quantity);
/// What a method comes to when it is planned again for a changed part or shop, with what keeps it
/// from leading there.
MethodResult plan_again(MethodPlanner& planner, const MethodResult& method, const Shop& shop);
/// The first of the cheapest contenders at a quantity, an index; -1 where there is none.
int cheapest_contender(const std::vector<MethodResult>& methods, int quantity);

/// What the part is quoted by, from the methods. `quantity`: the main one; 0 is the part's.
void judge_choice(Comparison& c, const Part& part, const Shop& shop, int quantity);
/// Who leads, why, and from where on; after the choice.
/// Methods that were asked for by name may lead as well as those that the shop practises.
void judge(Comparison& c, const Part& part, const Shop& shop, bool named = false);

}  // namespace turnwright
