// SPDX-License-Identifier: MIT
#pragma once
// Times beside cutting: handling elements, chips, gauging frequency, setup.
#include <string>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"
#include "turnwright/shop/machine.hpp"

namespace turnwright {

struct HandlingElement {
  std::string name;
  Time manual{}, cnc{};
  Source source;

  Time on(MachineKind kind) const { return kind == MachineKind::manual ? manual : cnc; }
};

/// Load and unload by the mass of the work.
struct LoadTimes {
  std::vector<Mass> up_to;
  std::vector<Time> manual, cnc;
  Source source;
};

struct ChipShare {
  std::string name;  // long, short
  double manual = 0, cnc = 0;
  Source source;
};

struct GaugingShare {
  int from_grade = 0;  // this IT grade and coarser, down to the next row
  double share = 1;
  Source source;
};

}  // namespace turnwright
