// SPDX-License-Identifier: MIT
// Boring with a bar. A void is cut turned over, so that the rules of the outside hold for it.
#include <algorithm>
#include <cmath>

#include "length_text.hpp"
#include "operation_planner.hpp"
#include "profile.hpp"
#include "turnwright/figure/stiffness.hpp"

namespace turnwright {
namespace {

constexpr Length bore_finish(0.3e-3);   // a side, 0.2-0.4 from memory
constexpr Length least_rough(0.25e-3);  // thinner is left to the finishing cut (from memory)
constexpr double spring_from = 4;       // a bar further out than this repeats the last cut

// The narrowest hole a bar passes on its way. What lies within the point of the widest drill at the
// far end is cut by the tip alone.
Length passed(const Outline& hollow, const Interval& i) {
  Length widest(0.0), least(1e9);
  auto straight = [&](const Segment& s) {
    return s.bulge == Bulge::none && s.from.r.si == s.to.r.si && s.from.r.si > same_point;
  };
  for (const Segment& s : hollow.pieces())
    if (straight(s) && s.to.z > i.from && s.from.z < i.to) widest = max(widest, s.from.r);
  const Length end = i.from + point_length(widest) + Length(0.5e-3);
  for (const Segment& s : hollow.pieces()) {
    const Length from = max(s.from.z, end), to = min(s.to.z, i.to);
    if (straight(s) && to - from > Length(1e-3)) least = min(least, s.from.r);
  }
  return least.si < 1e8 ? least : widest;
}

}  // namespace

Length OperationPlanner::hole_at(Length z) const {
  return task_.hollow.empty() ? Length(0.0)
                              : max(task_.hollow.left_of(z), task_.hollow.right_of(z));
}

// The stiffest bar that goes in and reaches: the thickest, steel before carbide.
const Tool* OperationPlanner::bar_for(Length enters, Length reach) const {
  auto fits = [&](const Tool& t) {
    return t.least_bore.si <= enters.si + same_point && t.reach.si >= reach.si - same_point;
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
Length OperationPlanner::bottom_of_bore() const {
  return max(task_.hollow_final.left(), task_.work.left());
}

void OperationPlanner::inside() {
  if (task_.roughs) rough_bore();
  if (!task_.finishes) return;
  for (auto steps :
       {&OperationPlanner::finish_bore, &OperationPlanner::ream, &OperationPlanner::inside_edges})
    if (why_not.empty()) (this->*steps)();
}

// What the bar may open here; a reamed element stays as drilled.
Outline OperationPlanner::bar_target() const {
  Outline target = task_.hollow_target;
  if (task_.bore == nullptr || !task_.bore->reamed) return target;
  const Surface& s = job_.surfaces[task_.bore->narrow];
  const Interval z = view_.between(s.left, s.right);
  const Interval where{max(z.from, target.left()), min(z.to, target.right())};
  return lowered(target, Outline::cylinder(where.from, where.to, task_.bore->drilled / 2.0), where);
}

void OperationPlanner::rough_bore() {
  const Outline target = bar_target();
  const Outline limit = spanned_limit(bore_finish, Length(axial_allowance), target);
  const Outline work = inverted(spanned(task_.hollow, task_.work), inversion_radius);
  const auto where = where_above(work, limit);
  bool wide = false;
  Length enters(1e9), deepest(0.0);
  for (const Interval& i : where) {
    if (i.width().si < shortest_shoulder_m) continue;
    // The thinnest layer: edges are wider.
    const Length thick = work.largest(i.from, i.to) - limit.largest(i.from, i.to);
    if (thick < least_rough && work.largest(i.from, i.to) < inversion_radius - Length(same_point))
      continue;
    wide = true;
    deepest = min(deepest, i.from);
    enters = min(enters, 2.0 * passed(task_.hollow, i));
  }
  if (!wide) return;
  enters = min(enters, 2.0 * hole_at(Length(0.0)));
  const Tool* bar = bar_for(enters, -deepest);
  if (bar == nullptr) {
    why_not = "no boring bar that enters a hole of " + length_text(job_, enters) + " reaches " +
              length_text(job_, -deepest);
    would_help =
        "a longer or carbide bar in the tools, a larger drill, or the bore from both faces";
    return;
  }
  bar_ = bar;
  Step step = begin(StepKind::bore, *bar, "bored to " + length_text(job_, bore_finish) + " a side");
  flat_bottom(*bar, step);
  bore_levels(*bar, limit, step);
}

Outline OperationPlanner::spanned_limit(Length radial, Length axial, const Outline& target) const {
  const Outline all = spanned(target, task_.work);
  return view_.local(bore_allowance(job_, view_.local(all), radial, axial));
}

// What the point of the drill leaves on a flat bottom is faced out from the middle.
void OperationPlanner::flat_bottom(const Tool& bar, Step& step) {
  if (task_.bore == nullptr || task_.bore->through) return;
  const auto& list = view_.from_left ? job_.part.bore_left : job_.part.bore_right;
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

void OperationPlanner::bore_levels(const Tool& bar, const Outline& limit, Step& step) {
  Outline work = inverted(spanned(task_.hollow, task_.work), inversion_radius);
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
  const Length widest = 2.0 * (inversion_radius - levels.back());
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
  step.limits.insert(step.limits.begin(),
                     {"reach of the bar", bar.reach.si, -deepest.si, unit::mm, false, ""});
  step.limits.insert(step.limits.begin(), {"depth", most.si, deepest_cut.si, unit::mm,
                                           most < bar.largest_depth, "depth, one more pass"});
  step.from = deepest;
  for (const Cut& cut : cuts) {
    const Level level = cut_level(work, limit, cut.after);
    for (auto i = level.cuts.rbegin(); i != level.cuts.rend(); ++i) {
      const Length radius = inversion_radius - cut.after;
      Pass pass = along(c, under_skin(k), i->to, i->from, radius, radius, Length(approach_m));
      pass.depth = min(work.largest(i->from, i->to), cut.before) - cut.after;
      step.passes.push_back(pass);
    }
    work = level.after;
  }
  const auto left = where_above(work, limit);
  if (std::any_of(left.begin(), left.end(),
                  [](const Interval& i) { return i.width().si > shortest_shoulder_m; })) {
    const auto more = path_passes(bar, StepKind::bore, inverted(limit, inversion_radius), left,
                                  k.used.depth, false, true);
    step.passes.insert(step.passes.end(), more.begin(), more.end());
    work = combine(work, limit, Envelope::lower);
  }
  if (step.passes.empty()) return;
  done_inside(std::move(step), inverted(work, inversion_radius));
}

void OperationPlanner::gauge_inside(Step& step, const std::vector<Interval>& where) const {
  for (const Interval& i : where)
    for (std::size_t n = job_.outside().size(); n < job_.surfaces.size(); ++n) {
      const Interval z = view_.between(job_.surfaces[n].left, job_.surfaces[n].right);
      if (z.from.si > i.to.si - same_point || z.to.si < i.from.si + same_point) continue;
      if (std::find(step.gauged.begin(), step.gauged.end(), n) == step.gauged.end())
        step.gauged.push_back(n);
    }
}

void OperationPlanner::finish_bore() {
  const Outline target = bar_target();
  const Outline limit = inverted(spanned(target, task_.work), inversion_radius);
  const Outline work = inverted(spanned(task_.hollow, task_.work), inversion_radius);
  auto left = where_above(work, limit);
  // Edges alone are for the countersink or the bar's back.
  std::erase_if(left, [&](const Interval& i) {
    const bool end = i.to.si > -same_point || i.from.si < job_.left().si + same_point;
    return end && i.width() < widest_edge + Length(same_point);
  });
  if (left.empty()) return;
  Length enters = 2.0 * hole_at(Length(0.0)), deepest(0.0);
  for (const Interval& i : left) {
    deepest = min(deepest, i.from);
    enters = min(enters, 2.0 * passed(task_.hollow, i));
  }
  const Tool* bar = bar_for(enters, -deepest);
  if (bar == nullptr) {
    why_not = "no boring bar that enters a hole of " + length_text(job_, enters) + " reaches " +
              length_text(job_, -deepest);
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
  step.passes = path_passes(*bar, StepKind::bore, inverted(reach, inversion_radius), where, depth,
                            true, true);
  gauge_inside(step, where);
  Length finest(1.0), widest(0.0);
  for (const std::size_t n : step.gauged) {
    if (job_.surfaces[n].ra.si > 0) finest = min(finest, job_.surfaces[n].ra);
    widest = max(widest, job_.surfaces[n].diameter());
  }
  const CutContext c = context(*bar, StepKind::bore, widest, finest.si < 1 ? finest : Length(0.0));
  apply(step, conditions_at(c, depth));
  step.limits.insert(step.limits.begin(),
                     {"reach of the bar", bar->reach.si, -deepest.si, unit::mm, false, ""});
  step.from = deepest;
  bar_bending(*bar, step);
  done_inside(std::move(step), inverted(combine(work, reach, Envelope::lower), inversion_radius));
}

// The bar bends away under the passive force of the last cut; far out it repeats the cut.
void OperationPlanner::bar_bending(const Tool& bar, Step& step) {
  const Length out = -step.from;
  const Force passive = passive_force(job_.material, bar, step.used.depth, step.used.feed);
  const Length bend =
      figure::DeflectionChuck::work_out<>({passive, out, bar.shank, bar.shank_modulus}).deflection;
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

}  // namespace turnwright
