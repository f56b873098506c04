// SPDX-License-Identifier: MIT
// Roughing behind shoulders: the grooving tool sideways where walls are too steep to copy, else the
// finishing tool in cuts of its own, and the left-hand tool up the far walls. The finishing cut
// finds no more than its depth.
#include <algorithm>

#include "steps/contour.hpp"
#include "steps/left_hand.hpp"
#include "steps/levels.hpp"
#include "steps/outside_tools.hpp"
#include "steps/rough.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"
#include "steps/walls.hpp"

namespace turnwright::steps {
namespace {

constexpr int samples = 32;  // of a stretch

// How thick what stands over a shape is, away from its ends.
Length thickest(const Outline& high, const Outline& low, const Interval& z) {
  Length most(0.0);
  for (int i = 1; i < samples; ++i) {
    const Length at = z.from + z.width() * (static_cast<double>(i) / samples);
    most = max(most, high.left_of(at) - low.left_of(at));
  }
  return most;
}

// Stretches, from the right, where more stands over a shape than a last cut may find.
std::vector<Interval> stretches_over(const OperationContext& op, const Workpiece& work,
                                     const Outline& shape) {
  const Practice& practice = op.shop.practice;
  auto over = where_above(work.right_of(op.task.zone_left), shape);
  std::erase_if(over, [&](const Interval& z) {
    return z.width() < practice.least_recess ||
           thickest(work.outside, shape, z) <= practice.more_than_allowance;
  });
  std::reverse(over.begin(), over.end());
  return over;
}

// The copying tool would leave a wall that a grooving tool must plunge anyway.
bool is_steep(const OperationContext& op, const Outline& shape, const Outline& copied,
              const Interval& z) {
  return thickest(copied, shape, z) > op.shop.practice.more_than_allowance;
}

// In at the right end of a level, then along it.
void plunge_and_turn(Workpiece& work, const Cut& cut, const Interval& z, const DepthOfCut& depth,
                     Step& step) {
  const Length width = cut.context.tool.width;
  CutSegment plunge =
      across(work, cut, z.to, depth.before, depth.after, cut.context.shop.practice.plunge_approach);
  plunge.depth = width;
  step.segments.push_back(plunge);
  if (z.width().si <= width.si + same_point) return;
  CutSegment side = along(work, cut, z.to, z.from + width, depth.after, depth.before, Length(0.0));
  side.starts_pass = false;
  step.segments.push_back(side);
}

// Level under level, within the stretch.
Outline turn_sideways(const OperationContext& op, Workpiece& work, const Tool& tool,
                      const Outline& limit, Length top, Step& step) {
  const Practice& practice = op.shop.practice;
  const auto levels =
      shoulder_levels(practice, limit, top, op.task.zone_left, practice.shortest_shoulder);
  const auto cuts =
      divided(practice, levels, top, practice.side_turning_share * tool.width, Length(0.0));
  const Cut cut = plunge_to(op, tool, StepKind::groove, 2.0 * top, deepest_of(cuts));
  apply(step, cut.conditions);
  Outline left = work.outside;
  for (const DepthOfCut& depth : cuts) {
    Level level = cut_level(left, limit, depth.after);
    for (auto z = level.cuts.rbegin(); z != level.cuts.rend(); ++z)
      plunge_and_turn(work, cut, *z, depth, step);
    left = std::move(level.after);
  }
  return left;
}

// What a tool takes off a minute at a depth.
double removal(const Cut& cut, Length depth) {
  return cut.conditions.used.surface_speed.si * cut.conditions.used.feed.si * depth.si;
}

// A grooving tool that is slow is no help: copied, the walls alone are left to it.
bool is_worth_it(const OperationContext& op, const Tool& groover, const Tool& copier, Length top) {
  const Length side = op.shop.practice.side_turning_share * groover.width;
  const Cut groove = plunge_to(op, groover, StepKind::groove, 2.0 * top, side);
  const Cut copy = cut_at(op, copier, StepKind::rough, 2.0 * top, copier.largest_depth);
  return removal(groove, side) >=
         op.shop.practice.sideways_worth * removal(copy, copier.largest_depth);
}

void rough_sideways(const OperationContext& op, Workpiece& work, const Tool& copier,
                    const Outline& shape, const Interval& z) {
  const Length top = work.outside.largest(z.from, z.to);
  const Length depth = top - lowest(shape, z);
  const Tool* tool = straight_grooving_tool(op.shop, op.machine, z.width(), depth);
  if (tool == nullptr || !is_worth_it(op, *tool, copier, top)) return;
  Step step = begin(StepKind::rough, *tool, "steps.recess-sideways");
  step.from = z.from;
  step.to = z.to;
  Outline left = turn_sideways(op, work, *tool, within(shape, z), top, step);
  put_first(step, {LimitId::reach, tool->reach.si, depth.si, unit::mm});
  if (!step.segments.empty()) work.commit_outside(std::move(step), left);
}

// Thin stretches in one pass along their contour.
void rough_along(const OperationContext& op, Workpiece& work, const Tool& finisher,
                 const Outline& copied, std::vector<Interval> thin, Length depth) {
  std::reverse(thin.begin(), thin.end());
  Step step = begin(StepKind::rough, finisher, "steps.recess-copied");
  step.from = thin.front().from;
  step.to = thin.back().to;
  apply(step,
        cut_at(op, finisher, StepKind::rough, 2.0 * work.outside.largest(step.from, step.to), depth)
            .conditions);
  put_first(step, {LimitId::depth, finisher.largest_depth.si, depth.si, unit::mm});
  step.segments = segments_along(op, work, {finisher, StepKind::rough, copied, thin, depth});
  Outline after = work.outside;
  for (const Interval& z : thin) after = lowered(after, copied, z);
  work.commit_outside(std::move(step), after);
}

void rough_copied(const OperationContext& op, Workpiece& work, const Tool& finisher,
                  const Outline& copied, const std::vector<Interval>& over) {
  std::vector<Interval> thin;
  Length depth(0.0);
  bool thick = false;
  for (const Interval& z : over) {
    const Length here = thickest(work.outside, copied, z);
    // What is shorter is an edge or a relief, and left to the finishing cut.
    if (here <= finisher.largest_depth && z.width() < op.shop.practice.shortest_shoulder) continue;
    if (here <= finisher.largest_depth) {
      thin.push_back(z);
      depth = max(depth, here);
    } else {
      thick = true;
    }
  }
  if (!thin.empty()) rough_along(op, work, finisher, copied, std::move(thin), depth);
  if (!thick) return;
  Step step = begin(StepKind::rough, finisher, "steps.recess-copied");
  step.from = over.back().from;
  step.to = over.front().to;
  rough_levels(op, work, finisher, copied, std::move(step));
}

}  // namespace

Outcome rough_behind(const OperationContext& op, Workpiece& work) {
  const Tool* finisher = finishing_tool(op);
  if (finisher == nullptr) return {};
  const Length allowance = op.shop.practice.finish_allowance(op.machine, op.job.stock.diameter);
  const Outline shape = rough_shape(op, allowance), floor = rough_floor(op, allowance);
  const Outline copied = reachable(shape, finisher->copying_angle);
  for (const Interval& z : stretches_over(op, work, shape))
    if (is_steep(op, shape, copied, z)) rough_sideways(op, work, *finisher, floor, z);
  const auto over = stretches_over(op, work, copied);
  if (!over.empty()) rough_copied(op, work, *finisher, copied, over);
  if (const Tool* left_hand = left_hand_tool(op))
    for (const Interval& z : stretches_over(op, work, shape))
      if (straight_grooving_tool(op.shop, op.machine, z.width(),
                                 work.outside.largest(z.from, z.to) - lowest(shape, z)) == nullptr)
        rough_left_handed(op, work, *left_hand, shape, z);
  return {};
}

}  // namespace turnwright::steps
