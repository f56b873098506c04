// SPDX-License-Identifier: MIT
#pragma once
// Which surfaces a step finishes: those it brings to the part's shape.
#include "steps/workpiece.hpp"

namespace turnwright {

/// A thread or a knurl is made on the surface by a later step, and the surface gauged after that.
bool has_later_step(const Job& job, const Surface& surface);

/// Gauges the outside surfaces that are made between two outsides, local coordinates, each in the
/// step that leaves (nearly) nothing above it. The finest roughness asked for on what it reaches of
/// them; 0: none.
Length gauge_made(const OperationContext& op, const Outline& before, const Outline& after,
                  Step& step);

}  // namespace turnwright
