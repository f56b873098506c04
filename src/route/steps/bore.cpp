// SPDX-License-Identifier: MIT
#include "steps/bore.hpp"

#include <algorithm>

#include "steps/tools.hpp"
#include "turnwright/figure/stiffness.hpp"

namespace turnwright {
namespace {

bool is_cylinder(const Segment& s) {
  return s.bulge == Bulge::none && s.from.r.si == s.to.r.si && s.from.r.si > same_point;
}

// The narrowest hole a bar passes on its way. What lies within the point of the widest drill at the
// far end is cut by the tip alone.
Length passed(const Outline& hollow, const Interval& i) {
  constexpr Length tip(0.5e-3), shortest(1e-3), none(1e9);
  Length widest(0.0), least = none;
  for (const Segment& s : hollow.pieces())
    if (is_cylinder(s) && s.to.z > i.from && s.from.z < i.to) widest = max(widest, s.from.r);
  const Length end = i.from + point_length(widest) + tip;
  for (const Segment& s : hollow.pieces()) {
    const Length from = max(s.from.z, end), to = min(s.to.z, i.to);
    if (is_cylinder(s) && to - from > shortest) least = min(least, s.from.r);
  }
  return least < none ? least : widest;
}

// The cut once more, without infeed.
std::vector<CutSegment> spring_passes(const Practice& practice,
                                      const std::vector<CutSegment>& segments) {
  std::vector<CutSegment> again;
  for (CutSegment segment : segments)
    if (segment.motion == Motion::along) {
      segment.depth = Length(0.0);
      again.push_back(as_pass(practice, segment));
    }
  return again;
}

}  // namespace

InvertedBody inverted_bore(const Workpiece& work) {
  return InvertedBody::of(spanned(work.hollow, work.outside));
}

bool holds_land(const Outline& shape, const Interval& z) {
  return std::any_of(shape.pieces().begin(), shape.pieces().end(), [&](const Segment& s) {
    return is_cylinder(s) && min(s.to.z, z.to) - max(s.from.z, z.from) > shortest_land;
  });
}

Length layer_over(const InvertedBody& body, const InvertedBody& limit, const Interval& z) {
  Length thick = body.shape().largest(z.from, z.to) - limit.shape().largest(z.from, z.to);
  for (const Segment& s : limit.shape().pieces()) {
    const Interval flat{max(s.from.z, z.from), min(s.to.z, z.to)};
    if (!is_cylinder(s) || flat.width() <= shortest_land) continue;
    thick = max(thick, body.shape().left_of((flat.from + flat.to) / 2.0) - s.from.r);
  }
  return thick;
}

Outline bar_target(const OperationContext& op, const Workpiece& work) {
  const Bore* bore = op.task.bore;
  const Outline& target = work.hollow_target;
  if (bore == nullptr || !bore->reamed) return target;
  const Surface& s = op.job.surfaces[bore->narrow];
  const Interval z = op.view.between(s.left, s.right);
  const Interval where{max(z.from, target.left()), min(z.to, target.right())};
  return lowered(target, Outline::cylinder(where.from, where.to, bore->drilled / 2.0), where);
}

void BarReach::widen(const Workpiece& work, const Interval& cut) {
  deepest = min(deepest, cut.from);
  hole = min(hole, 2.0 * passed(work.hollow, cut));
}

const Tool* take_bar(const OperationContext& op, Workpiece& work, const BarReach& reach) {
  if (work.bar == nullptr || !bar_fits(*work.bar, reach.hole, -reach.deepest)) {
    const Tool* bar = thickest_bar(op.shop, op.machine, reach.hole, -reach.deepest);
    if (bar == nullptr) return nullptr;
    work.bar = bar;
  }
  return work.bar;
}

Infeasible no_bar(const BarReach& reach, Messages remedies) {
  return {{"steps.no-boring-bar", {{"hole", reach.hole}, {"reach", -reach.deepest}}},
          std::move(remedies)};
}

void gauge_inside(const OperationContext& op, const std::vector<Interval>& where, Step& step) {
  for (const Interval& i : where)
    for (std::size_t n = op.job.outside().size(); n < op.job.surfaces.size(); ++n) {
      const Interval z = op.view.between(op.job.surfaces[n].left, op.job.surfaces[n].right);
      if (z.from.si > i.to.si - same_point || z.to.si < i.from.si + same_point) continue;
      gauge(step, n);
    }
}

void limit_bar_bending(const OperationContext& op, const Tool& bar, Step& step) {
  constexpr Length none(1.0);
  const Length out = -step.from;
  const Force passive = passive_force(op.job.material, bar, step.used.depth, step.used.feed);
  const Length bend =
      figure::DeflectionChuck::work_out<>({passive, out, bar.shank, bar.shank_modulus}).deflection;
  Length finest = none;
  for (const std::size_t n : step.gauged) finest = min(finest, op.job.surfaces[n].tolerance);
  if (finest >= none) return;
  const Length allowed = op.shop.policy.deflection_share * finest;
  const bool bends = 2.0 * bend > allowed || out > op.shop.practice.spring_pass_from * bar.shank;
  step.limits.push_back({LimitId::bar_bending, allowed.si, 2.0 * bend.si, unit::um, bends,
                         bends ? Remedy::spring_pass : Remedy::none});
  if (!bends) return;
  const auto again = spring_passes(op.shop.practice, step.segments);
  step.segments.insert(step.segments.end(), again.begin(), again.end());
}

}  // namespace turnwright
