// SPDX-License-Identifier: MIT
#pragma once
#include <vector>

#include "turnwright/estimate/quote.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {

/// What the setup of an operation puts on its machine, beside what always stays mounted there.
struct MountedTime {
  MountedItem item;
  int minutes = 0;
};
struct SetupSplit {
  std::vector<MountedTime> items;
  double rest = 0;   // minutes whatever is mounted
  double first = 0;  // minutes beside them where the part was not made before
};
SetupSplit split_setup(const Quote& quote, std::size_t operation);

/// In whole minutes, bounded so that sums of them stay whole numbers.
int whole_minutes(double minutes);

}  // namespace turnwright
