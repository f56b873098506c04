// SPDX-License-Identifier: MIT
#pragma once
// Machine and operator time of every pass, step, element and operation, and of the setup.
#include <string>
#include <vector>

#include "turnwright/route/route.hpp"

namespace turnwright {

/// What takes time beside cutting, of each piece and of setting up. The words stand under
/// "element." and the name; those with a number have the place `count` (and `n` for the plural) or
/// `factor`.
enum class ElementId {
  load_and_unload,
  bar_advance,
  new_bar,
  door,
  clocked,
  trued_to_the_rim,
  centre,
  follow_rest,
  steady_rest,
  drawn_out,
  mandrel,
  centres_and_driver,
  start_and_stop,
  blow_off,
  gauging,
  gauging_runout,
  deburring,
  deburring_parted_edge,
  catch_the_piece,
  pack,
  own_records,
  chips,
  allowance,
  setup_machine,
  setup_drawing,
  setup_next_operation,
  setup_tools,
  setup_jaws,
  setup_soft_jaws_bored,
  setup_four_jaw_chuck,
  setup_compound_slide,
  setup_mandrel,
  setup_collet,
  setup_face_plate,
  setup_rest,
  setup_tailstock,
  setup_bar_feeder,
  setup_between_centres,
  setup_program,
  setup_program_features,
  setup_proving,
  setup_first_off_piece,
  setup_first_off_check,
  setup_own_records
};
const char* name_of(ElementId id);

/// A handling element. Internal: done at the machine while it cuts. Away: not done there, the
/// machine does not wait for it.
struct ElementTime {
  ElementId id = ElementId::chips;
  int count = 0;      // of tools, edges, sizes, where it has a number
  double factor = 1;  // of own records
  Time machine{}, person{};
  bool internal = false;
  Basis basis = Basis::typical;
  bool away = false;

  bool stops_machine() const { return !internal && !away; }
  /// What it takes of the one who does it; of the machine where that waits.
  Time shown() const { return stops_machine() ? machine : person; }
};

struct SegmentTime {
  Time cutting{}, moving{};
  Frequency start{}, end{};
  Speed at_large{}, at_small{};  // that is cut with, at its largest and smallest diameter
  Time wear{};                   // at the wanted speed that wears the edge as much
};

struct StepTime {
  std::vector<SegmentTime> segments;  // in the order of the step's
  Time cutting{}, moving{}, tool_change{}, speed_change{}, trial_cuts{}, edge_change{}, given{};
  Time machine{};        // the sum of the above
  Time life{};           // of an edge that does nothing else
  Speed steady_speed{};  // at which it would last as long
  double edge_share = 0;
  Amount edge_price{};
  Time edge_change_whole{};  // of one edge, offset included

  /// The time at the wanted speed that wears the edge as much as all stretches do.
  Time wear() const {
    Time sum(0.0);
    for (const SegmentTime& s : segments) sum += s.wear;
    return sum;
  }
  /// What does not depend on speed and feed.
  Time fixed() const { return moving + tool_change + speed_change + trial_cuts + given; }
};

struct OperationTime {
  std::vector<StepTime> steps;
  std::vector<ElementTime> elements;
  Time run{}, external{}, internal{}, away{};
  double chip_share = 0;     // chip clearing as a share of the cutting time, part of external
  Time external_fixed{};     // external without chips and allowance
  Time attended_handling{};  // inside steps, allowance applies (manual lathes)
  Time machine{}, person{};  // each piece
  std::vector<ElementTime> setup_elements;
  Time setup_fixed{};           // without the pieces run to prove it
  double first_off_cycles = 0;  // of `machine`, run to prove it
  Time setup{};
  // Of the setup, what a repeat order has none of: program, and `machine` run to prove it.
  Time first_time_fixed{};
  double first_time_cycles = 0;
  Time first_time() const { return first_time_fixed + first_time_cycles * machine; }
};

struct RouteTimes {
  std::vector<OperationTime> operations;
  Time machine_each{}, person_each{}, setup{}, first_time{};
  double allowance = 0;
  double operator_share = 1;
};

/// The relaxation and contingency allowance as a factor on attended external work, whichever time
/// it was stated on.
double allowance_factor(const Policy& policy);

/// What parting or sawing one part off the bar takes of it.
Length kerf_of(const Route& route, const Shop& shop);

/// All times of a planned route.
RouteTimes times_of(const Route& route, const Shop& shop);

}  // namespace turnwright
