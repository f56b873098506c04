// SPDX-License-Identifier: MIT
// Holes on the axis: spot, pilot, drill, wider drills.
#include <cmath>

#include "geometry/profile.hpp"
#include "prepare/holes.hpp"
#include "steps/cut.hpp"
#include "steps/gauge.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"
#include "turnwright/quantity/whole.hpp"

namespace turnwright::steps {
namespace {

struct Hole {
  Length diameter{}, depth{};  // without the point
  bool point = true;           // it stays; false: right through
  Length start{};              // of the drilling, below a wider hole
};

Message reason_for(const OperationContext& op, const Hole& hole) {
  const Bore* bore = op.task.bore;
  const Place diameter("diameter", hole.diameter), depth("depth", hole.depth);
  if (bore == nullptr) return {"steps.drill-to-meet", {diameter, depth}};
  if (hole.diameter < bore->drilled) return {"steps.drill-pilot", {diameter}};
  if (hole.diameter > bore->drilled && hole.point && bore->through)
    return {"steps.drill-wider", {diameter, depth}};
  return {hole.point ? "steps.drill-blind" : "steps.drill-through", {diameter, depth}};
}

// A carbide drill clears its chips as deep as it goes at all.
CutSegment drilled(const Practice& practice, const Tool& tool, const Hole& hole, Length tip) {
  CutSegment segment = on_axis(practice, -hole.start, -hole.depth - tip, hole.diameter);
  const double ratio = ((hole.depth - hole.start) / hole.diameter).si;
  segment.cut = hole.depth - hole.start + tip;
  segment.overrun = hole.point ? Length(0.0) : practice.through_by;
  const double from =
      high_speed_steel(tool) ? practice.peck_from : std::max(practice.peck_from, tool.deepest);
  segment.pecks = ratio > from ? whole_above(ratio - from) : 0;
  // Each peck goes out and in again over about the depth reached.
  segment.travel = hole.depth + practice.tailstock_travel +
                   2.0 * static_cast<double>(segment.pecks) * hole.depth;
  return segment;
}

void drill_hole(const OperationContext& op, Workpiece& work, const Hole& hole) {
  const Length d = hole.diameter, tip = point_length(d / 2.0);
  const Tool* tool = sized_tool(op.shop, op.machine, ToolKind::drill, d, hole.depth - hole.start);
  Step step = begin(StepKind::drill, *tool, reason_for(op, hole));
  step.tailstock = op.machine.manual();
  const Cut cut = hole_cut(op, *tool, StepKind::drill, d, hole.depth - hole.start);
  apply(step, cut.conditions);
  CutSegment segment = drilled(op.shop.practice, *tool, hole, tip);
  set_speed(work, cut, segment);
  step.segments.push_back(segment);
  step.from = -hole.depth - (hole.point ? tip : Length(0.0));
  Outline made = Outline::cylinder(-hole.depth, Length(0.0), d / 2.0);
  if (hole.point) made = with_point(made, d / 2.0);
  work.commit_bore(std::move(step), joined(work.hollow, made));
}

// So that a twist drill does not wander: a cone of 90 degrees, not wider than the drill and the
// tool's body.
void spot(const OperationContext& op, Workpiece& work, Length diameter) {
  const Tool* tool = tool_of(op.shop, op.machine, ToolKind::centre);
  if (tool == nullptr) return;
  const Length d = min(diameter, op.shop.practice.spot_width * tool->width);
  Step step = begin(StepKind::centre, *tool, "steps.spot");
  step.tailstock = op.machine.manual();
  Cut cut = hole_cut(op, *tool, StepKind::centre, d, d / 2.0);
  cut.conditions.used.feed = min(cut.conditions.used.feed, tool->largest_feed);
  apply(step, cut.conditions);
  CutSegment segment = on_axis(op.shop.practice, Length(0.0), -d / 2.0, d);
  set_speed(work, cut, segment);
  step.segments.push_back(segment);
  step.from = -d / 2.0;
  const Outline cone(
      std::vector<Segment>{{{-d / 2.0, Length(0.0)}, {Length(0.0), d / 2.0}, Bulge::none, {}, {}}});
  // Not outside of what the bore will be.
  work.commit_bore(std::move(step),
                   joined(work.hollow, combine(cone, work.hollow_final, Envelope::lower)));
}

// A plain hole too deep for its drill is met from the other end.
void drill_to_meet(const OperationContext& op, Workpiece& work) {
  const Bore& bore = op.job.bores[op.view.from_left ? 0 : 1];
  if (!op.task.last || bore.empty() || !bore.through || work.hole_at(Length(0.0)).si > same_point)
    return;
  // The end of what the first operation drilled, from the point back.
  Length met = work.outside.left();
  for (const Segment& s : work.hollow.pieces())
    if (max(s.from.r, s.to.r).si > same_point) met = max(met, s.from.z);
  const Tool* tool = sized_tool(op.shop, op.machine, ToolKind::drill, bore.drilled, -met);
  if (tool == nullptr || -met > tool->deepest * bore.drilled) return;
  if (high_speed_steel(*tool)) spot(op, work, bore.drilled);
  drill_hole(op, work, {bore.drilled, -met, false});
}

// What the narrowest stretch of a bore comes to.
Length narrow_diameter(const Surface& narrow) {
  return 2.0 * min(narrow.left_radius, narrow.right_radius);
}

// The first hole. Where the bore is bored anyway a larger drill saves boring, and one of this kind
// of lathe's own is faster.
Length opening_diameter(const OperationContext& op, const Surface& narrow, Length end) {
  const Bore& bore = *op.task.bore;
  if (!bore.through || bore.to_size || bore.reamed) return bore.drilled;
  const Length room = narrow_diameter(narrow) - under_size(op.shop.practice, narrow);
  Length common = bore.drilled, own(0.0);
  for_each_drill(op.shop, op.machine, [&](const Tool& t, Length size) {
    if (size.si > room.si + same_point || end > t.deepest * size) return;
    Length& best = t.for_lathe == ToolFor::both ? common : own;
    best = max(best, size);
  });
  return own + op.shop.practice.own_drill_worth >= common ? own : common;
}

// How deep the stretches are that lie before a surface and are wider than it; 0: none, or one is
// not.
Length wider_until(const OperationContext& op, std::size_t surface) {
  const Surface& own = op.job.surfaces[surface];
  const Length start = -op.view.between(own.left, own.right).to;
  const Length r = max(own.left_radius, own.right_radius) + op.shop.practice.worth_drilling / 2.0;
  for (const Surface& s : op.job.surfaces)
    if (s.region == own.region &&
        -op.view.between(s.left, s.right).to < start - Length(same_point) &&
        min(s.left_radius, s.right_radius) < r)
      return Length(0.0);
  return start;
}

// The widest drill that leaves enough in a stretch and goes to its end.
Length widest_drill(const OperationContext& op, Length room, Length end) {
  Length d(0.0);
  for_each_drill(op.shop, op.machine, [&](const Tool& t, Length size) {
    if (size <= room && end <= t.deepest * size) d = max(d, size);
  });
  return d;
}

// Wider stretches towards the mouth are drilled up before they are bored.
void drill_wider(const OperationContext& op, Workpiece& work, Length drilled) {
  const Practice& practice = op.shop.practice;
  const Region region = op.view.from_left ? Region::bore_left : Region::bore_right;
  for (std::size_t n = op.job.surfaces.size(); n-- > op.job.outside().size();) {
    const Surface& s = op.job.surfaces[n];
    if (s.region != region) continue;
    const Length end = -op.view.between(s.left, s.right).from;
    const Length d = widest_drill(op, narrow_diameter(s) - under_size(practice, s), end);
    // Its point reaches into the hole that is there; the corner is left to the bar.
    const Length depth = end - point_length((d - drilled) / 2.0) - practice.flat_stop;
    if (d < drilled + practice.worth_drilling || depth < practice.shortest_shoulder) continue;
    drill_hole(op, work, {d, depth});
    drilled = d;
  }
}

// A wide twist drill follows a pilot of about its chisel edge.
void pilot(const OperationContext& op, Workpiece& work, const Tool& tool, const Hole& hole) {
  const Practice& practice = op.shop.practice;
  const Length d = hole.diameter;
  if (!high_speed_steel(tool) || d <= practice.pilot_above) return;
  Length widest(0.0);
  for (const Length size : tool.sizes)
    if (size.si <= practice.pilot_slack * practice.pilot_share * d.si + same_point)
      widest = max(widest, size);
  if (widest.si > 0 && hole.depth < tool.deepest * widest)
    drill_hole(op, work, {widest, hole.depth, hole.point});
}

// Half from each end, and a diameter more from here.
void drill_half(const OperationContext& op, Workpiece& work, const Hole& hole) {
  const Length depth = hole.depth / 2.0 + hole.diameter;
  drill_hole(op, work, {hole.diameter, depth});
  work.hollow_target = work.hollow_target.only(-depth, Length(0.0));
  work.hollow_final = work.hollow_final.only(-depth, Length(0.0));
}

void drill_to_size(const OperationContext& op, Workpiece& work, const Hole& hole) {
  drill_hole(op, work, hole);
  const Bore& bore = *op.task.bore;
  if (bore.to_size && !has_later_step(op.job, op.job.surfaces[bore.narrow]))
    work.steps.back().gauged.push_back(bore.narrow);
}

Infeasible too_deep(const Tool& tool, const Hole& hole) {
  return {{"steps.hole-too-deep",
           {{"diameter", hole.diameter},
            {"depth", hole.depth},
            {"ratio", Figure{(hole.depth / hole.diameter).si, 3}},
            {"tool", tool.name},
            {"deepest", Figure{tool.deepest}}}},
          {"steps.deep-hole-drill", "steps.bore-from-both-faces", "steps.state-a-time"}};
}

// The hole with the tool that opens it, in the way that its depth asks for.
Outcome open_with(const OperationContext& op, Workpiece& work, const Tool& tool, Hole hole,
                  Length start) {
  const Bore& bore = *op.task.bore;
  const Length d = hole.diameter, deepest = tool.deepest * d;
  if (high_speed_steel(tool)) spot(op, work, d);
  if (hole.depth <= deepest) {
    pilot(op, work, tool, hole);
    drill_to_size(op, work, hole);
    drill_wider(op, work, d);
    return {};
  }
  if (bore.through && bore.to_size && !op.task.last && hole.depth / 2.0 + d <= deepest) {
    drill_half(op, work, hole);
    return {};
  }
  // Through a wider stretch that is drilled first, the narrow one counts from its bottom.
  if (start.si <= 0 || hole.depth - start > deepest) return too_deep(tool, hole);
  drill_wider(op, work, Length(0.0));
  hole.start = start;
  drill_to_size(op, work, hole);
  return {};
}

Infeasible no_drill(const Practice& practice, const Surface& narrow) {
  const Length target = narrow_diameter(narrow);
  const Length most = target - under_size(practice, narrow);
  return {{"steps.no-drill", {{"diameter", target}}},
          {{"steps.drill-at-most", {{"diameter", most}}}, "steps.state-a-time"}};
}

}  // namespace

Outcome drill(const OperationContext& op, Workpiece& work) {
  if (op.task.bore == nullptr) {
    drill_to_meet(op, work);
    return {};
  }
  const Bore& bore = *op.task.bore;
  // A tube or a cored casting is open already.
  if (work.hole_at(Length(0.0)).si > same_point) return {};
  const Surface& narrow = op.job.surfaces[bore.narrow];
  const Length end = bore.through ? -work.outside.left() : -op.view.local(bore.finished).left();
  const Length d = opening_diameter(op, narrow, end);
  if (d.si <= 0) return no_drill(op.shop.practice, narrow);
  const Length start = wider_until(op, bore.narrow);
  const Tool* tool = sized_tool(op.shop, op.machine, ToolKind::drill, d, end - start);
  if (tool == nullptr)
    return Infeasible{
        {"steps.no-drill-on-machine", {{"diameter", d}, {"machine", op.machine.name}}},
        {{"steps.drill-of-size", {{"diameter", d}}}}};
  const bool flat = op.job.element_of(narrow).flat;
  Length depth = end;
  if (!bore.through)
    depth = end - point_length(d / 2.0) - (flat ? op.shop.practice.flat_stop : Length(0.0));
  if (depth.si <= 0) return {};  // too shallow to drill: the bar faces it out
  return open_with(op, work, *tool, {d, depth, !bore.through}, start);
}

}  // namespace turnwright::steps
