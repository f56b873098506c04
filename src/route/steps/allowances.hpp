// SPDX-License-Identifier: MIT
#pragma once
// What is left on for the finishing cut, and the numbers of the trade that the steps are planned
// by, each with where it comes from.
#include "turnwright/quantity/unit.hpp"
#include "turnwright/shop/machine.hpp"

namespace turnwright {

/// The finishing allowance a side that this machine leaves.
inline Length finish_allowance(const Machine& machine) {
  // 0.3-0.5 on CNC (from memory), 0.4 to 0.75 on manual lathes (chestofbooks; P. N. Rao p. 130).
  return machine.manual() ? 0.5 * unit::mm : 0.4 * unit::mm;
}
inline constexpr Length axial_allowance(0.1e-3);  // on shoulder faces; typical

namespace practice {

// ---- moves
inline constexpr Length approach(2e-3);         // P. N. Rao p. 130: 2 mm on one side
inline constexpr Length plunge_approach(1e-3);  // of a grooving or parting tool (typical)
inline constexpr Length clear_of_work(4e-3);    // rapid moves beside the path itself (typical)
inline constexpr Length tailstock_travel(0.1);  // of a tool on the axis, out and in (typical)
inline constexpr Length through_by(2e-3);       // overrun of a drill, like its approach

// ---- facing
inline constexpr Length face_last(0.3e-3);    // last facing cut, typical
inline constexpr Length face_in_one(0.5e-3);  // faced in one cut up to here (typical)
inline constexpr Length face_depth(2e-3);     // deepest, 0.76-2.5 mm in training texts
// A casting is faced under its skin in one cut (practice: 2.5-3 mm and more, from memory).
inline constexpr Length casting_face_depth(4e-3);

// ---- roughing
inline constexpr Length shortest_shoulder(3e-3);  // shorter is an edge break or a relief
inline constexpr Length scale_depth(0.5e-3);      // a thinner first cut rubs on scale (from memory)
inline constexpr double depth_slack =
    0.02;                                  // no turner adds a pass for a fiftieth (common practice)
inline constexpr Length sliver(0.3e-3);    // thinner layers join their neighbour (from memory)
inline constexpr double usual_grip = 0.3;  // of D; jaws on less turn less (from memory)

// ---- finishing
inline constexpr Length smallest_edge(0.05e-3);  // well inside a broken edge of 0.2-0.5
inline constexpr int two_equal_cuts_to = 6;      // IT6: two cuts of equal depth (common practice)
inline constexpr int bending_matters_to = 11;    // IT; coarser is not looked at (from memory)
inline constexpr double lighter_feed = 0.8;      // a step down where the work bends (typical)

// ---- plunging
// Side turning with a grooving tool: at most this share of its width (a tool maker's catalogue
// 2019, p. 460).
inline constexpr double side_turning_share = 0.75;
// Each plunge takes so much of the tool's width (a tool maker's catalogue 2011, p. 1354).
inline constexpr double plunge_share = 0.8;
// A groove is turned sideways when it is wider than so many tools and so many depths (typical).
inline constexpr double wide_in_tools = 2, wide_in_depths = 1.5;
inline constexpr Length groove_floor_cut = 0.1 * unit::mm;  // walls and floor once more (typical)
// The last 2 mm of diameter at 30 % less feed (a tool maker's catalogue 2019, p. 460).
inline constexpr Length part_off_slow_radius(1e-3);
inline constexpr double part_off_slow_feed = 0.7;

// ---- drilling
inline constexpr Length flat_stop(0.2e-3);  // a drill stays this far above a flat bottom (typical)
inline constexpr Length pilot_above(
    20e-3);                                 // a twist drill above this is piloted (common practice)
inline constexpr double pilot_share = 0.4;  // of its diameter: about the chisel edge (from memory)
inline constexpr double pilot_slack = 1.25;  // a pilot may be so much wider (from memory)
inline constexpr Length own_drill_worth(
    1.5e-3);  // how much smaller the faster drill may be (typical)
inline constexpr Length worth_drilling(
    4e-3);                              // a wider drill saves more than the bar's passes (typical)
inline constexpr double peck_from = 3;  // diameters deep, then every diameter (from memory)
inline constexpr double spot_width = 2.5;  // of a centre drill's pilot: its body (typical)

// ---- boring
inline constexpr Length bore_finish(0.3e-3);        // a side, 0.2-0.4 from memory
inline constexpr Length least_bore_rough(0.25e-3);  // thinner is left to the finish (from memory)
inline constexpr double spring_pass_from = 4;  // shanks: a bar further out repeats its cut (memory)
inline constexpr Length widest_edge(3e-3);     // of a broken edge in a bore; a wider one is a cone

// ---- knurls and threads
inline constexpr Length clear_of_jaws(1e-3);  // a roll or a threading tool keeps off (from memory)
inline constexpr Length knurl_feed(0.3e-3);   // 0.1-0.5 from memory
inline constexpr int knurl_passes = 2;        // 1-3 from memory
inline constexpr double run_in_pitches = 3;   // three to five (from memory)
inline constexpr double tap_run_out_pitches = 2;  // beyond the full thread (from memory)

}  // namespace practice
}  // namespace turnwright
