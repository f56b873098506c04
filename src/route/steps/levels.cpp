// SPDX-License-Identifier: MIT
#include "steps/levels.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

// Radii below the top, from the outside in. Edge breaks and reliefs are no shoulders; a cone or arc
// counts with its smaller end.
std::vector<double> shoulders_of(const Practice& practice, const Outline& limit, Length top,
                                 Length zone_left, Length shortest_land) {
  std::vector<double> shoulders;
  for (const Segment& s : limit.pieces()) {
    if (s.to.z.si <= zone_left.si + same_point) continue;
    const double low = min(s.from.r, s.to.r).si;
    const Length width = s.to.z - max(s.from.z, zone_left);
    const bool land = s.bulge == Bulge::none && s.from.r.si == s.to.r.si;
    const Length shortest = land ? shortest_land : practice.shortest_shoulder;
    if (low < top.si - same_point && width >= shortest) shoulders.push_back(low);
  }
  std::sort(shoulders.rbegin(), shoulders.rend());
  return shoulders;
}

}  // namespace

std::vector<Length> shoulder_levels(const Practice& practice, const Outline& limit, Length top,
                                    Length zone_left, Length shortest_land) {
  const std::vector<double> shoulders =
      shoulders_of(practice, limit, top, zone_left, shortest_land);
  std::vector<Length> levels;
  for (std::size_t i = 0; i < shoulders.size(); ++i) {
    const double next = i + 1 < shoulders.size() ? shoulders[i] - shoulders[i + 1] : 1.0;
    if (next < practice.sliver.si && next > same_point) continue;
    if (levels.empty() || levels.back().si - shoulders[i] > same_point)
      levels.emplace_back(shoulders[i]);
  }
  return levels;
}

std::vector<DepthOfCut> divided(const Practice& practice, const std::vector<Length>& levels,
                                Length top, Length most, Length over) {
  std::vector<DepthOfCut> cuts;
  Length from = top;
  for (const Length level : levels) {
    const Length gap = from - level + (cuts.empty() ? over : Length(0.0));
    const int n = std::max(1, static_cast<int>(std::ceil(gap.si / most.si - practice.depth_slack)));
    const Length step = (from - level) / static_cast<double>(n);
    for (int j = 1; j <= n; ++j)
      cuts.push_back({from - (j - 1) * step, j == n ? level : from - j * step});
    from = level;
  }
  return cuts;
}

Length deepest_of(const std::vector<DepthOfCut>& cuts) {
  Length deepest(0.0);
  for (const DepthOfCut& cut : cuts) deepest = max(deepest, cut.depth());
  return deepest;
}

DeepestCut deepest_cut(const CutContext& context) {
  const Tool& tool = context.tool;
  DeepestCut found{tool.largest_depth, {}};
  if (context.deepest.si > 0 && context.deepest < found.depth)
    found.depth = max(context.deepest, tool.least_depth);
  CutConditions k = conditions_at(context, found.depth);
  while (!k.depth_ok && found.depth > tool.least_depth) {
    for (const LimitCheck& l : k.limits)
      if (l.binding) found.stopped = l;
    found.depth = max(found.depth * 0.9, tool.least_depth);
    k = conditions_at(context, found.depth);
  }
  return found;
}

LimitCheck depth_limit(const Tool& tool, Length most, Length deepest) {
  const bool less = most < tool.largest_depth;
  return {LimitId::depth, most.si, deepest.si,
          unit::mm,       less,    less ? Remedy::one_more_pass : Remedy::none};
}

bool any_shoulder(const Practice& practice, const std::vector<Interval>& stretches) {
  return std::any_of(stretches.begin(), stretches.end(),
                     [&](const Interval& i) { return i.width() > practice.shortest_shoulder; });
}

}  // namespace turnwright
