// SPDX-License-Identifier: MIT
#pragma once
// What holds a turned surface, and how true: jaws, four jaws, a mandrel.
#include "clamping/layout.hpp"
#include "clamping/ties.hpp"

namespace turnwright {

/// An operation on turned surfaces: which end is worked, and where the cut changes over, global z.
struct Turned {
  bool from_left = false;
  Length cut_over{};
};

/// A toleranced seat this fine is spared by hard jaws.
bool fine_seat(const PlanContext& context, const Surface& surface);
/// Ties between surfaces of both operations decide jaws and checking, by how true they hold.
void choose_jaws(const PlanContext& context, const Surface& held, const Turned& turned,
                 Operation& operation, Layout& layout);
/// A thin wall under the jaws: soft ones, or it is squeezed oval.
void spare_thin_wall(const PlanContext& context, const Surface& held, Operation& operation,
                     Layout& layout);
/// A casting or a square is held in four jaws and clocked.
void hold_in_four_jaws(const PlanContext& context, Operation& operation, bool fine);

/// A tie to the through bore that jaws do not hold, or nothing outside to hold on.
bool wants_mandrel(const PlanContext& context, const Turned& turned, bool nothing_held);
/// The layout with an operation on the finished bore: its outside runs true to it, and nothing is
/// gripped outside.
Planned<Layout> on_mandrel(const PlanContext& context, OperationTask task, Layout layout);

}  // namespace turnwright
