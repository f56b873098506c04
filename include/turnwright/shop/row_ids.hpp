// SPDX-License-Identifier: MIT
#pragma once
// The rows of the rates that the program looks up: each must exist in every shop, checked once at
// reading. `name_of` is the row's name in the file.
#include <string_view>

namespace turnwright {

/// Handling, in seconds (rates/handling.yaml).
enum class HandlingId {
  crane,
  door,
  add_centre,
  between_centres,
  turn_round,
  bar_advance,
  new_bar,
  change_tool,
  change_speed,
  change_feed,
  pass,
  tailstock_tool,
  peck,
  thread_pass,
  tap_and_die,
  true_to_the_rim,
  true_to_002,
  mandrel,
  steady,
  draw_out,
  catch_the_piece,
  gauge_bore,
  gauge_thread,
  start_and_stop,
  trial_cut,
  gauge_diameter,
  gauge_length,
  gauge_runout,
  edge_change,
  offset_after_edge_change,
  deburr_edge,
  deburr_parted_edge,
  blow_off,
  pack
};
/// Setting up, in minutes (rates/handling.yaml).
enum class SetupId {
  machine,
  tool_not_mounted,
  jaws,
  soft_jaws_bored,
  four_jaw_chuck,
  compound_slide,
  mandrel,
  collet,
  face_plate,
  steady,
  tailstock,
  bar_feeder,
  between_centres,
  next_operation,
  program,
  program_feature,
  first_off_check,
  drawing
};
/// What a table's cutting speed is multiplied by for a kind of work (rates/cutting.yaml).
enum class StepFactorId {
  face,
  rough,
  finish,
  groove,
  part_off,
  centre,
  drill,
  countersink,
  ream,
  bore,
  inside_groove,
  face_groove,
  thread,
  thread_by_hand,
  tap,
  die,
  knurl
};
/// How true a clamping repeats (rates/clamping.yaml).
enum class AccuracyId {
  hard_jaws,
  soft_jaws,
  collet,
  four_jaw_chuck,
  mandrel,
  between_centres,
  one_clamping
};
/// Corrections of the table's speed (rates/cutting.yaml).
enum class FactorId {
  coolant_flood,
  coolant_dry,
  machine_good,
  machine_worn,
  interrupted_corners,
  least_product
};
/// Chips by their length (rates/handling.yaml).
enum class ChipId { long_chips, short_chips };
enum class OutsideWorkId { grinding_between_centres };

inline constexpr int handling_rows = static_cast<int>(HandlingId::pack) + 1;
inline constexpr int setup_rows = static_cast<int>(SetupId::drawing) + 1;
inline constexpr int step_factor_rows = static_cast<int>(StepFactorId::knurl) + 1;
inline constexpr int accuracy_rows = static_cast<int>(AccuracyId::one_clamping) + 1;
inline constexpr int factor_rows = static_cast<int>(FactorId::least_product) + 1;
inline constexpr int chip_rows = static_cast<int>(ChipId::short_chips) + 1;

std::string_view name_of(HandlingId id);
std::string_view name_of(SetupId id);
std::string_view name_of(StepFactorId id);
std::string_view name_of(AccuracyId id);
std::string_view name_of(FactorId id);
std::string_view name_of(ChipId id);
std::string_view name_of(OutsideWorkId id);

}  // namespace turnwright
