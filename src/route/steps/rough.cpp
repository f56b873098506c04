// SPDX-License-Identifier: MIT
// Roughing: shoulders faced and levels between them, or the first of two cuts of the finishing
// tool.
#include <algorithm>
#include <cmath>

#include "geometry/profile.hpp"
#include "steps/contour.hpp"
#include "steps/facing.hpp"
#include "steps/levels.hpp"
#include "steps/outside_tools.hpp"
#include "steps/rough.hpp"
#include "steps/steps.hpp"
#include "steps/walls.hpp"

namespace turnwright {
namespace {

// A shoulder and the stock that stands before it, to its right.
struct Shoulder {
  Length z{}, end{};      // the stock lies between
  Length outer{}, raw{};  // its radii: the highest, and of the raw surface beside it
  Length thick() const { return end - z; }
};

// Up to where the work steps down.
Length stock_end(const Outline& outside, Length z, Length half) {
  Length end = z;
  for (const Segment& s : outside.pieces())
    if (s.to.z.si > z.si + same_point) {
      if (min(s.from.r, s.to.r) < half) break;
      end = s.to.z;
    }
  return end;
}

// The shoulder right of which the piece `i` of the limit lies; nothing when it is none that is
// higher than its stock is thick.
std::optional<Shoulder> shoulder_at(const OperationContext& op, const Workpiece& work,
                                    const Outline& limit, std::size_t i) {
  const Segment& right = limit.pieces()[i];
  const Length z = right.from.z, high = limit.pieces()[i - 1].to.r;
  if (z <= op.task.zone_left || (high - right.from.r) < op.shop.practice.shortest_shoulder)
    return std::nullopt;
  const Length end = stock_end(work.outside, z, (high + right.from.r) / 2.0);
  const Shoulder s{z, end, work.outside.largest(z, end), work.outside.right_of(end)};
  if (s.thick().si < same_point || end.si > -same_point || s.thick() >= s.outer - s.raw)
    return std::nullopt;
  return s;
}

void face_shoulder(const OperationContext& op, Workpiece& work, const Tool& tool,
                   const Outline& limit, const Shoulder& s, Step& step) {
  const Length deepest = min(facing_depth(op), tool.largest_depth);
  const Length thick = s.thick();
  const int cuts = std::max(1, static_cast<int>(std::ceil((thick / deepest).si - whole_slack)));
  const Cut cut =
      cut_at(op, tool, StepKind::rough, 2.0 * s.outer, thick / static_cast<double>(cuts));
  apply(step, cut.conditions);
  for (int n = 1; n <= cuts; ++n)
    step.segments.push_back(across(work, under_skin(op, work, cut),
                                   s.end - thick * (static_cast<double>(n) / cuts), s.outer, s.raw,
                                   op.shop.practice.approach));
  work.outside =
      lowered(work.outside, combine(limit, Outline::cylinder(s.z, s.end, s.raw), Envelope::upper),
              {s.z, s.end});
}

// On a casting or a piece roughed before, a shoulder that is higher than its stock is thick is
// faced from the outside in, down to the raw surface beside it.
void face_shoulders(const OperationContext& op, Workpiece& work, const Tool& tool,
                    const Outline& limit, Step& step) {
  for (std::size_t i = limit.pieces().size(); i-- > 1;)
    if (const auto shoulder = shoulder_at(op, work, limit, i))
      face_shoulder(op, work, tool, limit, *shoulder, step);
}

// Level after level; what stands after them.
Outline cut_levels(const OperationContext& op, Workpiece& work, const Outline& limit,
                   const std::vector<DepthOfCut>& cuts, const Cut& cut, Step& step) {
  Outline left = work.outside;
  bool first = true;
  for (const DepthOfCut& depth : cuts) {
    const Level level = cut_level(left, limit, depth.after);
    for (auto i = level.cuts.rbegin(); i != level.cuts.rend(); ++i) {
      const Length outer = min(left.largest(i->from, i->to), depth.before);
      step.segments.push_back(along(work, first ? under_skin(op, work, cut) : cut, i->to, i->from,
                                    depth.after, outer, op.shop.practice.approach));
    }
    first = first && level.cuts.empty();
    left = level.after;
  }
  work.skin_on = false;
  return left;
}

// Steps left on cones and arcs: one pass along the contour.
Outline smooth(const OperationContext& op, Workpiece& work, const Tool& tool, const Outline& limit,
               Outline left, Length depth, Step& step) {
  const auto where = where_above(left.only(op.task.zone_left, Length(0.0)), limit);
  if (!any_shoulder(op.shop.practice, where)) return left;
  const auto more = segments_along(op, work, {tool, StepKind::rough, limit, where, depth});
  step.segments.insert(step.segments.end(), more.begin(), more.end());
  return combine(left, limit, Envelope::lower);
}

// What is left on the part, where this operation cuts.
Outline in_zone(const OperationContext& op, const Outline& left_on) {
  return blocked_left(combine(op.view.local(left_on), op.task.target, Envelope::upper),
                      op.task.zone_left);
}

}  // namespace

Outline rough_shape(const OperationContext& op, Length allowance) {
  return in_zone(op, with_allowance(op.job, op.shop.practice, allowance));
}

Outline rough_floor(const OperationContext& op, Length allowance) {
  return in_zone(op, with_radial_allowance(op.job, op.shop.practice, allowance));
}

void rough_levels(const OperationContext& op, Workpiece& work, const Tool& tool,
                  const Outline& limit, Step step) {
  const Length top = work.outside.largest(op.task.zone_left, Length(0.0));
  const Practice& practice = op.shop.practice;
  const std::vector<Length> levels =
      shoulder_levels(practice, limit, top, op.task.zone_left, practice.shortest_shoulder);
  if (levels.empty()) {
    if (!step.segments.empty()) work.commit_outside(std::move(step), work.outside);
    return;
  }
  const CutContext c = cut_context(op, tool, StepKind::rough, 2.0 * top);
  const DeepestCut most = deepest_cut(c);
  const Stock& stock = op.job.stock;
  const auto cuts =
      divided(practice, levels, top, most.depth, (stock.upper - stock.diameter) / 2.0);
  const Length deepest = deepest_of(cuts);
  const Cut cut{c, conditions_at(c, deepest)};
  apply(step, cut.conditions);
  put_first(step, depth_limit(tool, most.depth, deepest));
  if (most.stopped) step.limits.push_back(*most.stopped);
  if (stock.skin && cuts.front().depth() < practice.scale_depth)
    work.cautions.push_back({"steps.thin-first-cut", {{"depth", cuts.front().depth()}}});
  Outline left = cut_levels(op, work, limit, cuts, cut, step);
  left = smooth(op, work, tool, limit, std::move(left), cut.conditions.used.depth, step);
  if (!step.segments.empty()) work.commit_outside(std::move(step), left);
}

namespace {

// The first of two cuts of the finishing tool follows the contour.
Outcome first_of_two_cuts(const OperationContext& op, Workpiece& work, const Tool& tool,
                          const Outline& limit, const std::vector<Interval>& where, Step step) {
  Length depth(0.0);
  for (const Interval& i : where)
    for (const Segment& s : limit.pieces())
      if (s.to.z > i.from && s.from.z < i.to)
        depth = max(depth, work.outside.largest(i.from, i.to) - min(s.from.r, s.to.r));
  const Cut cut = cut_at(op, tool, StepKind::rough, 2.0 * work.outside.largest(), depth);
  if (!cut.conditions.depth_ok)
    return Infeasible{{"steps.cut-too-heavy", {{"depth", depth}}}, {"steps.rough-then-finish"}};
  apply(step, cut.conditions);
  put_first(step, {LimitId::depth, tool.largest_depth.si, depth.si, unit::mm});
  step.segments = segments_along(op, work, {tool, StepKind::rough, limit, where, depth});
  work.skin_on = false;
  work.commit_outside(std::move(step), combine(work.outside, limit, Envelope::lower));
  return {};
}

}  // namespace

Outcome steps::rough(const OperationContext& op, Workpiece& work) {
  const Tool* tool = rougher(op);
  if (tool == nullptr) return Infeasible{"steps.no-roughing-tool", {}};
  const bool both = op.task.finisher_takes_both;
  const Length allowance =
      both ? op.task.last_cut
           : op.shop.practice.finish_allowance(op.machine, op.job.stock.diameter);
  const Outline limit = reachable(rough_shape(op, allowance), tool->copying_angle);
  const auto where = where_above(work.right_of(op.task.zone_left), limit);
  if (where.empty()) return {};
  Step step = begin(StepKind::rough, *tool,
                    both ? Message("steps.first-of-two-cuts")
                         : Message("steps.rough", {{"allowance", allowance}}));
  step.from = op.task.zone_left;
  if (both) return first_of_two_cuts(op, work, *tool, limit, where, std::move(step));
  face_shoulders(op, work, *tool, limit, step);
  rough_levels(op, work, *tool, limit, std::move(step));
  return {};
}

}  // namespace turnwright
