// SPDX-License-Identifier: MIT
#pragma once
#include "options.hpp"
#include "turnwright/cli/run.hpp"

namespace turnwright::cli {

Exit figure_command(const Options& options, const Streams& streams);

}  // namespace turnwright::cli
