// SPDX-License-Identifier: MIT
#pragma once
// What the minutes of a step are made of.
#include <optional>

#include "text/text_writer.hpp"
#include "turnwright/estimate/times.hpp"

namespace turnwright {

/// A row for each part of a step's minutes that is not shown as zero; `first_pass` above them.
void minutes_table(TextWriter& out, std::optional<Time> first_pass, const StepTime& t);

}  // namespace turnwright
