// SPDX-License-Identifier: MIT
#pragma once
// Tools: what each may cut.
#include <string>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

enum class ToolKind {
  rough,
  finish,
  left_hand,  // copies towards the tailstock
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
  inside_thread,
  tap,
  die,
  knurl
};

/// Which lathes a tool goes on.
enum class ToolFor { both, manual, cnc };

struct Tool {
  std::string name;
  std::string insert;  // designation to ISO 1832, may be empty
  ToolKind kind = ToolKind::rough;
  std::string grade;
  Number lead_angle{};  // kappa, rad
  Length nose_radius{};
  Length least_depth{}, largest_depth{};
  Length least_feed{}, largest_feed{};
  Number copying_angle{};     // steepest descent it can follow behind a shoulder, rad
  Length width{};             // plunging tools
  Length reach{};             // deepest plunge, or how far a boring bar stands out
  std::vector<Length> sizes;  // diameters of a set: drills, reamers, taps, dies; ascending
  double deepest = 0;         // of a drill or reamer, in diameters
  Length least_bore{};        // smallest bore an inside tool enters, smallest face groove
  Length shank{};             // boring bars
  Pressure shank_modulus{};   // of its material
  Number profile_angle{};     // threading tools, between the flanks, rad
  ToolFor for_lathe = ToolFor::both;
  bool inch_set = false;  // sizes in inches: taken for holes of that very size
  int edges = 1;
  Amount price{};      // of the whole insert or tool
  Time edge_change{};  // 0: the shop's handling element
  Source source;

  /// The set has this diameter, to a micrometre.
  bool has_size(Length d) const;
};

}  // namespace turnwright
