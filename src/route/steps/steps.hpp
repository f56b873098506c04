// SPDX-License-Identifier: MIT
#pragma once
// The steps of an operation: each makes one tool's work, or several where the part asks for it, and
// commits it to the workpiece. Nothing to do is no failure. Their order stands in
// plan_operation.cpp.
#include "steps/workpiece.hpp"

namespace turnwright::steps {

/// The end face, down to z = 0.
Outcome face(const OperationContext& op, Workpiece& work);
/// A centre hole for the tailstock.
Outcome centre(const OperationContext& op, Workpiece& work);
/// The outside down to the finishing allowance.
Outcome rough(const OperationContext& op, Workpiece& work);
/// What the roughing tool cannot reach: necks, recesses, far sides.
Outcome rough_behind(const OperationContext& op, Workpiece& work);
/// The outside to size along its contour.
Outcome finish(const OperationContext& op, Workpiece& work);
/// Walls behind shoulders that no grooving tool reaches, with the left-hand tool.
Outcome finish_behind(const OperationContext& op, Workpiece& work);
/// What the contour left: grooves, recesses, the rear edge before parting.
Outcome groove(const OperationContext& op, Workpiece& work);
/// The piece from the bar.
Outcome part_off(const OperationContext& op, Workpiece& work);

/// The hole that a bore begins with: spot, pilot, drill, wider drills.
Outcome drill(const OperationContext& op, Workpiece& work);
/// The narrowest stretch of a bore that a reamer makes.
Outcome ream(const OperationContext& op, Workpiece& work);
Outcome rough_bore(const OperationContext& op, Workpiece& work);
Outcome finish_bore(const OperationContext& op, Workpiece& work);
/// Edges and recesses inside: the mouth, the far edge, grooves.
Outcome inside_edges(const OperationContext& op, Workpiece& work);

Outcome knurl(const OperationContext& op, Workpiece& work);
Outcome face_groove(const OperationContext& op, Workpiece& work);
Outcome thread(const OperationContext& op, Workpiece& work);
/// Times of the estimator's own.
Outcome stated_times(const OperationContext& op, Workpiece& work);

}  // namespace turnwright::steps
