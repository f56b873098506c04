// SPDX-License-Identifier: MIT
#pragma once
// A step's cuts: its conditions, and the segments of its path.
#include "conditions/conditions.hpp"
#include "steps/workpiece.hpp"

namespace turnwright {

/// A tool at work: what its conditions depend on, and the conditions.
struct Cut {
  CutContext context;
  CutConditions conditions;
};
/// Jaws that hold on little turn the work with less.
CutContext cut_context(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
                       Length ra = Length(0.0));
/// Conditions at a depth; `ra`: asked for, 0: none.
Cut cut_at(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
           Length depth, Length ra = Length(0.0));
/// The same for a tool that plunges: it goes as deep as it is asked.
Cut plunge_to(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
              Length depth);
/// A tool in a hole on the axis.
Cut hole_cut(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
             Length depth);
/// A first cut on scale runs slower, and so does one over corners of flats.
Cut under_skin(const OperationContext& op, const Workpiece& work, Cut cut);

Step begin(StepKind kind, const Tool& tool, Message why);
/// The step shows these conditions and limits.
void apply(Step& step, const CutConditions& conditions);
/// A limit of the step's own, shown first.
void put_first(Step& step, LimitCheck limit);

/// Feed and speed of a segment. A manual lathe's lever is moved where that pays.
void set_speed(Workpiece& work, const Cut& cut, CutSegment& segment);
/// The speed does not change on the way: a thread follows the spindle, and some lathes know no
/// other.
void at_one_speed(CutSegment& segment);
/// Along the axis at a radius, where the work had the radius `before`.
CutSegment along(Workpiece& work, const Cut& cut, Length from, Length to, Length radius,
                 Length before, Length approach);
/// Across diameters at z.
CutSegment across(Workpiece& work, const Cut& cut, Length z, Length r_from, Length r_to,
                  Length approach);
/// A tool on the axis that goes in to z; its speed is not set yet.
CutSegment on_axis(const Practice& practice, Length from, Length to, Length diameter);
/// A segment repeated as a pass of its own, out and in again.
CutSegment as_pass(const Practice& practice, CutSegment segment);

/// z values or radii at which a tool plunges, from `from` over what is left of `width`.
std::vector<Length> plunges_over(const Practice& practice, const Tool& tool, Length from,
                                 Length width);

/// Surfaces gauged after the step, each once.
void gauge(Step& step, std::size_t surface);

}  // namespace turnwright
