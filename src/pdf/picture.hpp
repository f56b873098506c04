// SPDX-License-Identifier: MIT
#pragma once
#include <string>

#include "turnwright/output/drawing.hpp"

namespace turnwright::pdf {

/// A drawing as PNG, so many pixels a unit of it; empty where that cannot be.
std::string picture_of(const paper::Drawing& drawing, double pixels);

}  // namespace turnwright::pdf
