// SPDX-License-Identifier: MIT
#pragma once
// Handbook conditions against tuned ones, step beside step, with what limits each and its proof.
#include <string>

#include "turnwright/compare/tuned.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// Only where both are feasible.
std::string tuned_text(const Tuned& tuned, const Shop& shop, const Words& words);
std::string tuned_json(const Tuned& tuned, const Shop& shop);
std::string effects_text(const ShopEffects& effects, const Shop& shop, const Words& words);

}  // namespace turnwright
