// SPDX-License-Identifier: MIT
#pragma once
// What the planner takes from the practice of the trade: rates/practice.yaml, where each row says
// what it means and where it comes from.
#include <map>
#include <string>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"
#include "turnwright/shop/machine.hpp"

namespace turnwright {

using Compliance = Quantity<Dim{0, -1, 2}>;  // length per force

/// Reading makes sure that every row is there.
struct Practice {
  // ---- the part made ready
  Length thread_blank_under_size{};  // radial
  Length finest_turned{};            // roughness
  int rough_grade = 0;               // IT
  Length rough_roughness{};
  double o_ring_width = 0;         // of the section
  double o_ring_depth = 0;         // of the section
  double least_runout_groove = 0;  // pitches
  Length least_wall{};
  Length least_cored{};
  Length drilled_under_fit{};
  Length drilled_under_size{};
  int finest_reamed = 0;           // IT
  int coarsest_reamed = 0;         // IT
  Length left_for_grinding{};      // on diameter
  Length ground_seat_turned_to{};  // plus and minus
  Length ground_seat_roughness{};

  // ---- the machine
  Length flange_in_front{};
  Length largest_form_radius{};
  Length most_set_over{};

  // ---- the clamping
  double full_grip = 0;  // of the diameter, as the next three
  double fair_grip = 0;
  double short_grip = 0;
  double usual_grip = 0;
  Length least_grip{};
  Length least_short_grip{};
  double rim_grip = 0;  // of the diameter
  Length least_rim_grip{};
  double lever_grip = 0;  // of the stick-out
  double disc = 0;        // stick-out over the diameter held
  double length_out = 0;  // of the diameter
  Length short_grip_clearance{};
  Length grip_inside_edge{};
  double chuck_ratio = 0;  // stick-out over diameter, as the next three
  double centre_ratio = 0;
  double short_grip_centre_ratio = 0;
  double overhang_depth = 0;  // of the diameter, a rough cut far out without a centre
  double parting_ratio = 0;
  double rest_ratio = 0;
  double rest_needed = 0;
  double mostly_plain = 0;  // of the free length
  double check_margin = 0;  // on what the jaws hold
  int soft_jaws_grade = 0;  // IT
  Length soft_jaws_roughness{};
  double thin_wall = 0;  // over diameter
  Length least_mandrel{};
  int mandrel_grade = 0;  // IT
  int bar_by_hand = 0;    // pieces of a lot
  double rated_grip = 0;  // of the chuck's diameter
  double unbalanced = 0;  // of the chuck's speed
  Length overlap{};
  double facing_stick_out = 0;  // of the diameter
  double facing_share = 0;      // of the length
  Length dog_length{};
  Length driver_length{};
  Length finish_depth_fit{};
  Length finish_depth{};

  // ---- what is left for the finishing cut
  Length finish_allowance_cnc{};     // a side
  Length finish_allowance_manual{};  // a side
  Length finish_allowance_small{};   // a side, of slight work on a CNC lathe
  Length slight_work{};              // diameter of the stock
  Length axial_allowance{};

  // ---- moves
  Length approach{};
  Length plunge_approach{};
  Length clear_of_work{};
  Length tailstock_travel{};
  Length through_by{};

  // ---- facing
  Length face_last{};
  Length face_in_one{};
  Length face_depth{};
  Length casting_face_depth{};

  // ---- roughing
  Length shortest_shoulder{};
  Length scale_depth{};
  double depth_slack = 0;  // of the depth
  Length sliver{};

  // ---- finishing
  Length more_than_allowance{};  // a side, that the finishing cut may find beside its depth
  Length least_recess{};         // along the axis; what is narrower is left to the last cut
  double sideways_worth = 0;     // of what a copying tool removes, what a grooving tool must
  Length smallest_edge{};
  int two_equal_cuts_to = 0;   // IT
  int fine_to = 0;             // IT
  int one_trial_cut_to = 0;    // IT
  int two_trial_cuts_to = 0;   // IT
  int lengths_gauged_as = 0;   // IT
  int threads_gauged_as = 0;   // IT
  int bending_matters_to = 0;  // IT
  double lighter_feed = 0;     // of the feed before

  // ---- plunging
  double side_turning_share = 0;  // of the tool's width
  double plunge_share = 0;        // of the tool's width
  double wide_in_tools = 0;       // tools
  double wide_in_depths = 0;      // depths
  Length groove_floor_cut{};
  Length part_off_slow_radius{};
  double part_off_slow_feed = 0;  // of the feed

  // ---- drilling
  Length flat_stop{};
  Length pilot_above{};
  double pilot_share = 0;  // of the drill
  double pilot_slack = 0;  // on its share
  Length own_drill_worth{};
  Length worth_drilling{};
  double peck_from = 0;   // diameters
  double spot_width = 0;  // of the centre drill's pilot

  // ---- boring
  Length bore_finish{};  // a side
  Length least_bore_rough{};
  double spring_pass_from = 0;  // shanks
  Length widest_edge{};

  // ---- knurls and threads
  Length clear_of_jaws{};
  Length knurl_feed{};  // per revolution
  int knurl_passes = 0;
  double run_in_pitches = 0;
  double shoulder_run_out_pitches = 0;  // what a thread is short of at a shoulder
  double tap_run_out_pitches = 0;

  // ---- what the jaws hold
  double friction_at_jaws = 0;
  double axial_grip = 0;
  double grip_safety = 0;  // of what the jaws hold

  // ---- cutting conditions
  double least_speed_on_power = 0;  // of the table's
  double drill_feed_share = 0;      // of the diameter
  double reamer_feed_factor = 0;    // on the drill's
  double deep_from = 0;             // diameters
  Speed threading_carriage{};       // along the axis, what threads are cut at at most
  double threading_share = 0;       // of the rapid speed
  Speed half_nut_speed{};
  Length hole_table_depth{};
  Length thread_table_depth{};

  // ---- bending
  Compliance centre_compliance{};
  Compliance steady_compliance{};
  Length follow_rest_behind{};

  // ---- one cut at the lathe
  double speed_band = 0;     // of the spindle speed
  double first_feed = 0;     // of the depth
  double careful_below = 0;  // of the usual value
  double brave_above = 0;    // of the usual value

  std::map<std::string, Source> sources;  // by the record's name

  /// What this machine leaves for the finishing cut of such stock, a side.
  Length finish_allowance(const Machine& machine, Length stock) const {
    if (machine.manual()) return finish_allowance_manual;
    return stock < slight_work ? min(finish_allowance_small, finish_allowance_cnc)
                               : finish_allowance_cnc;
  }
};

}  // namespace turnwright
