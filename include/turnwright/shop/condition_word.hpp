// SPDX-License-Identifier: MIT
#pragma once
#include <string>

#include "turnwright/quantity/message.hpp"

namespace turnwright {

/// The word of a stock condition: of one that ships the reader's, of the shop's own its name.
Message condition_word(const std::string& name);

}  // namespace turnwright
