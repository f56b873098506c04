// SPDX-License-Identifier: MIT
// Holes on the axis: spot, drill, ream.
#include <algorithm>
#include <cmath>

#include "features.hpp"
#include "length_text.hpp"
#include "operation_planner.hpp"
#include "profile.hpp"

namespace turnwright {
namespace {

constexpr Length pilot_above(20e-3);       // a twist drill above this is piloted (common practice)
constexpr double pilot_share = 0.4;        // of its diameter: about the chisel edge (from memory)
constexpr Length through_by(2e-3);         // overrun of a drill; approach as everywhere
constexpr Length own_drill_worth(1.5e-3);  // how much smaller the faster drill may be (typical)
constexpr Length worth_drilling(4e-3);  // a wider drill saves more than the bar's passes (typical)
constexpr double peck_from = 3;         // diameters deep, then every diameter (from memory)

}  // namespace

// One that goes as deep before one that does not, this kind of lathe's own before a common one.
const Tool* OperationPlanner::sized_tool(ToolKind kind, Length size, Length depth) const {
  const Tool* best = nullptr;
  auto rank = [&](const Tool& t) {
    const bool deep = t.deepest <= 0 || depth <= t.deepest * size;
    return (deep ? 2 : 0) + (t.for_lathe != ToolFor::both ? 1 : 0);
  };
  for (const Tool& t : shop_.tools)
    if (t.kind == kind && fits_lathe(t) && t.has_size(size) &&
        (best == nullptr || rank(t) > rank(*best)))
      best = &t;
  return best;
}

// A plain hole too deep for its drill is met from the other end.
void OperationPlanner::drill_to_meet() {
  const Bore& bore = job_.bores[view_.from_left ? 0 : 1];
  if (!task_.last || bore.empty() || !bore.through || hole_at(Length(0.0)).si > same_point) return;
  // The end of what the first operation drilled, from the point back.
  Length met = task_.work.left();
  for (const Segment& s : task_.hollow.pieces())
    if (max(s.from.r, s.to.r).si > same_point) met = max(met, s.from.z);
  const Tool* tool = sized_tool(ToolKind::drill, bore.drilled, -met);
  if (tool == nullptr || -met > tool->deepest * bore.drilled) return;
  if (tool->grade == "hss") spot(bore.drilled);
  drill_to(bore.drilled, -met, false);
  task_.operation.steps.back().why += ", from the other end to meet the first";
}

void OperationPlanner::drill() {
  if (task_.bore == nullptr) {
    drill_to_meet();
    return;
  }
  const Bore& bore = *task_.bore;
  // A tube or a cored casting is open already.
  if (hole_at(Length(0.0)).si > same_point) return;
  const Surface& narrow = job_.surfaces[bore.narrow];
  const Length target = 2.0 * min(narrow.left_radius, narrow.right_radius);
  Length d = bore.drilled;
  const bool flat = job_.element_of(narrow).flat;
  const Length end = bore.through ? -task_.work.left() : -view_.local(bore.finished).left();
  if (bore.through && !bore.to_size && !bore.reamed) {
    // A larger drill saves boring, and one of this kind of lathe's own is faster.
    Length common = d, own(0.0);
    for (const Tool& t : shop_.tools)
      if (t.kind == ToolKind::drill && !t.inch_set && fits_lathe(t))
        for (const Length size : t.sizes)
          if (size.si <= (target - under_size(narrow)).si + same_point && end <= t.deepest * size)
            (t.for_lathe == ToolFor::both ? common : own) =
                max(t.for_lathe == ToolFor::both ? common : own, size);
    d = own + own_drill_worth >= common ? own : common;
  }
  if (d.si <= 0) {
    why_not = "no drill of the shop opens a bore of " + length_text(job_, target);
    would_help = "a drill of at most " + length_text(job_, target - under_size(narrow)) +
                 ", or 'allow' with a time";
    return;
  }
  // Through a wider stretch that is drilled first, the narrow one counts from its bottom.
  const Length start = wider_until(bore.narrow);
  const Tool* tool = sized_tool(ToolKind::drill, d, end - start);
  if (tool == nullptr) {
    why_not = "no drill of " + length_text(job_, d) + " goes on " + machine_.name;
    would_help = "a drill of this size";
    return;
  }
  const bool twist = tool->grade == "hss";
  Length depth = end;
  if (!bore.through) depth = end - point_length(d / 2.0) - (flat ? flat_stop : Length(0.0));
  if (depth.si <= 0) return;  // too shallow to drill: the bar faces it out
  if (twist) spot(d);
  // Half from each end, and a diameter more from here.
  const bool long_hole = depth > tool->deepest * d;
  const bool halves = long_hole && bore.through && bore.to_size && !task_.last &&
                      depth / 2.0 + d <= tool->deepest * d;
  if (halves) {
    drill_to(d, depth / 2.0 + d, true);
    const Length reached = -(depth / 2.0 + d);
    task_.hollow_target = task_.hollow_target.only(reached, Length(0.0));
    task_.hollow_final = task_.hollow_final.only(reached, Length(0.0));
    return;
  }
  if (long_hole && start.si > 0 && depth - start <= tool->deepest * d) {
    drill_wider(Length(0.0));
    drill_to(d, depth, !bore.through, start);
    if (bore.to_size) task_.operation.steps.back().gauged.push_back(bore.narrow);
    return;
  }
  if (long_hole) {
    why_not = "a hole of " + length_text(job_, d) + " is " + length_text(job_, depth) + " deep, " +
              readable((depth / d).si, 3) + " diameters; the " + tool->name + " go " +
              readable(tool->deepest);
    would_help = "a deep-hole drill in the tools, a bore from both faces, or 'allow' with a time";
    return;
  }
  if (twist && d > pilot_above) {
    Length pilot(0.0);
    for (const Length size : tool->sizes)
      if (size.si <= 1.25 * pilot_share * d.si + same_point) pilot = max(pilot, size);
    if (pilot.si > 0 && depth < tool->deepest * pilot) drill_to(pilot, depth, !bore.through);
  }
  drill_to(d, depth, !bore.through);
  if (bore.to_size && !task_.operation.steps.empty())
    task_.operation.steps.back().gauged.push_back(bore.narrow);
  drill_wider(d);
}

// How deep the stretches are that lie before a surface and are wider than it; 0: none, or one is
// not.
Length OperationPlanner::wider_until(std::size_t surface) const {
  const Surface& own = job_.surfaces[surface];
  const Length start = -view_.between(own.left, own.right).to;
  const Length r = max(own.left_radius, own.right_radius) + worth_drilling / 2.0;
  for (const Surface& s : job_.surfaces)
    if (s.region == own.region && -view_.between(s.left, s.right).to < start - Length(same_point) &&
        min(s.left_radius, s.right_radius) < r)
      return Length(0.0);
  return start;
}

// Wider stretches towards the mouth are drilled up before they are bored.
void OperationPlanner::drill_wider(Length drilled) {
  const Region region = view_.from_left ? Region::bore_left : Region::bore_right;
  for (std::size_t n = job_.surfaces.size(); n-- > job_.outside().size();) {
    const Surface& s = job_.surfaces[n];
    if (s.region != region || !why_not.empty()) continue;
    const Length room = 2.0 * min(s.left_radius, s.right_radius) - under_size(s);
    const Length end = -view_.between(s.left, s.right).from;
    Length d(0.0);
    for (const Tool& t : shop_.tools)
      if (t.kind == ToolKind::drill && !t.inch_set && fits_lathe(t))
        for (const Length size : t.sizes)
          if (size <= room && end <= t.deepest * size) d = max(d, size);
    // Its point reaches into the hole that is there; the corner is left to the bar.
    const Length depth = end - point_length((d - drilled) / 2.0) - flat_stop;
    if (d < drilled + worth_drilling || depth < Length(shortest_shoulder_m)) continue;
    drill_to(d, depth, true);
    drilled = d;
  }
}

void OperationPlanner::spot(Length diameter) {
  const Tool* tool = tool_of(ToolKind::centre);
  if (tool == nullptr) return;
  // A cone of 90 degrees, not wider than the drill and the tool's body.
  const Length d = min(diameter, 2.5 * tool->width);
  Step step = begin(StepKind::centre, *tool, "a spot, so that the drill does not wander");
  step.tailstock = machine_.manual();
  const CutContext c = context(*tool, StepKind::centre, d, Length(0.0));
  CutConditions k = hole_conditions(c, d, d / 2.0);
  k.used.feed = min(k.used.feed, tool->largest_feed);
  apply(step, k);
  Pass pass;
  pass.from = {Length(0.0), Length(0.0)};
  pass.to = {-d / 2.0, Length(0.0)};
  pass.cut = d / 2.0;
  pass.approach = Length(approach_m);
  pass.large_diameter = pass.small_diameter = d;
  pass.depth = d / 2.0;
  pass.travel = d / 2.0 + 100.0 * unit::mm;
  set_speed(c, k, pass);
  step.passes.push_back(pass);
  step.from = -d / 2.0;
  const Outline cone(
      std::vector<Segment>{{{-d / 2.0, Length(0.0)}, {Length(0.0), d / 2.0}, Bulge::none, {}, {}}});
  // Not outside of what the bore will be.
  done_inside(std::move(step),
              joined(task_.hollow, combine(cone, task_.hollow_final, Envelope::lower)));
}

void OperationPlanner::drill_to(Length d, Length depth, bool point, Length start) {
  const Tool* tool = sized_tool(ToolKind::drill, d, depth - start);
  const bool pilot = task_.bore != nullptr && d < task_.bore->drilled;
  const bool wider =
      task_.bore != nullptr && d > task_.bore->drilled && point && task_.bore->through;
  const double ratio = ((depth - start) / d).si;
  Step step = begin(
      StepKind::drill, *tool,
      pilot   ? "a pilot of " + length_text(job_, d) + " for the chisel edge of the next drill"
      : wider ? "drilled up to " + length_text(job_, d) + ", " + length_text(job_, depth) + " deep"
              : "drilled " + length_text(job_, d) + ", " + length_text(job_, depth) + " deep" +
                    (point ? " and the point" : ", through"));
  step.tailstock = machine_.manual();
  const CutContext c = context(*tool, StepKind::drill, d, Length(0.0));
  const CutConditions k = hole_conditions(c, d, depth - start);
  apply(step, k);
  const Length tip = point_length(d / 2.0);
  Pass pass;
  pass.from = {-start, Length(0.0)};
  pass.to = {-depth - tip, Length(0.0)};
  pass.cut = depth - start + tip;
  pass.approach = Length(approach_m);
  pass.overrun = point ? Length(0.0) : through_by;
  pass.large_diameter = pass.small_diameter = d;
  pass.depth = d / 2.0;
  pass.pecks = ratio > peck_from ? static_cast<int>(std::ceil(ratio - peck_from)) : 0;
  // Each peck goes out and in again over about the depth reached.
  pass.travel = depth + 100.0 * unit::mm + 2.0 * static_cast<double>(pass.pecks) * depth;
  set_speed(c, k, pass);
  step.passes.push_back(pass);
  step.from = -depth - (point ? tip : Length(0.0));
  Outline hole = Outline::cylinder(-depth, Length(0.0), d / 2.0);
  if (point) hole = with_point(hole, d / 2.0);
  done_inside(std::move(step), joined(task_.hollow, hole));
}

void OperationPlanner::ream() {
  if (task_.bore == nullptr || !task_.bore->reamed) return;
  const Surface& s = job_.surfaces[task_.bore->narrow];
  const Element& e = job_.element_of(s);
  const Tool* tool = sized_tool(ToolKind::ream, e.size.nominal, s.right - s.left);
  const Interval z = view_.between(s.left, s.right);
  const Length depth = -z.from, d = s.diameter();
  if (tool == nullptr || (z.to - z.from) > tool->deepest * d) {
    why_not = "no reamer of " + length_text(job_, e.size.nominal) + " goes " +
              length_text(job_, depth) + " deep";
    would_help = "a longer reamer, or a tie or groove that asks for a bored hole";
    return;
  }
  Step step = begin(StepKind::ream, *tool,
                    "reamed after " + length_text(job_, task_.bore->drilled) + ", " +
                        length_text(job_, d - task_.bore->drilled) + " on diameter");
  step.tailstock = machine_.manual();
  const CutContext c = context(*tool, StepKind::ream, d, Length(0.0));
  const CutConditions k = hole_conditions(c, d, depth);
  apply(step, k);
  Pass pass;
  pass.from = {z.to, d / 2.0};
  pass.to = {z.from, d / 2.0};
  pass.cut = z.to - z.from;
  pass.approach = Length(approach_m);
  pass.overrun = task_.bore->through ? through_by : Length(0.0);
  pass.large_diameter = pass.small_diameter = d;
  pass.depth = (d - task_.bore->drilled) / 2.0;
  pass.travel = pass.path() + 100.0 * unit::mm;
  set_speed(c, k, pass);
  step.passes.push_back(pass);
  step.from = z.from;
  step.to = z.to;
  step.gauged.push_back(task_.bore->narrow);
  const Length from = task_.bore->through ? task_.work.left() : z.from;
  done_inside(std::move(step), joined(task_.hollow, Outline::cylinder(from, z.to, d / 2.0)));
}

}  // namespace turnwright
