// SPDX-License-Identifier: MIT
// What is worked inside: spot, drill, bore, ream, edges, grooves. A void is cut turned over, so that
// the rules of the outside hold for it.
#include <algorithm>
#include <cmath>

#include "features.hpp"
#include "profile.hpp"
#include "said.hpp"
#include "setup_planner.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/stiffness.hpp"

namespace turnwright {
namespace {

constexpr Length pilot_above(20e-3);       // a twist drill above this is piloted (common practice)
constexpr double pilot_share = 0.4;        // of its diameter: about the chisel edge (from memory)
constexpr Length through_by(2e-3);         // overrun of a drill; approach as everywhere
constexpr Length own_drill_worth(1.5e-3);  // how much smaller the faster drill may be (typical)
constexpr Length worth_drilling(4e-3);     // a wider drill saves more than the bar's passes (typical)
constexpr Length flat_stop(0.2e-3);        // a drill stays this far above a flat bottom
constexpr Length bore_finish(0.3e-3);      // a side, 0.2-0.4 from memory
constexpr Length least_rough(0.25e-3);     // a thinner rough cut is left to the finishing cut (from memory)
constexpr Length widest_edge(3e-3);        // a wider break is a cone
constexpr double peck_from = 3;            // diameters deep, then every diameter (from memory)
constexpr double spring_from = 4;          // a bar further out than this repeats the last cut

// The void over the whole length of the work, r = 0 where there is material.
Outline spanned(const Outline& hollow, const Outline& work) {
  const Outline none = Outline::cylinder(work.left(), work.right(), Length(0.0));
  return hollow.empty() ? none
                        : combine(hollow, none, Take::upper).only(work.left(), work.right());
}

Outline joined(const Outline& a, const Outline& b) {
  return a.empty() ? b : combine(a, b, Take::upper);
}

// The narrowest hole a bar passes on its way: straight stretches count, the cone of a drill at the end
// does not.
Length passed(const Outline& hollow, const Interval& i) {
  Length least(1e9);
  for (const Segment& s : hollow.pieces()) {
    const Length from = max(s.from.z, i.from), to = min(s.to.z, i.to);
    const bool straight = s.bulge == Bulge::none && s.from.r.si == s.to.r.si;
    if (straight && to - from > Length(1e-3) && s.from.r.si > touch) least = min(least, s.from.r);
  }
  return least;
}

}  // namespace

Length SetupPlanner::hole_at(Length z) const {
  return task_.hollow.empty() ? Length(0.0)
                              : max(task_.hollow.left_of(z), task_.hollow.right_of(z));
}

// One that goes as deep before one that does not, this kind of lathe's own before a common one.
const Tool* SetupPlanner::sized_tool(ToolKind kind, Length size, Length depth) const {
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

// The stiffest bar that goes in and reaches: the thickest, steel before carbide.
const Tool* SetupPlanner::bar_for(Length enters, Length reach) const {
  auto fits = [&](const Tool& t) {
    return t.least_bore.si <= enters.si + touch && t.reach.si >= reach.si - touch;
  };
  if (bar_ != nullptr && fits(*bar_)) return bar_;
  const Tool* best = nullptr;
  for (const Tool& t : shop_.tools) {
    if (t.kind != ToolKind::bore || !fits_lathe(t) || !fits(t)) continue;
    if (best == nullptr || t.shank > best->shank) best = &t;
  }
  return best;
}

// Local z of the deepest place that is opened from this end.
Length SetupPlanner::bottom_of_bore() const {
  return max(task_.hollow_final.left(), task_.work.left());
}

void SetupPlanner::inside() {
  if (task_.roughs) rough_bore();
  if (!task_.finishes) return;
  for (auto steps : {&SetupPlanner::finish_bore, &SetupPlanner::ream, &SetupPlanner::inside_edges})
    if (why_not.empty()) (this->*steps)();
}

// A plain hole too deep for its drill is met from the other end.
void SetupPlanner::drill_to_meet() {
  const Bore& bore = job_.bores[view_.from_left ? 0 : 1];
  if (!task_.last || bore.empty() || !bore.through || hole_at(Length(0.0)).si > touch) return;
  // The end of what the first holding drilled, from the point back.
  Length met = task_.work.left();
  for (const Segment& s : task_.hollow.pieces())
    if (max(s.from.r, s.to.r).si > touch) met = max(met, s.from.z);
  const Tool* tool = sized_tool(ToolKind::drill, bore.drilled, -met);
  if (tool == nullptr || -met > tool->deepest * bore.drilled) return;
  if (tool->grade == "hss") spot(bore.drilled);
  drill_to(bore.drilled, -met, false);
  task_.setup.steps.back().why += ", from the other end to meet the first";
}

void SetupPlanner::drill() {
  if (task_.bore == nullptr) {
    drill_to_meet();
    return;
  }
  const Bore& bore = *task_.bore;
  // A tube or a cored casting is open already.
  if (hole_at(Length(0.0)).si > touch) return;
  const Surface& narrow = job_.surfaces[bore.narrow];
  const Length target = 2.0 * min(narrow.left_radius, narrow.right_radius);
  Length d = bore.drilled;
  const bool flat = job_.element_of(job_.surfaces[bore.narrow]).flat;
  const Length end = bore.through ? -task_.work.left() : -view_.local(bore.finished).left();
  if (bore.through && !bore.to_size && !bore.reamed) {
    // A larger drill saves boring, and one of this kind of lathe's own is faster.
    Length common = d, own(0.0);
    for (const Tool& t : shop_.tools)
      if (t.kind == ToolKind::drill && fits_lathe(t))
        for (const Length size : t.sizes)
          if (size.si <= (target - under_size(narrow)).si + touch && end <= t.deepest * size)
            (t.for_lathe == ToolFor::both ? common : own) =
                max(t.for_lathe == ToolFor::both ? common : own, size);
    d = own + own_drill_worth >= common ? own : common;
  }
  if (d.si <= 0) {
    why_not = "no drill of the shop opens a bore of " + said(job_, target);
    would_help = "a drill of at most " + said(job_, target - under_size(narrow)) + ", or 'allow' with a time";
    return;
  }
  const Tool* tool = sized_tool(ToolKind::drill, d, end);
  if (tool == nullptr) {
    why_not = "no drill of " + said(job_, d) + " goes on " + machine_.name;
    would_help = "a drill of this size";
    return;
  }
  const bool twist = tool->grade == "hss";
  Length depth = end;
  if (!bore.through) depth = flat ? end - point_length(d / 2.0) - flat_stop
                                  : end - point_length(d / 2.0);
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
  if (long_hole) {
    why_not = "a hole of " + said(job_, d) + " is " + said(job_, depth) + " deep, " +
              readable((depth / d).si, 3) + " diameters; the " + tool->name + " go " +
              readable(tool->deepest);
    would_help = "a deep-hole drill in the tools, a bore from both faces, or 'allow' with a time";
    return;
  }
  if (twist && d > pilot_above) {
    Length pilot(0.0);
    for (const Length size : tool->sizes)
      if (size.si <= 1.25 * pilot_share * d.si + touch) pilot = max(pilot, size);
    if (pilot.si > 0 && depth < tool->deepest * pilot) drill_to(pilot, depth, !bore.through);
  }
  drill_to(d, depth, !bore.through);
  if (bore.to_size && !task_.setup.steps.empty())
    task_.setup.steps.back().gauged.push_back(bore.narrow);
  drill_wider(d);
}

// Wider stretches towards the mouth are drilled up before they are bored.
void SetupPlanner::drill_wider(Length drilled) {
  const Lie lie = view_.from_left ? Lie::bore_left : Lie::bore_right;
  for (std::size_t n = job_.surfaces.size(); n-- > job_.outside().size();) {
    const Surface& s = job_.surfaces[n];
    if (s.lie != lie || !why_not.empty()) continue;
    const Length room = 2.0 * min(s.left_radius, s.right_radius) - under_size(s);
    const Length end = -view_.between(s.left, s.right).from;
    Length d(0.0);
    for (const Tool& t : shop_.tools)
      if (t.kind == ToolKind::drill && fits_lathe(t))
        for (const Length size : t.sizes)
          if (size <= room && end <= t.deepest * size) d = max(d, size);
    // Its point reaches into the hole that is there; the corner is left to the bar.
    const Length depth = end - point_length((d - drilled) / 2.0) - flat_stop;
    if (d < drilled + worth_drilling || depth < Length(shortest_shoulder_m)) continue;
    drill_to(d, depth, true);
    drilled = d;
  }
}

void SetupPlanner::spot(Length diameter) {
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
  const Outline cone(std::vector<Segment>{
      {{-d / 2.0, Length(0.0)}, {Length(0.0), d / 2.0}, Bulge::none, {}, {}}});
  // Not outside of what the bore will be.
  done_inside(std::move(step),
              joined(task_.hollow, combine(cone, task_.hollow_final, Take::lower)));
}

void SetupPlanner::drill_to(Length d, Length depth, bool point) {
  const Tool* tool = sized_tool(ToolKind::drill, d, depth);
  const bool pilot = task_.bore != nullptr && d < task_.bore->drilled;
  const bool wider = task_.bore != nullptr && d > task_.bore->drilled && point && task_.bore->through;
  const double ratio = (depth / d).si;
  Step step = begin(StepKind::drill, *tool,
                    pilot ? "a pilot of " + said(job_, d) + " for the chisel edge of the next drill"
                    : wider ? "drilled up to " + said(job_, d) + ", " + said(job_, depth) + " deep"
                          : "drilled " + said(job_, d) + ", " + said(job_, depth) + " deep" +
                                (point ? " and the point" : ", through"));
  step.tailstock = machine_.manual();
  const CutContext c = context(*tool, StepKind::drill, d, Length(0.0));
  const CutConditions k = hole_conditions(c, d, depth);
  apply(step, k);
  const Length tip = point_length(d / 2.0);
  Pass pass;
  pass.from = {Length(0.0), Length(0.0)};
  pass.to = {-depth - tip, Length(0.0)};
  pass.cut = depth + tip;
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

// What the bar may open here; a reamed element stays as drilled.
Outline SetupPlanner::bar_target() const {
  Outline target = task_.hollow_target;
  if (task_.bore == nullptr || !task_.bore->reamed) return target;
  const Surface& s = job_.surfaces[task_.bore->narrow];
  const Interval z = view_.between(s.left, s.right);
  const Interval where{max(z.from, target.left()), min(z.to, target.right())};
  return lowered(target, Outline::cylinder(where.from, where.to, task_.bore->drilled / 2.0), where);
}

void SetupPlanner::rough_bore() {
  const Outline target = bar_target();
  const Outline limit = spanned_limit(bore_finish, Length(axial_allowance), target);
  const Outline work = turned_over(spanned(task_.hollow, task_.work), bore_flip);
  const auto where = where_above(work, limit);
  bool wide = false;
  Length enters(1e9), deepest(0.0);
  for (const Interval& i : where) {
    if (i.width().si < shortest_shoulder_m) continue;
    // The thinnest layer: edges are wider.
    const Length thick = work.largest(i.from, i.to) - limit.largest(i.from, i.to);
    if (thick < least_rough && work.largest(i.from, i.to) < bore_flip - Length(touch)) continue;
    wide = true;
    deepest = min(deepest, i.from);
    enters = min(enters, 2.0 * passed(task_.hollow, i));
  }
  if (!wide) return;
  enters = min(enters, 2.0 * hole_at(Length(0.0)));
  const Tool* bar = bar_for(enters, -deepest);
  if (bar == nullptr) {
    why_not = "no boring bar that enters a hole of " + said(job_, enters) + " reaches " +
              said(job_, -deepest);
    would_help = "a longer or carbide bar in the tools, a larger drill, or the bore from both faces";
    return;
  }
  bar_ = bar;
  Step step = begin(StepKind::bore, *bar, "bored to " + said(job_, bore_finish) + " a side");
  flat_bottom(*bar, step);
  bore_levels(*bar, limit, step);
}

Outline SetupPlanner::spanned_limit(Length radial, Length axial, const Outline& target) const {
  const Outline all = spanned(target, task_.work);
  const Outline local = view_.local(bore_allowance(job_, view_.local(all), radial, axial));
  return local;
}

// What the point of the drill leaves on a flat bottom is faced out from the middle.
void SetupPlanner::flat_bottom(const Tool& bar, Step& step) {
  if (task_.bore == nullptr || task_.bore->through) return;
  const auto& list =
      view_.from_left ? job_.part.bore_left : job_.part.bore_right;
  if (!list.back().flat) return;
  const Outline own = view_.local(task_.bore->turned);
  const Length bottom = own.left();
  const Length r = min(task_.bore->drilled / 2.0, own.right_of(bottom));
  const Length to_go = (task_.hollow.empty() ? Length(0.0) : task_.hollow.left()) - bottom;
  // From the drill's shoulder down: the point itself counts with its whole length.
  const Length height = max(point_length(r) + flat_stop, to_go);
  const int cuts = std::max(1, static_cast<int>(std::ceil((height / bar.largest_depth).si)));
  const CutContext c = context(bar, StepKind::bore, 2.0 * r, Length(0.0));
  const Length each = height / static_cast<double>(cuts);
  const CutConditions k = conditions_at(c, each);
  for (int i = 0; i < cuts; ++i)
    step.passes.push_back(across(c, k, bottom + static_cast<double>(cuts - 1 - i) * each, r,
                                 Length(0.0), Length(0.0)));
  task_.hollow = joined(task_.hollow, Outline::cylinder(bottom, bottom + height, r));
}

void SetupPlanner::bore_levels(const Tool& bar, const Outline& limit, Step& step) {
  Outline work = turned_over(spanned(task_.hollow, task_.work), bore_flip);
  Length top(0.0), deepest(0.0);
  for (const Interval& i : where_above(work, limit)) {
    if (i.width().si < shortest_shoulder_m) continue;
    top = max(top, work.largest(i.from, i.to));
    deepest = min(deepest, i.from);
  }
  const std::vector<Length> levels = shoulder_levels(limit, top, work.left());
  if (levels.empty()) {
    if (!step.passes.empty()) done_inside(std::move(step), task_.hollow);
    return;
  }
  const Length widest = 2.0 * (bore_flip - levels.back());
  const CutContext c = context(bar, StepKind::bore, widest, Length(0.0));
  Length most = bar.largest_depth;
  CutConditions k = conditions_at(c, most);
  while (!k.depth_ok && most > bar.least_depth) {
    most = max(most * 0.9, bar.least_depth);
    k = conditions_at(c, most);
  }
  const std::vector<Cut> cuts = divided(levels, top, most, Length(0.0));
  Length deepest_cut(0.0);
  for (const Cut& cut : cuts) deepest_cut = max(deepest_cut, cut.depth());
  k = conditions_at(c, deepest_cut);
  apply(step, k);
  step.limits.insert(step.limits.begin(), {"reach of the bar", bar.reach.si, -deepest.si, unit::mm,
                                           false, ""});
  step.limits.insert(step.limits.begin(), {"depth", most.si, deepest_cut.si, unit::mm,
                                           most < bar.largest_depth, "depth, one more pass"});
  step.from = deepest;
  for (const Cut& cut : cuts) {
    const Level level = cut_level(work, limit, cut.after);
    for (auto i = level.cuts.rbegin(); i != level.cuts.rend(); ++i) {
      const Length radius = bore_flip - cut.after;
      Pass pass = along(c, under_skin(k), i->to, i->from, radius, radius, Length(approach_m));
      pass.depth = min(work.largest(i->from, i->to), cut.before) - cut.after;
      step.passes.push_back(pass);
    }
    work = level.after;
  }
  const auto left = where_above(work, limit);
  if (std::any_of(left.begin(), left.end(),
                  [](const Interval& i) { return i.width().si > shortest_shoulder_m; })) {
    const auto more = path_passes(bar, StepKind::bore, turned_over(limit, bore_flip), left,
                                  k.used.depth, false, true);
    step.passes.insert(step.passes.end(), more.begin(), more.end());
    work = combine(work, limit, Take::lower);
  }
  if (step.passes.empty()) return;
  done_inside(std::move(step), turned_over(work, bore_flip));
}

void SetupPlanner::gauge_inside(Step& step, const std::vector<Interval>& where) const {
  for (const Interval& i : where)
    for (std::size_t n = job_.outside().size(); n < job_.surfaces.size(); ++n) {
      const Interval z = view_.between(job_.surfaces[n].left, job_.surfaces[n].right);
      if (z.from.si > i.to.si - touch || z.to.si < i.from.si + touch) continue;
      if (std::find(step.gauged.begin(), step.gauged.end(), n) == step.gauged.end())
        step.gauged.push_back(n);
    }
}

void SetupPlanner::finish_bore() {
  const Outline target = bar_target();
  const Outline limit = turned_over(spanned(target, task_.work), bore_flip);
  const Outline work = turned_over(spanned(task_.hollow, task_.work), bore_flip);
  auto left = where_above(work, limit);
  // Edges alone are for the countersink or the bar's back.
  std::erase_if(left, [&](const Interval& i) {
    const bool end = i.to.si > -touch || i.from.si < job_.left().si + touch;
    return end && i.width() < widest_edge + Length(touch);
  });
  if (left.empty()) return;
  Length enters = 2.0 * hole_at(Length(0.0)), deepest(0.0);
  for (const Interval& i : left) {
    deepest = min(deepest, i.from);
    enters = min(enters, 2.0 * passed(task_.hollow, i));
  }
  const Tool* bar = bar_for(enters, -deepest);
  if (bar == nullptr) {
    why_not = "no boring bar that enters a hole of " + said(job_, enters) + " reaches " +
              said(job_, -deepest);
    would_help = "a longer or carbide bar in the tools, or a bore that is reamed";
    return;
  }
  bar_ = bar;
  const Outline reach = reachable(limit, bar->copying_angle);
  const auto where = where_above(work, reach);
  if (where.empty()) return;
  // A thin layer that was not worth a rough cut comes off with it.
  Length depth = bore_finish;
  for (const Interval& i : left)
    depth = max(depth, min(work.largest(i.from, i.to) - limit.largest(i.from, i.to),
                           bore_finish + least_rough));
  Step step = begin(StepKind::bore, *bar, "the bore to size");
  step.passes = path_passes(*bar, StepKind::bore, turned_over(reach, bore_flip), where, depth,
                            true, true);
  gauge_inside(step, where);
  Length finest(1.0), widest(0.0);
  for (const std::size_t n : step.gauged) {
    if (job_.surfaces[n].ra.si > 0) finest = min(finest, job_.surfaces[n].ra);
    widest = max(widest, job_.surfaces[n].diameter());
  }
  const CutContext c =
      context(*bar, StepKind::bore, widest, finest.si < 1 ? finest : Length(0.0));
  apply(step, conditions_at(c, depth));
  step.limits.insert(step.limits.begin(),
                     {"reach of the bar", bar->reach.si, -deepest.si, unit::mm, false, ""});
  step.from = deepest;
  bar_bending(*bar, step);
  done_inside(std::move(step), turned_over(combine(work, reach, Take::lower), bore_flip));
}

// The bar bends away under the passive force of the last cut; far out it repeats the cut.
void SetupPlanner::bar_bending(const Tool& bar, Step& step) {
  const Length out = -step.from;
  const Force passive = [&] {
    const Pressure kc = figure::SpecificForce::work_out<>({job_.material.kc11, job_.material.mc,
                                                           step.used.feed, bar.lead_angle})
                            .specific_force;
    const Force fc =
        figure::CuttingForce::work_out<>({step.used.depth, step.used.feed, kc}).force;
    return figure::PassiveForce::work_out<>({fc, step.used.depth, bar.nose_radius}).force;
  }();
  const Length bend = figure::DeflectionChuck::work_out<>(
                          {passive, out, bar.shank, bar.shank_modulus})
                          .deflection;
  Length finest(1.0);
  for (const std::size_t n : step.gauged) finest = min(finest, job_.surfaces[n].tolerance);
  if (finest.si >= 1) return;
  const Length allowed = shop_.policy.deflection_share * finest;
  const bool bends = 2.0 * bend > allowed || out > spring_from * bar.shank;
  step.limits.push_back({"bending of the bar", allowed.si, 2.0 * bend.si, unit::um, bends,
                         bends ? "a spring pass" : ""});
  if (!bends) return;
  std::vector<Pass> again;
  for (Pass pass : step.passes)
    if (pass.motion == Motion::along) {
      pass.depth = Length(0.0);
      pass.starts_path = true;
      pass.approach = Length(approach_m);
      pass.travel = pass.path();
      again.push_back(pass);
    }
  step.passes.insert(step.passes.end(), again.begin(), again.end());
}

void SetupPlanner::ream() {
  if (task_.bore == nullptr || !task_.bore->reamed) return;
  const Surface& s = job_.surfaces[task_.bore->narrow];
  const Element& e = job_.element_of(s);
  const Tool* tool = sized_tool(ToolKind::ream, e.size.nominal, s.right - s.left);
  const Interval z = view_.between(s.left, s.right);
  const Length depth = -z.from, d = s.diameter();
  if (tool == nullptr || (z.to - z.from) > tool->deepest * d) {
    why_not = "no reamer of " + said(job_, e.size.nominal) + " goes " + said(job_, depth) + " deep";
    would_help = "a longer reamer, or a tie or groove that asks for a bored hole";
    return;
  }
  Step step = begin(StepKind::ream, *tool,
                    "reamed after " + said(job_, task_.bore->drilled) + ", " +
                        said(job_, d - task_.bore->drilled) + " on diameter");
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
  done_inside(std::move(step),
              joined(task_.hollow, Outline::cylinder(from, z.to, d / 2.0)));
}

// Edges and grooves that are left: the mouth, the far edge, recesses.
void SetupPlanner::inside_edges() {
  const Outline final = spanned(task_.hollow_final, task_.work);
  const auto left = where_above(final.only(task_.work.left(), Length(0.0)),
                                spanned(task_.hollow, task_.work));
  for (auto i = left.rbegin(); i != left.rend() && why_not.empty(); ++i) {
    const bool narrow = i->width() < widest_edge + Length(touch);
    const bool mouth = i->to.si > -touch;
    const bool far_end = i->from.si < job_.left().si + touch;
    if (narrow && mouth)
      edge(*i, false);
    else if (narrow && far_end) {
      if (task_.last) edge(*i, true);
    } else if (far_end && !task_.last)
      continue;  // the other holding opens it
    else
      inside_groove(*i);
  }
}

// A break of an edge: a countersink at the mouth of a plain hole, else the bar, its back at the far
// end.
void SetupPlanner::edge(const Interval& i, bool far_end) {
  const Length r = task_.hollow_final.largest(i.from, i.to);
  const Length hole = hole_at(far_end ? i.to : i.from);
  const Tool* sink = tool_of(ToolKind::countersink);
  const bool sunk = !far_end && sink != nullptr && 2.0 * r <= sink->sizes.back() &&
                    std::abs((r - task_.hollow_final.right_of(i.from)).si - i.width().si) <
                        0.02 * i.width().si;
  const Tool* tool = sunk ? sink : bar_for(2.0 * hole, far_end ? -i.from : i.width());
  if (tool == nullptr) {
    why_not = "no tool breaks the edge of the bore at " + said(job_, -view_.z(i.to));
    would_help = "a boring bar that enters " + said(job_, 2.0 * hole);
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
Outline SetupPlanner::opened(const Interval& i) const {
  return joined(task_.hollow, task_.hollow_final.only(i.from, i.to));
}

void SetupPlanner::inside_groove(const Interval& interval) {
  const Length hole = hole_at(interval.to);
  const Length r = task_.hollow_final.largest(interval.from, interval.to);
  const Length depth = r - task_.hollow.left_of(interval.to);
  const Tool* best = nullptr;
  for (const Tool& t : shop_.tools)
    if (t.kind == ToolKind::inside_groove && fits_lathe(t) && t.width < interval.width() + Length(touch) &&
        t.reach.si >= depth.si - touch && t.least_bore < 2.0 * hole + Length(touch) &&
        (best == nullptr || t.width > best->width))
      best = &t;
  if (best == nullptr) {
    why_not = "no tool reaches the recess in the bore at " + said(job_, -view_.z(interval.to)) +
              " (" + said(job_, interval.width()) + " wide, " + said(job_, depth) + " deep, in a hole of " +
              said(job_, 2.0 * hole) + ")";
    would_help = "an inside grooving tool no wider than " + said(job_, interval.width()) +
                 " that reaches " + said(job_, depth);
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
