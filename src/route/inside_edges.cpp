// SPDX-License-Identifier: MIT
// Edges and recesses inside: the mouth, the far edge, grooves.
#include <algorithm>
#include <cmath>

#include "length_text.hpp"
#include "operation_planner.hpp"
#include "profile.hpp"

namespace turnwright {

// Edges and grooves that are left: the mouth, the far edge, recesses.
void OperationPlanner::inside_edges() {
  const Outline final = spanned(task_.hollow_final, task_.work);
  const auto left =
      where_above(final.only(task_.work.left(), Length(0.0)), spanned(task_.hollow, task_.work));
  for (auto i = left.rbegin(); i != left.rend() && why_not.empty(); ++i) {
    const bool narrow = i->width() < widest_edge + Length(same_point);
    const bool mouth = i->to.si > -same_point;
    const bool far_end = i->from.si < job_.left().si + same_point;
    if (narrow && mouth)
      edge(*i, false);
    else if (narrow && far_end) {
      if (task_.last) edge(*i, true);
    } else if (far_end && !task_.last)
      continue;  // the other operation opens it
    else
      inside_groove(*i);
  }
}

// A break of an edge: a countersink at the mouth of a plain hole, else the bar, its back at the far
// end.
void OperationPlanner::edge(const Interval& i, bool far_end) {
  const Length r = task_.hollow_final.largest(i.from, i.to);
  const Length hole = hole_at(far_end ? i.to : i.from);
  const Tool* sink = tool_of(ToolKind::countersink);
  const bool sunk =
      !far_end && sink != nullptr && 2.0 * r <= sink->sizes.back() &&
      std::abs((r - task_.hollow_final.right_of(i.from)).si - i.width().si) < 0.02 * i.width().si;
  const Tool* tool = sunk ? sink : bar_for(2.0 * hole, far_end ? -i.from : i.width());
  if (tool == nullptr) {
    why_not = "no tool breaks the edge of the bore at " + length_text(job_, -view_.z(i.to));
    would_help = "a boring bar that enters " + length_text(job_, 2.0 * hole);
    return;
  }
  Step step = begin(StepKind::chamfer, *tool,
                    sunk      ? "the edge of the hole, countersunk"
                    : far_end ? "the far edge of the bore, with the back of the bar"
                              : "the edge of the bore");
  step.tailstock = sunk && machine_.manual();
  step.from = i.from;
  step.to = i.to;
  const CutContext c = context(*tool, StepKind::chamfer, 2.0 * r, Length(0.0));
  const Length depth = r - hole;
  if (sunk) {
    const CutConditions k = hole_conditions(c, 2.0 * r, i.width());
    apply(step, k);
    Pass pass;
    pass.from = {Length(0.0), Length(0.0)};
    pass.to = {-i.width(), Length(0.0)};
    pass.cut = i.width();
    pass.approach = Length(approach_m);
    pass.large_diameter = pass.small_diameter = 2.0 * r;
    pass.depth = depth;
    pass.travel = i.width() + 100.0 * unit::mm;
    set_speed(c, k, pass);
    step.passes.push_back(pass);
  } else {
    CutConditions k = conditions_at(c, min(depth, tool->largest_depth));
    apply(step, k);
    Pass pass = across(c, k, i.to, r, hole, Length(0.0));
    pass.from = {far_end ? i.to : i.from, hole};
    pass.to = {far_end ? i.from : i.to, r};
    pass.cut = sqrt(square(i.width()) + square(depth));
    pass.approach = Length(0.0);
    pass.travel = 2.0 * (-i.from) + 4.0 * unit::mm;
    step.passes.push_back(pass);
  }
  done_inside(std::move(step), opened(i));
}

// The void with this stretch opened to the part.
Outline OperationPlanner::opened(const Interval& i) const {
  return joined(task_.hollow, task_.hollow_final.only(i.from, i.to));
}

void OperationPlanner::inside_groove(const Interval& interval) {
  const Length hole = hole_at(interval.to);
  const Length r = task_.hollow_final.largest(interval.from, interval.to);
  const Length depth = r - task_.hollow.left_of(interval.to);
  const Tool* best = nullptr;
  for (const Tool& t : shop_.tools)
    if (t.kind == ToolKind::inside_groove && fits_lathe(t) &&
        t.width < interval.width() + Length(same_point) && t.reach.si >= depth.si - same_point &&
        t.least_bore < 2.0 * hole + Length(same_point) &&
        (best == nullptr || t.width > best->width))
      best = &t;
  if (best == nullptr) {
    why_not = "no tool reaches the recess in the bore at " +
              length_text(job_, -view_.z(interval.to)) + " (" +
              length_text(job_, interval.width()) + " wide, " + length_text(job_, depth) +
              " deep, in a hole of " + length_text(job_, 2.0 * hole) + ")";
    would_help = "an inside grooving tool no wider than " + length_text(job_, interval.width()) +
                 " that reaches " + length_text(job_, depth);
    return;
  }
  Step step = begin(StepKind::groove, *best, "the recess in the bore");
  step.from = interval.from;
  step.to = interval.to;
  const CutContext c = context(*best, StepKind::groove, 2.0 * r, Length(0.0));
  CutConditions k = conditions_at(c, depth);
  k.used.depth = k.wanted.depth = depth;
  apply(step, k);
  step.limits.insert(step.limits.begin(), {"reach", best->reach.si, depth.si, unit::mm, false, ""});
  const int plunges = plunges_of(*best, interval.width());
  for (int i = 0; i < plunges; ++i) {
    const double share = plunges == 1 ? 0 : static_cast<double>(i) / (plunges - 1);
    const Length z = interval.to - share * max(Length(0.0), interval.width() - best->width);
    Pass pass = across(c, k, z, r, r - depth, Length(0.0));
    pass.from = {z, r - depth};
    pass.to = {z, r};
    pass.travel = 2.0 * (-interval.from) + 4.0 * unit::mm;
    step.passes.push_back(pass);
  }
  if (plunges > 1)
    step.passes.push_back(along(c, k, interval.to - best->width, interval.from, r, r, Length(0.0)));
  done_inside(std::move(step), opened(interval));
}

}  // namespace turnwright
