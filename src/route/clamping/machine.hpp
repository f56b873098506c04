// SPDX-License-Identifier: MIT
#pragma once
// The machines for a job: the one asked for, or all that take it, the shop's first before.
#include <string_view>

#include "clamping/layout.hpp"

namespace turnwright {

/// The machines that take the job, best first, never empty; why the shop's first does not.
struct MachineChoice {
  std::vector<const Machine*> machines;
  Message usual_why;
};

Planned<MachineChoice> choose_machines(const Job& job, const Shop& shop, std::string_view wanted,
                                       Mass blank);

/// "on Tarn CNC 1: why".
Message on_machine(const Machine& machine, Message why);

/// A cone that only the tailstock set over turns: the work runs between two centres, in no chuck.
bool set_over_needed(const PlanContext& context);

/// A manual lathe turns a cone with its compound slide, or a slender one with the tailstock set
/// over, and a radius only with a form tool. Cautions, none on a CNC lathe.
Planned<Messages> contours_by_hand(const PlanContext& context);

}  // namespace turnwright
