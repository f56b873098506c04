// SPDX-License-Identifier: MIT
#pragma once
// Handbook conditions against tuned ones, step beside step, with what holds each and its proof.
#include <string>

#include "turnwright/compare/tuned.hpp"

namespace turnwright {

std::string tuned_text(const Tuned& tuned, const Shop& shop, bool inch);
std::string tuned_json(const Tuned& tuned, const Shop& shop);
std::string effects_text(const ShopEffects& effects, const Shop& shop);

}  // namespace turnwright
