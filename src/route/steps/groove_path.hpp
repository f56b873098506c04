// SPDX-License-Identifier: MIT
#pragma once
// The path of a plunging tool in a recess. It never goes below the part: plunges end where the
// front of the tool stands on it, and walls that are no steps are followed down to the floor.
#include "steps/cut.hpp"

namespace turnwright {

/// What is plunged over an interval, from the work down to the part.
struct Recess {
  Interval z;
  Length top{}, bottom{};  // radii
  Interval floor;          // between the outermost places at the bottom

  Length depth() const { return top - bottom; }
  /// A wall rises to the surface on a slope or an arc.
  bool opens() const;
};
Recess recess_at(const OperationContext& op, const Outline& work, const Interval& z);

/// The radius at which the front of a tool, its right corner at z, stands on a part.
Length stands_at(const Outline& part, const Tool& tool, Length z);

/// The passes that make it: plunges, then walls and floor.
std::vector<CutSegment> plunged(const OperationContext& op, Workpiece& work, const Cut& cut,
                                const Recess& recess);
/// The same of a wide and shallow one: turned sideways in layers, the tool inside the groove.
std::vector<CutSegment> turned_sideways(const OperationContext& op, Workpiece& work, const Cut& cut,
                                        const Recess& recess);

}  // namespace turnwright
