// SPDX-License-Identifier: MIT
#include "steps/cut.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {

namespace {

// What stands far out without a centre is roughed in lighter cuts; 0: no such limit. A bar is as
// stiff as it is thick where it is roughed.
Length depth_by_overhang(const OperationContext& op, StepKind kind) {
  const Operation& operation = op.task.operation;
  const Practice& practice = op.shop.practice;
  if (kind != StepKind::rough || operation.support != Support::chuck) return Length(0.0);
  const Length d = operation.from_bar
                       ? operation.grip_diameter
                       : operation.stick_out / std::max(operation.free_ratio, whole_slack);
  if ((operation.stick_out / d).si <= practice.chuck_ratio) return Length(0.0);
  return practice.overhang_depth * d;
}

// Of what jaws hold of a usual length. Held on less the work tips, unless it stands out no further
// than it is held.
Number grip_share(const OperationContext& op) {
  const Operation& o = op.task.operation;
  const Length held = o.grip_to - o.grip_from, out = max(o.stick_out, Length(same_point));
  if (o.grip_diameter.si <= 0) return Number(1.0);
  return min(Number(1.0), max(held / (op.shop.practice.usual_grip * o.grip_diameter), held / out));
}

}  // namespace

CutContext cut_context(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
                       Length ra) {
  const Operation& operation = op.task.operation;
  return {op.shop,
          op.job.material,
          op.machine,
          tool,
          kind,
          diameter,
          grip_share(op) * operation.grip_diameter,
          ra,
          depth_by_overhang(op, kind)};
}

Cut cut_at(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
           Length depth, Length ra) {
  const CutContext c = cut_context(op, tool, kind, diameter, ra);
  return {c, conditions_at(c, depth)};
}

Cut plunge_to(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
              Length depth) {
  Cut cut = cut_at(op, tool, kind, diameter, depth);
  cut.conditions.used.depth = cut.conditions.wanted.depth = depth;
  return cut;
}

Cut hole_cut(const OperationContext& op, const Tool& tool, StepKind kind, Length diameter,
             Length depth) {
  const CutContext c = cut_context(op, tool, kind, diameter);
  return {c, hole_conditions(c, diameter, depth)};
}

Cut under_skin(const OperationContext& op, const Workpiece& work, Cut cut) {
  Speed& speed = cut.conditions.used.surface_speed;
  const Stock& stock = op.job.stock;
  const bool casting = !op.job.raw_outside.empty();  // raw on every side
  if ((work.skin_on || casting) && stock.skin) speed = speed * op.shop.skin_factor(stock.condition);
  if (work.skin_on && stock.flats.si > 0)
    speed = speed * op.shop.factor(FactorId::interrupted_corners);
  return cut;
}

Step begin(StepKind kind, const Tool& tool, Message why) {
  Step step;
  step.kind = kind;
  step.why = std::move(why);
  step.tool = tool.name;
  step.grade = tool.grade;
  return step;
}

namespace {

// Which limits contradict each other, and by what each alone would have to give way.
Message no_optimum(const CutOptimum& tuned) {
  Messages limits;
  for (std::size_t i = 0; i < tuned.contradict.size(); ++i) {
    const Message limit(std::string("limit.") + name_of(tuned.contradict[i]));
    if (std::isinf(tuned.give_way[i]))
      limits.push_back({"conditions.limit-of-zero", {{"limit", limit}}});
    else
      limits.push_back(
          {"conditions.gives-way", {{"limit", limit}, {"factor", Figure{tuned.give_way[i], 3}}}});
  }
  return limits.empty() ? Message() : Message{"conditions.contradiction", {{"limits", limits}}};
}

}  // namespace

void apply(Step& step, const CutConditions& k) {
  step.wanted = k.wanted;
  step.used = k.used;
  step.limits = k.limits;
  step.taylor_constant = k.taylor_constant;
  step.taylor_exponent = k.taylor_exponent;
  step.reference_life = k.reference_life;
  if (!k.tuned) return;
  if (!k.tuned->found) {
    step.no_optimum = no_optimum(*k.tuned);
    return;
  }
  step.limited_by = k.tuned->binding;
  step.limit_worth = k.tuned->worth;
  step.proof_gap = k.tuned->gap();
}

void put_first(Step& step, LimitCheck limit) { step.limits.insert(step.limits.begin(), limit); }

void at_one_speed(CutSegment& segment) {
  if (segment.constant_speed) return;
  segment.constant_speed = true;
  segment.spindle = min(segment.surface_speed / (pi * segment.large_diameter), segment.fastest);
}

void set_speed(Workpiece& work, const Cut& cut, CutSegment& segment) {
  const Machine& machine = cut.context.machine;
  segment.feed = cut.conditions.used.feed;
  segment.surface_speed = cut.conditions.used.surface_speed;
  segment.fastest = fastest_speed(machine);
  if (machine.ladder.empty()) {
    if (machine.fixed_speed) at_one_speed(segment);
    return;
  }
  segment.constant_speed = true;
  work.lever =
      lever_speed(cut.context, cut.conditions, segment.large_diameter, segment.path(), work.lever);
  segment.spindle = work.lever;
}

CutSegment along(Workpiece& work, const Cut& cut, Length from, Length to, Length radius,
                 Length before, Length approach) {
  CutSegment segment;
  segment.motion = Motion::along;
  segment.from = {from, radius};
  segment.to = {to, radius};
  segment.cut = from - to;
  segment.approach = approach;
  segment.large_diameter = segment.small_diameter = 2.0 * before;
  segment.depth = before - radius;
  segment.travel = segment.path() + cut.context.shop.practice.clear_of_work;
  set_speed(work, cut, segment);
  return segment;
}

CutSegment across(Workpiece& work, const Cut& cut, Length z, Length r_from, Length r_to,
                  Length approach) {
  CutSegment segment;
  segment.motion = Motion::across;
  segment.from = {z, r_from};
  segment.to = {z, r_to};
  segment.cut = abs(r_from - r_to);
  segment.approach = approach;
  segment.large_diameter = 2.0 * (max(r_from, r_to) + approach);
  segment.small_diameter = 2.0 * min(r_from, r_to);
  segment.depth = cut.conditions.used.depth;
  segment.travel = segment.path() + cut.context.shop.practice.clear_of_work;
  set_speed(work, cut, segment);
  return segment;
}

CutSegment on_axis(const Practice& practice, Length from, Length to, Length diameter) {
  CutSegment segment;
  segment.from = {from, Length(0.0)};
  segment.to = {to, Length(0.0)};
  segment.cut = from - to;
  segment.approach = practice.approach;
  segment.large_diameter = segment.small_diameter = diameter;
  segment.depth = diameter / 2.0;
  segment.travel = segment.cut + practice.tailstock_travel;
  return segment;
}

CutSegment as_pass(const Practice& practice, CutSegment segment) {
  segment.starts_pass = true;
  segment.approach = practice.approach;
  segment.travel = segment.path();
  return segment;
}

std::vector<Length> plunges_over(const Practice& practice, const Tool& tool, Length from,
                                 Length width) {
  const double w = tool.width.si, W = width.si;
  const int plunges =
      W <= w + same_point
          ? 1
          : 1 + static_cast<int>(std::ceil((W - w) / (practice.plunge_share * w) - whole_slack));
  std::vector<Length> at;
  for (int i = 0; i < plunges; ++i) {
    const double share = plunges == 1 ? 0 : static_cast<double>(i) / (plunges - 1);
    at.push_back(from - Length(share * std::max(0.0, W - w)));
  }
  return at;
}

void gauge(Step& step, std::size_t surface) {
  if (std::find(step.gauged.begin(), step.gauged.end(), surface) == step.gauged.end())
    step.gauged.push_back(surface);
}

}  // namespace turnwright
