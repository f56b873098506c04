// SPDX-License-Identifier: MIT
#pragma once
// Lengths in sentences, in the units of the part file.
#include <string>

#include "turnwright/quantity/text.hpp"
#include "turnwright/route/job.hpp"

namespace turnwright {

inline std::string length_text(const Job& job, Length l) {
  return job.part.inch ? readable(in(l, unit::inch), 5) + " in"
                       : readable(in(l, unit::mm), 5) + " mm";
}

}  // namespace turnwright
