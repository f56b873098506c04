// SPDX-License-Identifier: MIT
#pragma once
// One function a limit: it takes speed or feed down until it holds, or says that only a smaller
// depth would help, and notes what it found.
#include "conditions/conditions.hpp"

namespace turnwright {

/// Conditions on their way through the limits.
struct CutState {
  const CutContext& context;
  TableSpeed table;
  CutConditions conditions;

  /// A tool that plunges cuts its own width, and its feed is a share of it.
  bool plunges() const {
    return context.kind == StepKind::groove || context.kind == StepKind::part_off;
  }
};

/// A limit with what was done for it, where it binds.
inline LimitCheck checked(LimitId limit, double allowed, double actual, const Unit& unit,
                          bool binding, Remedy changed) {
  return {limit, allowed, actual, unit, binding, binding ? changed : Remedy::none};
}

/// Tool, roughness and the steps that the feed box has, in one: the checks hold what is fed.
void limit_feed(CutState& state);
void limit_power(CutState& state);
void check_torque(CutState& state);
void check_grip(CutState& state);

/// The row of the kinds of step that this cut goes by.
StepFactorId step_id(const CutContext& context);
/// The spindle speed that the lathe really gives at a diameter.
Frequency real_spindle(const CutConditions& conditions, const CutContext& context, Length diameter);
/// The spindle is not faster than machine and chuck let it be; the time rises.
void check_spindle_speed(CutConditions& conditions, const CutContext& context, Length diameter);
/// The life of an edge at these conditions; a lighter feed lasts longer by `feed_effect`.
void set_life(CutConditions& conditions, const CutContext& context, const TableSpeed& table,
              double feed_effect = 1.0);

}  // namespace turnwright
