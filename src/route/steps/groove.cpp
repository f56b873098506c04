// SPDX-License-Identifier: MIT
// What is plunged outside: grooves, recesses, the rear edge before parting; before them what no
// grooving tool reaches.
#include <algorithm>
#include <cmath>

#include "steps/cut.hpp"
#include "steps/gauge.hpp"
#include "steps/left_hand.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"
#include "steps/walls.hpp"

namespace turnwright::steps {
namespace {

// The recess over an interval, from the work down to the part.
struct Recess {
  Interval z;
  Length top{}, bottom{};  // radii
  Length depth() const { return top - bottom; }
};
Recess recess_at(const OperationContext& op, const Workpiece& work, const Interval& z) {
  const Length top = work.outside.largest(z.from, z.to);
  return {z, top, min(top, lowest(op.task.final, z))};
}

constexpr Length flush(2e-6);  // what the foot of a fillet may stand higher than its floor

// How wide a tool may be: left of the recess the part may lie lower already.
Length room_for_tool(const OperationContext& op, const Recess& recess) {
  Length end = recess.z.from;
  const auto& pieces = op.task.final.pieces();
  for (auto s = pieces.rbegin(); s != pieces.rend(); ++s) {
    if (s->from.z.si >= end.si - same_point) continue;
    const Length right = min(s->to.z, end);
    if (max(s->from.r, radius_at(*s, right)) > recess.bottom + flush || turning_point(*s)) break;
    end = s->from.z;
  }
  return recess.z.to - max(end, op.task.zone_left);
}

bool is_of_other_form(const Groove& g) {
  return g.kind == GrooveKind::vee || g.kind == GrooveKind::half_round;
}

bool is_hollow(const OperationContext& op, const Interval& z) {
  const auto& pieces = op.task.final.pieces();
  return std::any_of(pieces.begin(), pieces.end(), [&](const Segment& s) {
    const auto turn = s.bulge == Bulge::in ? turning_point(s) : std::nullopt;
    return turn && *turn > z.from && *turn < z.to;
  });
}

// A V or a round groove opens from its floor, and its walls are plunged in steps. The width at the
// floor; of a round one a little above it, where the corners of the tool are round too.
constexpr double above_hollow = 0.2, above_flat = 0.01;  // of the depth, conventions of ours
Length width_at_floor(const OperationContext& op, const Recess& recess) {
  const auto& outside = op.job.part.outside;
  const bool asked = std::any_of(outside.begin(), outside.end(), [](const Element& e) {
    return std::any_of(e.grooves.begin(), e.grooves.end(), is_of_other_form);
  });
  const Outline& part = op.task.final;
  const bool slopes = part.right_of(recess.z.from) > recess.top - flush &&
                      part.left_of(recess.z.to) > recess.top - flush;
  if (!asked || !slopes) return recess.z.width();
  const double above_floor = is_hollow(op, recess.z) ? above_hollow : above_flat;
  const Outline level =
      Outline::cylinder(recess.z.from, recess.z.to, recess.bottom + above_floor * recess.depth());
  Length width(0.0);
  for (const Interval& i : where_above(level, part)) width = max(width, i.width());
  return width;
}

const Tool* grooving_tool(const OperationContext& op, const Recess& recess) {
  const bool at_part_off =
      op.task.part_off && std::abs(recess.z.from.si - op.task.part_off_at.si) < same_point;
  if (at_part_off) return parting_tool(op.shop, op.machine, parting_reach(op.job));
  const Length floor = width_at_floor(op, recess);
  const bool opens = floor.si < recess.z.width().si - same_point;
  const Length room = opens ? floor : max(floor, room_for_tool(op, recess));
  return straight_grooving_tool(op.shop, op.machine, room, recess.depth());
}

// Between the walls of a V; 0: the recess is none.
Number angle_of_vee(const OperationContext& op, const Recess& recess) {
  const Length opens = recess.z.width() - width_at_floor(op, recess);
  if (opens.si < same_point || is_hollow(op, recess.z)) return Number(0.0);
  return Number(2 * std::atan2(opens.si / 2, (1 - above_flat) * recess.depth().si));
}

// Ground to the angle of the V, or sharper.
const Tool* form_tool(const OperationContext& op, const Recess& recess) {
  constexpr double as_ground = 0.02;  // rad
  const Number angle = angle_of_vee(op, recess);
  const Tool* best = nullptr;
  for (const Tool& t : op.shop.tools)
    if (is_form_tool(t) && goes_on(t, op.machine) && t.reach.si >= recess.depth().si - same_point &&
        t.profile_angle.si < angle.si + as_ground &&
        (best == nullptr || t.profile_angle > best->profile_angle))
      best = &t;
  return best;
}

const Tool* tool_for(const OperationContext& op, const Recess& recess) {
  const Tool* tool = grooving_tool(op, recess);
  return tool != nullptr ? tool : form_tool(op, recess);
}

Infeasible no_tool(const OperationContext& op, const Recess& recess) {
  if (const Number angle = angle_of_vee(op, recess); angle.si > 0)
    return {{"steps.no-form-tool",
             {{"at", -op.view.z(recess.z.to)},
              {"angle", measure(angle, unit::deg, 3)},
              {"depth", recess.depth()}}},
            {{"steps.form-tool",
              {{"angle", measure(angle, unit::deg, 3)}, {"depth", recess.depth()}}}}};
  const Length width = width_at_floor(op, recess);
  return {{"steps.no-grooving-tool",
           {{"at", -op.view.z(recess.z.to)}, {"width", width}, {"depth", recess.depth()}}},
          {{"steps.narrower-grooving-tool", {{"width", width}, {"depth", recess.depth()}}}}};
}

// Wide and shallow: plunged in layers and turned sideways, from alternating sides, the tool inside
// the groove; then the walls and the floor.
void turn_sideways(Workpiece& work, const Cut& cut, const Recess& recess, Step& step) {
  const Practice& practice = cut.context.shop.practice;
  const Length width = cut.context.tool.width, depth = recess.depth();
  const Length right = recess.z.to, left = recess.z.from + width;
  const int layers =
      std::max(1, static_cast<int>(std::ceil(depth.si / (practice.side_turning_share * width.si) -
                                             whole_slack)));
  for (int i = 1; i <= layers; ++i) {
    const Length r = recess.top - depth * (static_cast<double>(i) / layers);
    const Length before = recess.top - depth * (static_cast<double>(i - 1) / layers);
    const Length z = i % 2 == 1 ? right : left, end = i % 2 == 1 ? left : right;
    step.segments.push_back(across(work, cut, z, before, r, practice.plunge_approach));
    CutSegment side = along(work, cut, z, end, r, before, Length(0.0));
    side.cut = abs(z - end);
    side.starts_pass = false;
    step.segments.push_back(side);
  }
  for (const Length wall : {right, left})
    step.segments.push_back(
        across(work, cut, wall, recess.top, recess.bottom, practice.plunge_approach));
}

// Plunge beside plunge; after several, walls and floor once more.
void plunge(Workpiece& work, const Cut& cut, const Recess& recess, Step& step) {
  const Tool& tool = cut.context.tool;
  const Practice& practice = cut.context.shop.practice;
  const auto plunges = plunges_over(practice, tool, recess.z.to, recess.z.width());
  for (const Length z : plunges)
    step.segments.push_back(
        across(work, cut, z, recess.top, recess.bottom, practice.plunge_approach));
  if (plunges.size() > 1)
    step.segments.push_back(along(work, cut, recess.z.to, recess.z.from + tool.width, recess.bottom,
                                  recess.bottom + practice.groove_floor_cut, Length(0.0)));
}

// A form tool goes to the floor where it fills the V, else down one wall, the other, and between.
void plunge_vee(const OperationContext& op, Workpiece& work, const Cut& cut, const Recess& recess,
                Step& step) {
  const Length fills = 2.0 * recess.depth() * std::tan(cut.context.tool.profile_angle.si / 2);
  const Length rest = recess.z.width() - fills;
  const int more =
      rest.si < 0.02 * fills.si ? 0 : static_cast<int>(std::ceil((rest / fills).si - whole_slack));
  for (int i = 0; i <= more; ++i) {
    const Length beside = more == 0 ? rest / 2.0 : rest * (static_cast<double>(i) / more);
    step.segments.push_back(across(work, cut, recess.z.to - fills / 2.0 - beside, recess.top,
                                   recess.bottom, op.shop.practice.plunge_approach));
  }
}

Outcome groove_at(const OperationContext& op, Workpiece& work, const Interval& interval) {
  const Recess recess = recess_at(op, work, interval);
  const Tool* tool = tool_for(op, recess);
  if (tool == nullptr) return no_tool(op, recess);
  Step step = begin(StepKind::groove, *tool,
                    tool->kind == ToolKind::part_off ? "steps.rear-edge"
                    : is_form_tool(*tool)            ? "steps.groove-formed"
                                                     : "steps.groove");
  step.from = interval.from;
  step.to = interval.to;
  const Cut cut = plunge_to(op, *tool, StepKind::groove, 2.0 * recess.top, recess.depth());
  apply(step, cut.conditions);
  put_first(step, {LimitId::reach, tool->reach.si, recess.depth().si, unit::mm});
  const double w = tool->width.si, W = interval.width().si;
  if (is_form_tool(*tool))
    plunge_vee(op, work, cut, recess, step);
  else if (W > op.shop.practice.wide_in_tools * w &&
           W > op.shop.practice.wide_in_depths * recess.depth().si)
    turn_sideways(work, cut, recess, step);
  else
    plunge(work, cut, recess, step);
  // Only this interval comes down to the part.
  const Outline after = lowered(work.outside, op.task.final, interval);
  gauge_made(op, work.outside, after, step);
  work.commit_outside(std::move(step), after);
  return {};
}

}  // namespace

Outcome finish_behind(const OperationContext& op, Workpiece& work) {
  const Tool* left_hand = left_hand_tool(op);
  if (left_hand == nullptr) return {};
  const auto left = where_above(work.right_of(op.task.zone_left),
                                blocked_left(op.task.target, op.task.zone_left));
  for (auto i = left.rbegin(); i != left.rend(); ++i)
    if (tool_for(op, recess_at(op, work, *i)) == nullptr)
      finish_left_handed(op, work, *left_hand, *i);
  return {};
}

Outcome groove(const OperationContext& op, Workpiece& work) {
  // Whatever the contour left above the part in this zone is plunged.
  const auto left =
      where_above(work.right_of(op.task.zone_left), blocked_left(op.task.final, op.task.zone_left));
  for (auto i = left.rbegin(); i != left.rend(); ++i)
    if (Outcome fails = groove_at(op, work, *i)) return fails;
  return {};
}

}  // namespace turnwright::steps
