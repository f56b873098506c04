// SPDX-License-Identifier: MIT
#pragma once
// How much of the work the jaws hold, and how fast the chuck may then run.
#include "clamping/layout.hpp"

namespace turnwright {

/// Lengths held in rough work, the least without a warning, and the least at all.
Length full_grip(const PlanContext& context, Length diameter);
/// The bar goes through the spindle: it stands out only as far as it is cut.
bool goes_through_spindle(const PlanContext& context);
/// What stands out where a long bar is faced and centred, most of it in the spindle.
Length facing_out(const PlanContext& context, const Operation& operation);
/// As a turner grips: as long as the jaws are, where the work has so much to hold.
Length best_grip(const PlanContext& context, Length diameter, Length there);
Length fair_grip(const PlanContext& context, Length diameter);
Length shortest_grip(const PlanContext& context, Length diameter);
/// What the chuck alone has to hold at least of work that stands out so far: a fair grip does; 0 of
/// a disc, that leans on its face.
Length lever_grip(const PlanContext& context, Length diameter, Length stick_out);
/// What is held as a rule; less where the context says so.
Length grip_length(const PlanContext& context, Length diameter);
/// The least that is worth planning on: a fair grip, or a short one.
Length least_grip(const PlanContext& context, Length diameter);
/// How far right the jaws may end on such work, local z: what is too large for the spindle stays in
/// front of it, no further behind the jaws' face than they are deep.
Length reach_of_jaws(const PlanContext& context, const Outline& work);
Length jaw_clearance(const PlanContext& context);
/// Notes where the jaws are, from local z.
void set_grip(Operation& operation, const View& view, Length local_from, Length local_to);
/// The machine with its chuck as fast as these jaws allow.
Machine with_chuck_speed(const PlanContext& context, const Operation& operation);

}  // namespace turnwright
