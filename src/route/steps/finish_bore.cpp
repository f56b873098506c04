// SPDX-License-Identifier: MIT
#include "steps/bore.hpp"
#include "steps/contour.hpp"
#include "steps/steps.hpp"

namespace turnwright::steps {
namespace {

// What the bar makes. Edges alone are for the countersink or the bar's back.
std::vector<Interval> left_for_the_bar(const OperationContext& op, const InvertedBody& body,
                                       const InvertedBody& limit) {
  auto left = where_above(body, limit);
  std::erase_if(left, [&](const Interval& i) {
    const bool end = i.to.si > -same_point || i.from.si < op.job.left().si + same_point;
    return end && i.width() < op.shop.practice.widest_edge + Length(same_point) &&
           !holds_land(limit.shape(), i);
  });
  return left;
}

// A thin layer that was not worth a rough cut comes off with the last one.
Length last_depth(const Practice& practice, const InvertedBody& body, const InvertedBody& limit,
                  const std::vector<Interval>& left) {
  Length depth = practice.bore_finish;
  for (const Interval& i : left)
    depth = max(depth,
                min(layer_over(body, limit, i), practice.bore_finish + practice.least_bore_rough));
  return depth;
}

// Conditions of the finest and widest of the surfaces that are gauged.
Cut finest_cut(const OperationContext& op, const Tool& bar, const Step& step, Length depth) {
  constexpr Length none(1.0);
  Length finest = none, widest(0.0);
  for (const std::size_t n : step.gauged) {
    const Surface& s = op.job.surfaces[n];
    if (s.ra.si > 0) finest = min(finest, s.ra);
    widest = max(widest, s.diameter());
  }
  return cut_at(op, bar, StepKind::bore, widest, depth, finest < none ? finest : Length(0.0));
}

}  // namespace

Outcome finish_bore(const OperationContext& op, Workpiece& work) {
  const InvertedBody limit = InvertedBody::of(spanned(bar_target(op, work), work.outside));
  const InvertedBody body = inverted_bore(work);
  const auto left = left_for_the_bar(op, body, limit);
  if (left.empty()) return {};
  BarReach reach{2.0 * work.hole_at(Length(0.0)), Length(0.0)};
  for (const Interval& i : left) reach.widen(work, i);
  const Tool* bar = take_bar(op, work, reach);
  if (bar == nullptr) return no_bar(reach, {"steps.longer-bar", "steps.reamed-bore"});
  const InvertedBody made(reachable(limit.shape(), bar->copying_angle));
  const auto where = where_above(body, made);
  if (where.empty()) return {};
  const Length depth = last_depth(op.shop.practice, body, limit, left);
  Step step = begin(StepKind::bore, *bar, "steps.finish-bore");
  const Outline shape = made.hollow();
  step.segments = segments_along(op, work, {*bar, StepKind::bore, shape, where, depth, true, true});
  gauge_inside(op, where, step);
  apply(step, finest_cut(op, *bar, step, depth).conditions);
  put_first(step, {LimitId::bar_reach, bar->reach.si, -reach.deepest.si, unit::mm});
  step.from = reach.deepest;
  limit_bar_bending(op, *bar, step);
  work.commit_bore(std::move(step), lower_of(body, made).hollow());
  return {};
}

}  // namespace turnwright::steps
