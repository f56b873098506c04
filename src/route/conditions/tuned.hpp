// SPDX-License-Identifier: MIT
#pragma once
#include "conditions/limits.hpp"

namespace turnwright {

/// Speed and feed of the least cost or time of this cut under every limit, instead of the table's:
/// a minute of the machine, an edge and its change, by the tool life of the grade. Nothing under
/// the handbook's rule, and for tools that plunge or work a hole.
void tune(CutState& state);

}  // namespace turnwright
