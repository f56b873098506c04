// SPDX-License-Identifier: MIT
#pragma once
// What a drawing says that can be read, but that a person would ask about before cutting metal:
// slips of the pen that are no fault of the file.
#include "turnwright/route/job.hpp"

namespace turnwright {

/// Each with its place in the part file; all of them are in `unconfirmed` of the job as well.
Problems doubts_of(const Job& job, const Shop& shop);

}  // namespace turnwright
