// SPDX-License-Identifier: MIT
#pragma once
// The machine for a job: the one asked for, or the shop's first that takes it.
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/route/job.hpp"

namespace turnwright {

struct MachineChoice {
  const Machine* machine = nullptr;  // none: why_not says why
  std::string why_not, would_help;
  std::vector<std::string> cautions;
};

MachineChoice choose_machine(const Job& job, const Shop& shop, std::string_view wanted, Mass blank);

}  // namespace turnwright
