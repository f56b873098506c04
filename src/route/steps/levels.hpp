// SPDX-License-Identifier: MIT
#pragma once
// How roughing divides what there is to take off, outside and in an inverted bore.
#include <vector>

#include "steps/cut.hpp"

namespace turnwright {

struct DepthOfCut {
  Length before{}, after{};  // radii
  Length depth() const { return before - after; }
};

/// Radii of the shoulders within the zone, from the outside in, slivers joined to their neighbour;
/// cylinders below `shortest_land` are none.
std::vector<Length> shoulder_levels(const Practice& practice, const Outline& limit, Length top,
                                    Length zone_left, Length shortest_land);

/// Between neighbouring shoulders the depth is divided evenly, none deeper than `most`; `over`: how
/// much larger than nominal the first cut may find the work.
std::vector<DepthOfCut> divided(const Practice& practice, const std::vector<Length>& levels,
                                Length top, Length most, Length over);
Length deepest_of(const std::vector<DepthOfCut>& cuts);

/// The deepest cut that tool, power, torque and grip stand; the limit that stopped a deeper one.
struct DeepestCut {
  Length depth{};
  std::optional<LimitCheck> stopped;
};
DeepestCut deepest_cut(const CutContext& context);
/// The depth as a limit of the step.
LimitCheck depth_limit(const Tool& tool, Length most, Length deepest);

/// Stretches that are long enough to be a shoulder.
bool any_shoulder(const Practice& practice, const std::vector<Interval>& stretches);

}  // namespace turnwright
