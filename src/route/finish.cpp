// SPDX-License-Identifier: MIT
// The finishing contour and the bending of the work under it.
#include <algorithm>
#include <cmath>

#include "bend.hpp"
#include "length_text.hpp"
#include "operation_planner.hpp"
#include "turnwright/figure/cutting.hpp"

namespace turnwright {

// A step down of hundredths behind a shoulder is left to the tool's flank: what remains is smaller
// than any broken edge.
Outline OperationPlanner::finished_by(const Tool& tool) const {
  const Outline target = blocked_left(task_.target, task_.zone_left);
  Outline shape = reachable(target, tool.copying_angle);
  for (const Interval& i : where_above(shape, target)) {
    const Length gap =
        shape.largest(i.from, i.to) - min(target.right_of(i.from), target.left_of(i.to));
    // Beside a knurl the rolls press the corner in.
    const Wanted here = wanted_at((i.from + i.to) / 2.0);
    const bool rolled =
        here.surface != npos && job_.element_of(job_.surfaces[here.surface]).knurl.has_value();
    const double most =
        rolled ? job_.element_of(job_.surfaces[here.surface]).knurl->pitch.si : smallest_edge_m;
    if (gap.si > most || i.width().si > most) continue;
    shape = lowered(shape, target, i);
  }
  return shape;
}

void OperationPlanner::finish() {
  const Tool* tool = finishing_tool();
  const Outline shape = tool == nullptr ? Outline() : finished_by(*tool);
  const auto where = tool == nullptr
                         ? std::vector<Interval>{}
                         : where_above(task_.work.only(task_.zone_left, Length(0.0)), shape);
  if (where.empty()) return;
  if (tool->nose_radius.si > smallest_corner().si + same_point) {
    why_not = "a corner of " + length_text(job_, smallest_corner()) +
              " is sharper than the nose radius " + length_text(job_, tool->nose_radius) + " of " +
              tool->name;
    would_help =
        "a finishing tool with a nose radius of at most " + length_text(job_, smallest_corner());
    return;
  }
  const Length depth = task_.finisher_takes_both ? task_.last_cut : finish_allowance(machine_);
  Step step = begin(StepKind::finish, *tool, "the contour to size, faces and reliefs with it");
  step.from = task_.zone_left;
  step.passes = path_passes(*tool, StepKind::finish, shape, where, depth, true);
  // The finest surface decides what the step shows.
  Length finest(1.0);
  for (const Interval& i : where)
    for (std::size_t n = 0; n < job_.outside().size(); ++n) {
      const Surface& s = job_.surfaces[n];
      const Length a = view_.z(s.left), b = view_.z(s.right);
      if (min(a, b).si > i.to.si - same_point || max(a, b).si < i.from.si + same_point) continue;
      if (s.as_drawn) continue;
      if (std::find(step.gauged.begin(), step.gauged.end(), n) == step.gauged.end())
        step.gauged.push_back(n);
      if (s.ra.si > 0) finest = min(finest, s.ra);
    }
  const Length widest = 2.0 * shape.largest(where.front().from, where.back().to);
  const CutContext c = context(*tool, StepKind::finish, min(widest, 2.0 * task_.work.largest()),
                               finest.si < 1 ? finest : Length(0.0));
  apply(step, conditions_at(c, depth));
  step.limits.insert(step.limits.begin(),
                     {"depth", tool->largest_depth.si, depth.si, unit::mm, false, ""});
  bending(*tool, step);
  done(std::move(step), combine(task_.work, shape, Envelope::lower));
}

// On diameter: the passive force times the compliance, doubled.
Length OperationPlanner::bent(const Tool& tool, const Pass& pass, double compliance) const {
  const Force fp = passive_force(job_.material, tool, pass.depth, pass.feed);
  return Length(2 * fp.si * compliance);
}

// The variation of the deflection along a toleranced surface, doubled, against a share of its
// tolerance. Knobs: depth (lighter last cuts), then feed.
void OperationPlanner::bending(const Tool& tool, Step& step) {
  const HeldWork held{
      task_.target,
      task_.jaw,
      Length(0.0),
      task_.operation.support,
      job_.material.elastic_modulus,
      shop_.policy.chuck_compliance,
      task_.hollow.empty() ? nullptr : &task_.hollow,
      task_.operation.steady ? std::optional<Length>(task_.jaw / 2.0) : std::nullopt,
      task_.operation.follow};
  LimitCheck worst{"bending over the surface", 1, 0, unit::um, false, ""};
  std::vector<Pass> passes;
  for (Pass pass : step.passes) {
    const Wanted wanted = wanted_at((pass.from.z + pass.to.z) / 2.0);
    if (pass.motion != Motion::along || wanted.surface == npos || wanted.grade > 11) {
      passes.push_back(pass);
      continue;
    }
    const Surface& surface = job_.surfaces[wanted.surface];
    const double range = compliance_range(held, pass.to.z, pass.from.z);
    const Length allowed = shop_.policy.deflection_share * surface.tolerance;
    std::string changed;
    if (bent(tool, pass, range) > allowed && pass.depth / 2.0 >= tool.least_depth) {
      changed = "depth, one more light cut";
      pass.depth = pass.depth / 2.0;
      Pass extra = pass;
      extra.starts_path = true;
      extra.approach = Length(approach_m);
      extra.travel = extra.path();
      passes.push_back(extra);
    }
    while (bent(tool, pass, range) > allowed && pass.feed * 0.8 >= tool.least_feed) {
      const Length lighter = machine_feed(machine_, pass.feed * 0.8);
      if (lighter >= pass.feed) break;  // the feed box has no finer step
      changed = "feed";
      pass.feed = lighter;
    }
    passes.push_back(pass);
    const Length y = bent(tool, pass, range);
    if (y > allowed)
      cautions_.push_back(surface.name + " bends by " + readable(in(y, unit::um), 3) +
                          " um over its length (allowed " + readable(in(allowed, unit::um), 3) +
                          " um): support it, or leave it for grinding");
    if ((y / allowed).si >= worst.actual / worst.allowed)
      worst = {worst.name, allowed.si, y.si, unit::um, !changed.empty(), changed};
  }
  step.passes = std::move(passes);
  if (worst.actual > 0) step.limits.push_back(worst);
}

}  // namespace turnwright
