// SPDX-License-Identifier: MIT
#pragma once
// What the kinds of roughing outside share.
#include "steps/cut.hpp"

namespace turnwright {

/// The part with what finishing is left, in this operation's zone: what no rough cut enters.
Outline rough_shape(const OperationContext& op, Length allowance);
/// The same, its walls to size: what a grooving tool makes.
Outline rough_floor(const OperationContext& op, Length allowance);

/// Levels between the shoulders of `limit`, as deep as the tool stands, and what they leave on
/// cones and arcs; commits the step where it cuts.
void rough_levels(const OperationContext& op, Workpiece& work, const Tool& tool,
                  const Outline& limit, Step step);

}  // namespace turnwright
