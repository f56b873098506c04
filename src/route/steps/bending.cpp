// SPDX-License-Identifier: MIT
#include "steps/bending.hpp"

#include "geometry/bend.hpp"

namespace turnwright {
namespace {

HeldWork held_work(const OperationContext& op, const Workpiece& work) {
  const OperationTask& task = op.task;
  return {task.target,
          task.jaw,
          Length(0.0),
          task.operation.support,
          op.job.material.elastic_modulus,
          op.shop.practice,
          op.shop.policy.chuck_compliance,
          work.hollow.empty() ? nullptr : &work.hollow,
          task.operation.steady ? std::optional<Length>(task.jaw / 2.0) : std::nullopt,
          task.operation.follow};
}

// A cut on a surface whose size it may spoil.
struct SurfaceCut {
  const Practice& practice;
  const Material& material;
  const Machine& machine;
  const Tool& tool;
  double range = 0;  // of the compliance along it, m/N
  Length allowed{};

  // On diameter: the passive force times the compliance, doubled.
  Length bend(const CutSegment& segment) const {
    const Force fp = passive_force(material, tool, segment.depth, segment.feed);
    return Length(2 * fp.si * range);
  }
  bool too_much(const CutSegment& segment) const { return bend(segment) > allowed; }
};

// The feed between one that bends too much and the segment's, as far as it does not.
Length as_far_as(const SurfaceCut& cut, CutSegment segment, Length heavy) {
  constexpr int halvings = 8;
  for (int i = 0; i < halvings; ++i) {
    CutSegment between = segment;
    between.feed = machine_feed(cut.machine, (segment.feed + heavy) / 2.0);
    if (cut.too_much(between))
      heavy = between.feed;
    else
      segment.feed = between.feed;
  }
  return segment.feed;
}

// Half the depth, twice; then the feed, as far as tool and feed box go.
Remedy lighten(const SurfaceCut& cut, CutSegment& segment, std::vector<CutSegment>& before) {
  Remedy changed = Remedy::none;
  if (cut.too_much(segment) && segment.depth / 2.0 >= cut.tool.least_depth) {
    changed = Remedy::one_more_pass;
    segment.depth = segment.depth / 2.0;
    before.push_back(as_pass(cut.practice, segment));
    segment.starts_pass = true;
  }
  Length heavy = segment.feed;
  while (cut.too_much(segment) && segment.feed * cut.practice.lighter_feed >= cut.tool.least_feed) {
    const Length lighter = machine_feed(cut.machine, segment.feed * cut.practice.lighter_feed);
    if (lighter >= segment.feed) break;  // the feed box has no finer step
    changed = Remedy::feed;
    heavy = segment.feed;
    segment.feed = lighter;
  }
  if (heavy > segment.feed && !cut.too_much(segment)) segment.feed = as_far_as(cut, segment, heavy);
  return changed;
}

}  // namespace

void limit_bending(const OperationContext& op, Workpiece& work, const Tool& tool, Step& step) {
  const HeldWork held = held_work(op, work);
  LimitCheck worst{LimitId::bending, 1, 0, unit::um};
  std::vector<CutSegment> segments;
  for (CutSegment segment : step.segments) {
    const Wanted wanted = wanted_at(op, (segment.from.z + segment.to.z) / 2.0);
    if (segment.motion != Motion::along || !wanted.surface ||
        wanted.grade > op.shop.practice.bending_matters_to) {
      segments.push_back(segment);
      continue;
    }
    const Surface& surface = op.job.surfaces[*wanted.surface];
    const SurfaceCut cut{op.shop.practice,
                         op.job.material,
                         op.machine,
                         tool,
                         compliance_range(held, segment.to.z, segment.from.z),
                         op.shop.policy.deflection_share * surface.tolerance};
    const Remedy changed = lighten(cut, segment, segments);
    segments.push_back(segment);
    const Length y = cut.bend(segment);
    if (y > cut.allowed)
      work.cautions.push_back({"steps.bends",
                               {{"surface", surface.name},
                                {"bend", measure(y, unit::um, 3)},
                                {"allowed", measure(cut.allowed, unit::um, 3)}}});
    if ((y / cut.allowed).si >= worst.actual / worst.allowed)
      worst = {worst.limit, cut.allowed.si, y.si, unit::um, changed != Remedy::none, changed};
  }
  step.segments = std::move(segments);
  if (worst.actual > 0) step.limits.push_back(worst);
}

}  // namespace turnwright
