// SPDX-License-Identifier: MIT
#pragma once
// The machine for a job: the one asked for, or the shop's first that takes it.
#include <string_view>

#include "clamping/layout.hpp"

namespace turnwright {

struct MachineChoice {
  const Machine* machine = nullptr;  // never null
  Messages cautions;
};

Planned<MachineChoice> choose_machine(const Job& job, const Shop& shop, std::string_view wanted,
                                      Mass blank);

/// A manual lathe turns a cone with its compound slide, or a slender one with the tailstock set
/// over, and a radius only with a form tool. Cautions, none on a CNC lathe.
Planned<Messages> contours_by_hand(const PlanContext& context);

}  // namespace turnwright
