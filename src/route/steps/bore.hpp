// SPDX-License-Identifier: MIT
#pragma once
// What boring with a bar shares between roughing and finishing.
#include "geometry/inverted.hpp"
#include "steps/cut.hpp"

namespace turnwright {

/// The work's void over its whole length, inverted: a bar cuts it by the rules of the outside.
InvertedBody inverted_bore(const Workpiece& work);
/// A shorter cylinder in a bore is what a drill's point or an edge leaves of one.
inline constexpr Length shortest_land(0.5e-3);
/// A cylinder lies in it: more than the break of an edge.
bool holds_land(const Outline& shape, const Interval& z);
/// How thick what stands over a limit is on its cylinders; edges are wider.
Length layer_over(const InvertedBody& body, const InvertedBody& limit, const Interval& z);
/// What the bar may open here; a reamed element stays as drilled.
Outline bar_target(const OperationContext& op, const Workpiece& work);

/// How far a bar has to go, and the narrowest hole that it passes.
struct BarReach {
  Length hole{1e9}, deepest{};  // diameter, local z
  void widen(const Workpiece& work, const Interval& cut);
};
/// The bar in use where it fits, else the thickest that enters and reaches; it is in use then. Or
/// nullptr.
const Tool* take_bar(const OperationContext& op, Workpiece& work, const BarReach& reach);
Infeasible no_bar(const BarReach& reach, Messages remedies);

/// Gauges the surfaces of the bores on these stretches.
void gauge_inside(const OperationContext& op, const std::vector<Interval>& where, Step& step);
/// The bar bends away under the passive force of the last cut; far out it repeats the cut.
void limit_bar_bending(const OperationContext& op, const Tool& bar, Step& step);

}  // namespace turnwright
