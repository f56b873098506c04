// SPDX-License-Identifier: MIT
#pragma once
// Shapes that the outlines of a job give: a void turned over, the point of a drill, what is left on
// for finishing.
#include "turnwright/route/job.hpp"

namespace turnwright {

/// A bore is turned over about this radius while it is drawn and cut: larger than any.
inline constexpr Length inversion_radius(8.0);

/// The void with the point of a drill at its left end.
Outline with_point(const Outline& hollow, Length radius);
/// How long the point of a drill is: 118 degrees.
Length point_length(Length radius);

/// The turned outline with `radial` more on every surface that is finished apart, and the axial
/// allowance on its faces: what roughing must not enter.
Outline with_allowance(const Job& job, const Practice& practice, Length radial);
/// The same without the axial allowance.
Outline with_radial_allowance(const Job& job, const Practice& practice, Length radial);
/// The same for a void in global z, turned over, with what a bore is left.
Outline bore_allowance(const Job& job, const Practice& practice, const Outline& hollow);
/// The void over the whole length of the work, r = 0 where there is material.
Outline spanned(const Outline& hollow, const Outline& work);
/// Two voids as one.
Outline joined(const Outline& a, const Outline& b);
/// A shape thickened along the axis, within its ends.
Outline thickened(const Outline& base, Length axial);

}  // namespace turnwright
