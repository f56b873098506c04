// SPDX-License-Identifier: MIT
#include <cmath>

#include "conditions/conditions.hpp"
#include "geometry/bend.hpp"
#include "turnwright/route/bench.hpp"

namespace turnwright {
namespace {

constexpr Length no_limit(1.0);

bool turns_the_outside(const Step& step) {
  return (step.kind == StepKind::rough || step.kind == StepKind::finish) &&
         !step.segments.empty() && step.segments.front().motion == Motion::along;
}

}  // namespace

Deflected deflected(const Route& route, const Operation& operation, const Step& step,
                    const Shop& shop) {
  const Tool* tool = shop.tool(step.tool);
  if (tool == nullptr || !turns_the_outside(step)) return {Length(0.0), no_limit};
  const Material& material = route.job.material;
  const HeldWork held{step.work_after,
                      operation.grip_to,
                      Length(0.0),
                      operation.support,
                      material.elastic_modulus,
                      shop.practice,
                      shop.policy.chuck_compliance,
                      nullptr,
                      std::nullopt,
                      operation.follow};
  const CutSegment& s = step.segments.front();
  const double range =
      std::max(compliance_range(held, s.to.z, Length(0.0)), compliance_at(held, Length(0.0)));
  const Length by(passive_force(material, *tool, s.depth, s.feed).si * range);
  const Length allowed =
      shop.practice.finish_allowance(route.machine, route.job.stock.diameter) / 2.0;
  if (by.si <= 0) return {by, no_limit};
  // The force grows with the feed to the power of 1 - mc.
  return {by, s.feed * std::pow((allowed / by).si, 1 / (1 - material.mc))};
}

}  // namespace turnwright
