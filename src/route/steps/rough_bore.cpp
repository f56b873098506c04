// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "steps/bore.hpp"
#include "steps/contour.hpp"
#include "steps/levels.hpp"
#include "steps/steps.hpp"

namespace turnwright::steps {
namespace {

// What the rough cuts must not enter.
InvertedBody rough_limit(const OperationContext& op, const Workpiece& work) {
  const Outline all = spanned(bar_target(op, work), work.outside);
  return InvertedBody(op.view.local(bore_allowance(op.job, op.shop.practice, op.view.local(all))));
}

// Edges are left to the finishing cut.
bool worth_a_bar(const Practice& practice, const InvertedBody& limit, const Interval& i) {
  return i.width() >= practice.shortest_shoulder || holds_land(limit.shape(), i);
}

// Where there is enough to rough; nothing when it is left to the finishing cut.
std::optional<BarReach> reach_of(const Practice& practice, const Workpiece& work,
                                 const InvertedBody& limit) {
  const InvertedBody body = inverted_bore(work);
  BarReach reach;
  bool any = false;
  for (const Interval& i : where_above(body, limit)) {
    if (!worth_a_bar(practice, limit, i)) continue;
    const Length top = body.shape().largest(i.from, i.to);
    const Length thick = layer_over(body, limit, i);
    if (thick < practice.least_bore_rough && top < inversion_radius - Length(same_point)) continue;
    any = true;
    reach.widen(work, i);
  }
  if (!any) return std::nullopt;
  reach.hole = min(reach.hole, 2.0 * work.hole_at(Length(0.0)));
  return reach;
}

// What the point of the drill leaves on a flat bottom is faced out from the middle.
void flat_bottom(const OperationContext& op, Workpiece& work, const Tool& bar, Step& step) {
  const Bore* bore = op.task.bore;
  if (bore == nullptr || bore->through || work.hollow.empty()) return;
  const auto& elements = op.view.from_left ? op.job.part.bore_left : op.job.part.bore_right;
  if (!elements.back().flat) return;
  const Outline own = op.view.local(bore->turned);
  const Length bottom = own.left();
  if (work.hollow.left_of(bottom) > Length(same_point)) return;  // the hole goes on
  const Length r = min(bore->drilled / 2.0, own.right_of(bottom));
  const Length to_go = (work.hollow.empty() ? Length(0.0) : work.hollow.left()) - bottom;
  // From the drill's shoulder down: the point itself counts with its whole length.
  const Length height = max(point_length(r) + op.shop.practice.flat_stop, to_go);
  const int cuts = std::max(1, static_cast<int>(std::ceil((height / bar.largest_depth).si)));
  const Length each = height / static_cast<double>(cuts);
  const Cut cut = cut_at(op, bar, StepKind::bore, 2.0 * r, each);
  for (int i = 0; i < cuts; ++i)
    step.segments.push_back(across(work, cut, bottom + static_cast<double>(cuts - 1 - i) * each, r,
                                   Length(0.0), Length(0.0)));
  work.hollow = joined(work.hollow, Outline::cylinder(bottom, bottom + height, r));
}

// The highest and the deepest place of what is cut.
struct Extent {
  Length top{}, deepest{};
};
Extent extent_of(const Practice& practice, const InvertedBody& body, const InvertedBody& limit) {
  Extent extent;
  for (const Interval& i : where_above(body, limit)) {
    if (!worth_a_bar(practice, limit, i)) continue;
    extent.top = max(extent.top, body.shape().largest(i.from, i.to));
    extent.deepest = min(extent.deepest, i.from);
  }
  return extent;
}

InvertedBody cut_levels(const OperationContext& op, Workpiece& work, InvertedBody body,
                        const InvertedBody& limit, const std::vector<DepthOfCut>& cuts,
                        const Cut& cut, Step& step) {
  for (const DepthOfCut& depth : cuts) {
    Level level = cut_level(body.shape(), limit.shape(), depth.after);
    const Length radius = InvertedBody::radius(depth.after);
    for (auto i = level.cuts.rbegin(); i != level.cuts.rend(); ++i) {
      CutSegment segment = along(work, under_skin(op, work, cut), i->to, i->from, radius, radius,
                                 op.shop.practice.approach);
      segment.depth = min(body.shape().largest(i->from, i->to), depth.before) - depth.after;
      step.segments.push_back(segment);
    }
    body = InvertedBody(std::move(level.after));
  }
  return body;
}

// Steps left on cones and arcs: one pass along the contour.
InvertedBody smooth(const OperationContext& op, Workpiece& work, const Tool& bar, InvertedBody body,
                    const InvertedBody& limit, Length depth, Step& step) {
  const auto left = where_above(body, limit);
  if (!any_shoulder(op.shop.practice, left)) return body;
  const Outline shape = limit.hollow();
  const auto more =
      segments_along(op, work, {bar, StepKind::bore, shape, left, depth, false, true});
  step.segments.insert(step.segments.end(), more.begin(), more.end());
  return lower_of(body, limit);
}

void bore_levels(const OperationContext& op, Workpiece& work, const Tool& bar,
                 const InvertedBody& limit, Step step) {
  InvertedBody body = inverted_bore(work);
  const Practice& practice = op.shop.practice;
  const Extent extent = extent_of(practice, body, limit);
  const auto levels =
      shoulder_levels(practice, limit.shape(), extent.top, body.shape().left(), shortest_land);
  if (levels.empty()) {
    if (!step.segments.empty()) work.commit_bore(std::move(step), work.hollow);
    return;
  }
  const CutContext c =
      cut_context(op, bar, StepKind::bore, 2.0 * InvertedBody::radius(levels.back()));
  const Length most = deepest_cut(c).depth;
  const auto cuts = divided(practice, levels, extent.top, most, Length(0.0));
  const Cut cut{c, conditions_at(c, deepest_of(cuts))};
  apply(step, cut.conditions);
  put_first(step, {LimitId::bar_reach, bar.reach.si, -extent.deepest.si, unit::mm});
  put_first(step, depth_limit(bar, most, deepest_of(cuts)));
  step.from = extent.deepest;
  body = cut_levels(op, work, std::move(body), limit, cuts, cut, step);
  body = smooth(op, work, bar, std::move(body), limit, cut.conditions.used.depth, step);
  if (!step.segments.empty()) work.commit_bore(std::move(step), body.hollow());
}

}  // namespace

Outcome rough_bore(const OperationContext& op, Workpiece& work) {
  const InvertedBody limit = rough_limit(op, work);
  const auto reach = reach_of(op.shop.practice, work, limit);
  if (!reach) return {};
  const Tool* bar = take_bar(op, work, *reach);
  if (bar == nullptr)
    return no_bar(*reach, {"steps.longer-bar", "steps.reamed-bore", "steps.bore-from-both-faces"});
  const Length allowance = op.shop.practice.bore_finish;
  Step step = begin(StepKind::bore, *bar, {"steps.rough-bore", {{"allowance", allowance}}});
  flat_bottom(op, work, *bar, step);
  bore_levels(op, work, *bar, limit, std::move(step));
  return {};
}

}  // namespace turnwright::steps
