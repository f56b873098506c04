// SPDX-License-Identifier: MIT
// Edges and recesses inside: the mouth, the far edge, grooves.
#include <cmath>

#include "geometry/profile.hpp"
#include "steps/bore.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"

namespace turnwright::steps {
namespace {

// An edge or a recess that is still to be opened.
struct Opening {
  Interval z;
  bool far_end = false;
  Length r{}, hole{};  // radii: of the part, of the hole beside it
};
// Over this and back, clear of the hole.
Length out_and_in(const Cut& cut, const Interval& z) {
  return 2.0 * (-z.from) + cut.context.shop.practice.clear_of_work;
}

// The void with this stretch opened to the part.
Outline opened(const Workpiece& work, const Interval& i) {
  return joined(work.hollow, work.hollow_final.only(i.from, i.to));
}

// A countersink makes an edge of 45 degrees at the mouth.
bool is_sunk(const Workpiece& work, const Opening& o, const Tool* sink) {
  constexpr double as_wide_as_deep = 0.02;
  const Length width = o.z.width();
  return !o.far_end && sink != nullptr && 2.0 * o.r <= sink->sizes.back() &&
         std::abs((o.r - work.hollow_final.right_of(o.z.from)).si - width.si) <
             as_wide_as_deep * width.si;
}

void sink_edge(const OperationContext& op, Workpiece& work, const Tool& tool, const Opening& o,
               Step& step) {
  const Cut cut = hole_cut(op, tool, StepKind::chamfer, 2.0 * o.r, o.z.width());
  apply(step, cut.conditions);
  CutSegment segment = on_axis(op.shop.practice, Length(0.0), -o.z.width(), 2.0 * o.r);
  segment.depth = o.r - o.hole;
  set_speed(work, cut, segment);
  step.tailstock = op.machine.manual();
  step.segments.push_back(segment);
}

void turn_edge(const OperationContext& op, Workpiece& work, const Tool& tool, const Opening& o,
               Step& step) {
  const Length depth = o.r - o.hole;
  const Cut cut = cut_at(op, tool, StepKind::chamfer, 2.0 * o.r, min(depth, tool.largest_depth));
  apply(step, cut.conditions);
  CutSegment segment = across(work, cut, o.z.to, o.r, o.hole, Length(0.0));
  segment.from = {o.far_end ? o.z.to : o.z.from, o.hole};
  segment.to = {o.far_end ? o.z.from : o.z.to, o.r};
  segment.cut = sqrt(square(o.z.width()) + square(depth));
  segment.approach = Length(0.0);
  segment.travel = out_and_in(cut, o.z);
  step.segments.push_back(segment);
}

// The bar in use where it fits, else another, for this edge alone.
const Tool* bar_for(const OperationContext& op, const Workpiece& work, Length hole, Length reach) {
  if (work.bar != nullptr && bar_fits(*work.bar, hole, reach)) return work.bar;
  return thickest_bar(op.shop, op.machine, hole, reach);
}

// Of the hole that is there within an edge.
Length hole_in(const Workpiece& work, const Interval& z, bool far_end) {
  if (work.hollow.empty()) return Length(0.0);
  return far_end ? work.hollow.left_of(z.to) : work.hollow.right_of(z.from);
}

// A break of an edge: a countersink at the mouth of a plain hole, else the bar, its back at the far
// end.
Outcome break_edge(const OperationContext& op, Workpiece& work, const Interval& z, bool far_end) {
  const Opening o{z, far_end, work.hollow_final.largest(z.from, z.to), hole_in(work, z, far_end)};
  const Tool* sink = tool_of(op.shop, op.machine, ToolKind::countersink);
  const bool sunk = is_sunk(work, o, sink);
  const Tool* tool = sunk ? sink : bar_for(op, work, 2.0 * o.hole, far_end ? -z.from : z.width());
  if (tool == nullptr)
    return Infeasible{{"steps.no-edge-tool", {{"at", -op.view.z(z.to)}}},
                      {{"steps.bar-that-enters", {{"hole", 2.0 * o.hole}}}}};
  Step step = begin(StepKind::chamfer, *tool,
                    sunk      ? "steps.edge-countersunk"
                    : far_end ? "steps.far-edge"
                              : "steps.edge");
  step.from = z.from;
  step.to = z.to;
  (sunk ? sink_edge : turn_edge)(op, work, *tool, o, step);
  work.commit_bore(std::move(step), opened(work, z));
  return {};
}

Infeasible no_groover(const OperationContext& op, const Interval& z, Length depth, Length hole) {
  return {
      {"steps.no-inside-grooving-tool",
       {{"at", -op.view.z(z.to)}, {"width", z.width()}, {"depth", depth}, {"hole", 2.0 * hole}}},
      {{"steps.narrower-inside-grooving-tool", {{"width", z.width()}, {"depth", depth}}}}};
}

void plunge_inside(Workpiece& work, const Cut& cut, const Interval& z, Length r, Length depth,
                   Step& step) {
  const Tool& tool = cut.context.tool;
  const auto plunges = plunges_over(cut.context.shop.practice, tool, z.to, z.width());
  for (const Length at : plunges) {
    CutSegment segment = across(work, cut, at, r, r - depth, Length(0.0));
    segment.from = {at, r - depth};
    segment.to = {at, r};
    segment.travel = out_and_in(cut, z);
    step.segments.push_back(segment);
  }
  if (plunges.size() > 1)
    step.segments.push_back(along(work, cut, z.to - tool.width, z.from, r, r, Length(0.0)));
}

Outcome groove_inside(const OperationContext& op, Workpiece& work, const Interval& z) {
  const Length hole = work.hole_at(z.to);
  const Length r = work.hollow_final.largest(z.from, z.to);
  const Length depth = r - work.hollow.left_of(z.to);
  const Tool* tool = widest_tool(op.shop, op.machine, ToolKind::inside_groove, [&](const Tool& t) {
    return t.width < z.width() + Length(same_point) && t.reach.si >= depth.si - same_point &&
           t.least_bore < 2.0 * hole + Length(same_point);
  });
  if (tool == nullptr) return no_groover(op, z, depth, hole);
  Step step = begin(StepKind::groove, *tool, "steps.inside-groove");
  step.from = z.from;
  step.to = z.to;
  const Cut cut = plunge_to(op, *tool, StepKind::groove, 2.0 * r, depth);
  apply(step, cut.conditions);
  put_first(step, {LimitId::reach, tool->reach.si, depth.si, unit::mm});
  plunge_inside(work, cut, z, r, depth, step);
  work.commit_bore(std::move(step), opened(work, z));
  return {};
}

Outcome open_place(const OperationContext& op, Workpiece& work, const Interval& i) {
  const bool narrow = i.width() < op.shop.practice.widest_edge + Length(same_point);
  const bool mouth = i.to.si > -same_point;
  const bool far_end = i.from.si < op.job.left().si + same_point;
  if (narrow && mouth) return break_edge(op, work, i, false);
  const bool here = op.task.last || (op.task.far_edges && narrow);
  if (far_end && !here) return {};  // the other operation opens it
  return narrow && far_end ? break_edge(op, work, i, true) : groove_inside(op, work, i);
}

}  // namespace

Outcome inside_edges(const OperationContext& op, Workpiece& work) {
  const Outline final = spanned(work.hollow_final, work.outside);
  const auto left =
      where_above(final.only(work.outside.left(), Length(0.0)), spanned(work.hollow, work.outside));
  for (auto i = left.rbegin(); i != left.rend(); ++i)
    if (Outcome fails = open_place(op, work, *i)) return fails;
  return {};
}

}  // namespace turnwright::steps
