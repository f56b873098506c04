// SPDX-License-Identifier: MIT
#include "turnwright/route/joints.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

constexpr Length on_it(0.1e-3);  // of the radius: mean sizes differ by tolerances

// How much of a surface a cut runs along.
Length along(const CutSegment& cut, const Surface& s) {
  const Length r = s.diameter() / 2.0;
  if (cut.motion != Motion::along || std::abs((cut.from.r - r).si) > on_it.si) return Length(0.0);
  return min(max(cut.from.z, cut.to.z), s.right) - max(min(cut.from.z, cut.to.z), s.left);
}

bool finishes_some(const Operation& operation, const Surface& surface, Length overlap) {
  return std::any_of(operation.steps.begin(), operation.steps.end(), [&](const Step& step) {
    return step.kind == StepKind::finish &&
           std::any_of(step.segments.begin(), step.segments.end(), [&](const CutSegment& cut) {
             return along(cut, surface) > overlap + on_it;
           });
  });
}

bool is_joined(const Route& route, const Surface& surface, Length overlap) {
  const Element& element = route.job.element_of(surface);
  if (!surface.toleranced || surface.as_drawn || surface.inside() || element.leave.si > 0)
    return false;
  return std::count_if(route.operations.begin(), route.operations.end(),
                       [&](const Operation& operation) {
                         return finishes_some(operation, surface, overlap);
                       }) > 1;
}

}  // namespace

std::vector<std::size_t> joined_surfaces(const Route& route, Length overlap) {
  std::vector<std::size_t> joined;
  for (std::size_t n = 0; n < route.job.surfaces.size(); ++n)
    if (is_joined(route, route.job.surfaces[n], overlap)) joined.push_back(n);
  return joined;
}

}  // namespace turnwright
