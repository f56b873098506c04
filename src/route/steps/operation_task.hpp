// SPDX-License-Identifier: MIT
#pragma once
// What the steps of one operation are planned from. Everything is seen in local coordinates: the
// free end is at the right, its finished face at z = 0; an operation from the left sees the part
// mirrored.
#include <cstddef>
#include <vector>

#include "turnwright/route/route.hpp"

namespace turnwright {

struct OperationTask {
  Operation operation;  // the clamping decided, no steps yet
  Outline work;         // local, as it comes
  Outline target,
      final;       // local: without and with grooves, raised where this operation must not cut
  Outline hollow;  // local: the void as it comes
  Outline hollow_target, hollow_final;  // local: the void to make here, without and with grooves
  const Bore* bore = nullptr;           // opened from this end, null: none
  bool last = false;                    // no operation comes after this one
  bool far_edges = false;               // it breaks those at the bore's far end all the same
  std::vector<std::size_t> made;        // surfaces whose knurl or thread is done already
  Length zone_left{};                   // local: nothing is cut left of it
  Length facing{};                      // at the free end
  Length facing_out{};                  // stick-out while it is faced, where it is drawn in
  bool centre_hole = false;
  bool turn = true;                     // false: only the end face and its centre hole
  bool roughs = true, finishes = true;  // one of them only, where other work comes between
  bool part_off = false;
  Length part_off_at{};  // local z of the parted face
  bool finisher_takes_both = false;
  Length last_cut{};             // depth of the finisher's second cut
  Length jaw{};                  // local z of the jaw face
  std::vector<GivenTime> given;  // done in this operation
};

/// What the part looks like from one end.
struct View {
  Length mirror{};
  bool from_left = false;
  Outline local(const Outline& o) const { return from_left ? o.mirrored(mirror) : o; }
  Length z(Length global) const { return from_left ? mirror - global : global; }
  Interval between(Length a, Length b) const { return {min(z(a), z(b)), max(z(a), z(b))}; }
};

}  // namespace turnwright
