// SPDX-License-Identifier: MIT
// Roughing: levels between shoulders, or the first of two cuts of the finishing tool.
#include <algorithm>
#include <cmath>

#include "length_text.hpp"
#include "operation_planner.hpp"
#include "profile.hpp"

namespace turnwright {

void OperationPlanner::rough() {
  const Tool* tool = rougher();
  if (tool == nullptr) {
    why_not = "the shop has no roughing tool";
    return;
  }
  const Length allowance = task_.finisher_takes_both ? task_.last_cut : finish_allowance(machine_);
  Outline limit = view_.local(with_allowance(job_, allowance, Length(axial_allowance)));
  limit = combine(limit, task_.target, Envelope::upper);
  limit = reachable(blocked_left(limit, task_.zone_left), tool->copying_angle);
  const auto where = where_above(task_.work.only(task_.zone_left, Length(0.0)), limit);
  if (where.empty()) return;
  Step step =
      begin(StepKind::rough, *tool,
            task_.finisher_takes_both ? "the finishing tool takes the first of its two cuts"
                                      : "to " + length_text(job_, allowance) +
                                            " a side, the depth divided evenly between shoulders");
  step.from = task_.zone_left;
  if (task_.finisher_takes_both) {
    Length deepest(0.0);
    for (const Interval& i : where)
      for (const Segment& s : limit.pieces())
        if (s.to.z > i.from && s.from.z < i.to)
          deepest = max(deepest, task_.work.largest(i.from, i.to) - min(s.from.r, s.to.r));
    contour_cut(*tool, limit, where, step, deepest);
    return;
  }
  rough_shoulders(*tool, limit, step);
  rough_levels(*tool, limit, step);
}

// On a casting or a piece roughed before, a shoulder that is higher than its stock is thick is
// faced from the outside in, down to the raw surface beside it.
void OperationPlanner::rough_shoulders(const Tool& tool, const Outline& limit, Step& step) {
  for (std::size_t i = limit.pieces().size(); i-- > 1;) {
    const Segment& right = limit.pieces()[i];
    const Length z = right.from.z, high = limit.pieces()[i - 1].to.r;
    if (z <= task_.zone_left || high.si - right.from.r.si < shortest_shoulder_m) continue;
    // Up to where the work steps down.
    Length end = z;
    const Length half = (high + right.from.r) / 2.0;
    for (const Segment& s : task_.work.pieces())
      if (s.to.z.si > z.si + same_point) {
        if (min(s.from.r, s.to.r) < half) break;
        end = s.to.z;
      }
    const Length thick = end - z, raw = task_.work.right_of(end);
    const Length outer = task_.work.largest(z, end);
    if (thick.si < same_point || end.si > -same_point || thick >= outer - raw) continue;
    const Length deepest = min(facing_depth(), tool.largest_depth);
    const int cuts = std::max(1, static_cast<int>(std::ceil((thick / deepest).si - whole_slack)));
    const CutContext c = context(tool, StepKind::rough, 2.0 * outer, Length(0.0));
    const CutConditions k = conditions_at(c, thick / static_cast<double>(cuts));
    apply(step, k);
    for (int n = 1; n <= cuts; ++n)
      step.passes.push_back(across(c, under_skin(k), end - thick * (static_cast<double>(n) / cuts),
                                   outer, raw, Length(approach_m)));
    task_.work = lowered(task_.work,
                         combine(limit, Outline::cylinder(z, end, raw), Envelope::upper), {z, end});
  }
}

// Radii of the shoulders within the zone, from the outside in, slivers joined to their neighbour.
std::vector<Length> OperationPlanner::shoulder_levels(const Outline& limit, Length top,
                                                      Length zone) {
  std::vector<double> shoulders;
  for (const Segment& s : limit.pieces()) {
    if (s.to.z.si <= zone.si + same_point) continue;
    const double low = min(s.from.r, s.to.r).si;
    const double width = (s.to.z - max(s.from.z, zone)).si;
    // Edge breaks and reliefs are no shoulders; a cone or arc counts with its smaller end.
    if (low < top.si - same_point && width >= shortest_shoulder_m) shoulders.push_back(low);
  }
  std::sort(shoulders.rbegin(), shoulders.rend());
  std::vector<Length> levels;
  for (std::size_t i = 0; i < shoulders.size(); ++i) {
    const double next = i + 1 < shoulders.size() ? shoulders[i] - shoulders[i + 1] : 1.0;
    if (next < sliver_m && next > same_point) continue;
    if (levels.empty() || levels.back().si - shoulders[i] > same_point)
      levels.emplace_back(shoulders[i]);
  }
  return levels;
}

// Between neighbouring shoulders the depth is divided evenly, none deeper than `most`; the bar's
// upper limit counts for the first.
std::vector<OperationPlanner::Cut> OperationPlanner::divided(const std::vector<Length>& levels,
                                                             Length top, Length most, Length over) {
  std::vector<Cut> cuts;
  Length from = top;
  for (const Length level : levels) {
    const Length gap = from - level + (cuts.empty() ? over : Length(0.0));
    const int n = std::max(1, static_cast<int>(std::ceil(gap.si / most.si - depth_slack)));
    const Length step = (from - level) / static_cast<double>(n);
    for (int j = 1; j <= n; ++j)
      cuts.push_back({from - (j - 1) * step, j == n ? level : from - j * step});
    from = level;
  }
  return cuts;
}

void OperationPlanner::rough_levels(const Tool& tool, const Outline& limit, Step& step) {
  const Length top = task_.work.largest(task_.zone_left, Length(0.0));
  const std::vector<Length> levels = shoulder_levels(limit, top, task_.zone_left);
  if (levels.empty()) {
    if (!step.passes.empty()) done(std::move(step), task_.work);
    return;
  }
  // The deepest cut that tool, power, torque and grip stand.
  const CutContext c = context(tool, StepKind::rough, 2.0 * top, Length(0.0));
  Length most = tool.largest_depth;
  LimitCheck stopped;
  CutConditions k = conditions_at(c, most);
  while (!k.depth_ok && most > tool.least_depth) {
    for (const LimitCheck& l : k.limits)
      if (l.binding) stopped = l;
    most = max(most * 0.9, tool.least_depth);
    k = conditions_at(c, most);
  }
  const std::vector<Cut> cuts =
      divided(levels, top, most, (job_.stock.upper - job_.stock.diameter) / 2.0);
  Length deepest(0.0);
  for (const Cut& cut : cuts) deepest = max(deepest, cut.depth());
  k = conditions_at(c, deepest);
  apply(step, k);
  step.limits.insert(step.limits.begin(), {"depth", most.si, deepest.si, unit::mm,
                                           most < tool.largest_depth, "depth, one more pass"});
  if (stopped.binding) step.limits.push_back(stopped);
  if (job_.stock.skin && cuts.front().depth().si < scale_depth_m)
    cautions_.push_back("the first cut under the skin is only " +
                        length_text(job_, cuts.front().depth()) + " deep");
  cut_levels(tool, limit, cuts, c, k, step);
}

void OperationPlanner::cut_levels(const Tool& tool, const Outline& limit,
                                  const std::vector<Cut>& cuts, const CutContext& c,
                                  const CutConditions& k, Step& step) {
  Outline work = task_.work;
  bool first = true;
  for (const Cut& cut : cuts) {
    const Level level = cut_level(work, limit, cut.after);
    for (auto i = level.cuts.rbegin(); i != level.cuts.rend(); ++i) {
      const Length outer = min(work.largest(i->from, i->to), cut.before);
      step.passes.push_back(along(c, first ? under_skin(k) : k, i->to, i->from, cut.after, outer,
                                  Length(approach_m)));
    }
    first = first && level.cuts.empty();
    work = level.after;
  }
  skin_on_ = false;
  // Steps left on cones and arcs: one pass along the contour.
  const auto left = where_above(work.only(task_.zone_left, Length(0.0)), limit);
  const bool steps_left = std::any_of(left.begin(), left.end(), [](const Interval& i) {
    return i.width().si > shortest_shoulder_m;
  });
  if (steps_left) {
    const auto more = path_passes(tool, StepKind::rough, limit, left, k.used.depth, false);
    step.passes.insert(step.passes.end(), more.begin(), more.end());
    work = combine(work, limit, Envelope::lower);
  }
  done(std::move(step), work);
}

void OperationPlanner::contour_cut(const Tool& tool, const Outline& limit,
                                   const std::vector<Interval>& where, Step& step, Length depth) {
  const CutContext c = context(tool, StepKind::rough, 2.0 * task_.work.largest(), Length(0.0));
  const CutConditions k = conditions_at(c, depth);
  apply(step, k);
  step.limits.insert(step.limits.begin(),
                     {"depth", tool.largest_depth.si, depth.si, unit::mm, false, ""});
  step.passes = path_passes(tool, StepKind::rough, limit, where, depth, false);
  if (!k.depth_ok) {
    why_not = "power, torque or grip do not stand a cut " + length_text(job_, depth) +
              " deep with the finishing tool";
    would_help = "rough then finish";
  }
  skin_on_ = false;
  done(std::move(step), combine(task_.work, limit, Envelope::lower));
}

}  // namespace turnwright
