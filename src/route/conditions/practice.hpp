// SPDX-License-Identifier: MIT
#pragma once
// The numbers of the trade that cutting conditions and bending are worked out with, each with where
// it comes from.
#include "turnwright/quantity/quantity.hpp"

namespace turnwright::practice {

// ---- what jaws hold
inline constexpr double friction_at_jaws = 0.2;  // hard jaws on steel, from memory
inline constexpr double axial_grip = 0.2;        // friction along the axis, as across (from memory)
inline constexpr double grip_safety = 2.5;       // of what jaws hold, common practice

// ---- turning
// Half the table's speed on power alone: a smaller depth is the better change (from memory).
inline constexpr double least_speed_on_power = 0.5;

// ---- holes and threads
inline constexpr double drill_feed_share = 0.016;  // of the diameter, a drill maker's guide
inline constexpr double reamer_feed_factor = 2.5;  // two to three times the drill's (from memory)
inline constexpr double deep_from = 3;            // diameters: a drill slows down (deep-hole table)
inline constexpr double threading_share = 0.7;    // of the rapid speed, 60 to 80 % (from memory)
inline constexpr Speed half_nut_speed(0.6 / 60);  // faster, nobody opens them in time (from memory)

// ---- bending
inline constexpr double centre_compliance = 2e-8;   // m/N, a live centre; typical
inline constexpr double steady_compliance = 2e-8;   // m/N, three jaws of a steady rest; typical
inline constexpr Length follow_rest_behind(0.015);  // the tool; typical

}  // namespace turnwright::practice
