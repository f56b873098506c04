// SPDX-License-Identifier: MIT
#pragma once
// What the planner takes from the practice of the trade. Each with where it comes from.
#include "turnwright/quantity/unit.hpp"

namespace turnwright::practice {

// ---- the part made ready
inline constexpr Length thread_blank_under_size =
    0.075 * unit::mm;  // radial: the crest is not cut again,
                       // 0.1-0.2 on diameter (common practice)
// A roughing cut gives IT11 and Ra 6.3 at best (process capability, from memory).
inline constexpr int rough_grade = 11;
inline constexpr Length rough_roughness(6.3e-6);
// Static seal, of the section (from memory).
inline constexpr double o_ring_width = 1.33;
inline constexpr double o_ring_depth = 0.8;
inline constexpr double least_runout_groove =
    2;                                       // pitches that let a threading tool out (from memory)
inline constexpr Length least_wall(0.3e-3);  // thinner is no wall: a slip of the pen
inline constexpr Length least_cored(30e-3);  // smaller holes are cast solid (from memory)
// How far under a bored size its hole is drilled: 1 to 2 mm (common practice).
inline constexpr Length drilled_under_fit(1.5e-3);
inline constexpr Length drilled_under_size(1e-3);
inline constexpr int finest_reamed = 6;  // H6 to H9 in the sizes of the reamers (common practice)
inline constexpr int coarsest_reamed = 9;
// On diameter, 0.25-0.38 in a machine-shop training text (issuhub 4752, p. 40).
inline constexpr Length left_for_grinding(0.3e-3);
// What the turned seat has to hold before it is ground: about IT10, Ra 3.2 (common practice).
inline constexpr Length ground_seat_turned_to(0.05e-3);
inline constexpr Length ground_seat_roughness(3.2e-6);

// ---- the machine
inline constexpr Length flange_in_front(60e-3);  // that the tool reaches over the slide (typical)
inline constexpr Length largest_form_radius(10e-3);  // of a tool without chatter (from memory)
inline constexpr Length most_set_over(12e-3);        // of a tailstock, 10-15 mm (from memory)

// ---- the clamping
// Lengths held, of the diameter (from memory): half of it in rough work; less is warned of below
// 0.3; a disc or flange is held on less still, with care.
inline constexpr double full_grip = 0.5;
inline constexpr double fair_grip = 0.3;
inline constexpr double short_grip = 0.06;
inline constexpr Length least_grip = 10.0 * unit::mm;  // of full and fair grip
inline constexpr Length least_short_grip = 5.0 * unit::mm;
inline constexpr Length short_grip_clearance =
    1.0 * unit::mm;  // between tool and jaws (from memory)
inline constexpr Length grip_inside_edge =
    1.0 * unit::mm;  // the jaws end so far inside (from memory)
// Stick-out over diameter (common practice; trade guide on deflection).
inline constexpr double chuck_ratio = 3;              // the chuck alone, up to here
inline constexpr double centre_ratio = 5;             // a centre, above this
inline constexpr double short_grip_centre_ratio = 1;  // the same on a short grip (from memory)
inline constexpr double rest_ratio = 10;              // a rest, above 10 to 12 (from memory)
inline constexpr double mostly_plain = 0.6;  // of the free length: a follow rest runs (from memory)
// A tie within a third of what jaws hold: every piece checked (from memory).
inline constexpr double check_margin = 1.34;
inline constexpr int soft_jaws_grade = 7;  // of a toleranced seat (from memory)
inline constexpr Length soft_jaws_roughness(1.6e-6);
inline constexpr double thin_wall = 0.08;  // over diameter: hard jaws squeeze it oval (from memory)
inline constexpr Length least_mandrel(6e-3);  // a thinner one bends (from memory)
inline constexpr int mandrel_grade = 8;       // of the bore (from memory)
// The chuck's rated speed holds for jaws up to this share of its diameter; further out they pull
// away with the root of the radius (from memory).
inline constexpr double rated_grip = 0.5;
inline constexpr double unbalanced =
    0.5;                                  // of the chuck's speed: castings, four jaws (from memory)
inline constexpr Length overlap(1.5e-3);  // past the edge of the cut-over, 1-2 mm (from memory)
// Held for facing and centring only (from memory).
inline constexpr double facing_stick_out = 1.5;  // of the diameter
inline constexpr double facing_share = 0.5;      // of the length
// What a dog or a face driver takes of the end (from memory).
inline constexpr Length dog_length = 20.0 * unit::mm;
inline constexpr Length driver_length = 3.0 * unit::mm;
// The last cut is at most so deep (from memory).
inline constexpr Length finish_depth_fit = 0.5 * unit::mm;
inline constexpr Length finish_depth = 1.0 * unit::mm;

}  // namespace turnwright::practice
