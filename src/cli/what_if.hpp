// SPDX-License-Identifier: MIT
#pragma once
// A week other than its file says, as the options ask for it.
#include "session.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright::cli {

/// True where --without or --down asks for another week.
bool asks_what_if(const Options& options);
/// What is wrong with them, or the week without those orders and with the machine down.
Message change_week(const Options& options, Week& week);

}  // namespace turnwright::cli
