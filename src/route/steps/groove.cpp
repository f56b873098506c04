// SPDX-License-Identifier: MIT
// What is plunged outside: grooves, recesses, the rear edge before parting; before them what no
// grooving tool reaches.
#include <algorithm>
#include <cmath>

#include "steps/cut.hpp"
#include "steps/gauge.hpp"
#include "steps/groove_path.hpp"
#include "steps/left_hand.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"
#include "steps/walls.hpp"

namespace turnwright::steps {
namespace {

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

// The radius of the arc that a recess ends in; 0: it has a floor.
Length radius_of_hollow(const OperationContext& op, const Interval& z) {
  for (const Segment& s : op.task.final.pieces()) {
    const auto turn = s.bulge == Bulge::in ? turning_point(s) : std::nullopt;
    if (turn && *turn > z.from && *turn < z.to) return s.radius;
  }
  return Length(0.0);
}
bool is_hollow(const OperationContext& op, const Interval& z) {
  return radius_of_hollow(op, z).si > 0;
}

// A V opens from its floor. The width there.
constexpr double above_floor = 0.01;  // of the depth, where a V to a point is measured
Length width_at_floor(const OperationContext& op, const Recess& recess) {
  const auto& outside = op.job.part.outside;
  const bool asked = std::any_of(outside.begin(), outside.end(), [](const Element& e) {
    return std::any_of(e.grooves.begin(), e.grooves.end(), is_of_other_form);
  });
  const Outline& part = op.task.final;
  const bool slopes = part.right_of(recess.z.from) > recess.top - flush &&
                      part.left_of(recess.z.to) > recess.top - flush;
  if (!asked || !slopes) return recess.z.width();
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
  return Number(2 * std::atan2(opens.si / 2, (1 - above_floor) * recess.depth().si));
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

// The widest round-nosed tool that the hollow takes. A lathe worked by hand follows no arc: there
// the nose has to be of its radius.
const Tool* round_tool(const OperationContext& op, const Recess& recess) {
  constexpr double as_ground = 0.01;
  if (recess.floor.width() > flush) return nullptr;
  const Length radius = radius_of_hollow(op, recess.z);
  return widest_tool(op.shop, op.machine, ToolKind::groove, [&](const Tool& t) {
    return is_round_nosed(t) && t.nose_radius.si <= radius.si * (1 + as_ground) &&
           (!op.machine.manual() || t.nose_radius.si >= radius.si * (1 - as_ground)) &&
           t.reach.si >= recess.depth().si - same_point;
  });
}

bool is_round_groove(const OperationContext& op, const Recess& recess) {
  return is_hollow(op, recess.z) && width_at_floor(op, recess) < recess.z.width();
}

const Tool* tool_for(const OperationContext& op, const Recess& recess) {
  if (const Tool* round = round_tool(op, recess)) return round;
  if (is_round_groove(op, recess)) return nullptr;
  const Tool* tool = grooving_tool(op, recess);
  return tool != nullptr ? tool : form_tool(op, recess);
}

Infeasible no_round_tool(const OperationContext& op, const Recess& recess) {
  const Length radius = radius_of_hollow(op, recess.z), depth = recess.depth();
  return {{"steps.no-round-tool",
           {{"at", -op.view.z(recess.z.to)}, {"radius", radius}, {"depth", depth}}},
          {{op.machine.manual() ? "steps.round-tool-of" : "steps.round-tool",
            {{"radius", radius}, {"depth", depth}}}}};
}

Infeasible no_tool(const OperationContext& op, const Recess& recess) {
  if (is_round_groove(op, recess)) return no_round_tool(op, recess);
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

// What a parting tool plunges through beside the rear edge, before it comes along the edge.
Interval beside_rear_edge(const Workpiece& work, const Recess& recess, const Tool& tool) {
  return {max(recess.z.from - tool.width, work.outside.left()), recess.z.from};
}

std::vector<CutSegment> passes_in(const OperationContext& op, Workpiece& work, const Cut& cut,
                                  const Recess& recess) {
  const Practice& practice = op.shop.practice;
  const Length w = cut.context.tool.width, W = recess.z.width();
  const bool wide = W > practice.wide_in_tools * w && W > practice.wide_in_depths * recess.depth();
  return wide ? turned_sideways(op, work, cut, recess) : plunged(op, work, cut, recess);
}

Message why_of(const OperationContext& op, const Tool& tool, const Recess& recess) {
  if (tool.kind == ToolKind::part_off) return "steps.rear-edge";
  if (is_form_tool(tool)) return "steps.groove-formed";
  return is_round_groove(op, recess) ? "steps.groove-round" : "steps.groove";
}

// By hand a flank is cut with the compound slide, set to half the angle of the V.
void warn_of_flanks(const OperationContext& op, Workpiece& work, const Recess& recess) {
  const Number angle = angle_of_vee(op, recess);
  if (!op.machine.manual() || angle.si <= 0) return;
  work.cautions.push_back({"steps.flanks-by-compound-slide",
                           {{"at", min(-op.view.z(recess.z.to), -op.view.z(recess.z.from))},
                            {"angle", measure(angle / 2.0, unit::deg, 3)}}});
}

Outcome groove_at(const OperationContext& op, Workpiece& work, const Interval& interval) {
  Recess recess = recess_at(op, work.outside, interval);
  const Tool* tool = tool_for(op, recess);
  if (tool == nullptr) return no_tool(op, recess);
  // Only this interval comes down to the part, and the slot beside a rear edge.
  Outline after = lowered(work.outside, op.task.final, interval);
  if (tool->kind == ToolKind::part_off) {
    const Interval slot = beside_rear_edge(work, recess, *tool);
    recess.top = max(recess.top, work.outside.largest(slot.from, slot.to));
    after = lowered(after, Outline::cylinder(slot.from, slot.to, recess.bottom), slot);
  }
  Step step = begin(StepKind::groove, *tool, why_of(op, *tool, recess));
  step.from = interval.from;
  step.to = interval.to;
  const Cut cut = plunge_to(op, *tool, StepKind::groove, 2.0 * recess.top, recess.depth());
  apply(step, cut.conditions);
  put_first(step, {LimitId::reach, tool->reach.si, recess.depth().si, unit::mm});
  if (is_form_tool(*tool))
    plunge_vee(op, work, cut, recess, step);
  else
    step.segments = passes_in(op, work, cut, recess);
  gauge_made(op, work.outside, after, step);
  if (!is_form_tool(*tool)) warn_of_flanks(op, work, recess);
  work.commit_outside(std::move(step), after);
  return {};
}

// Whatever the contour left above the part in this zone is plunged; from the right.
std::vector<Interval> left_over(const OperationContext& op, const Workpiece& work) {
  auto left =
      where_above(work.right_of(op.task.zone_left), blocked_left(op.task.final, op.task.zone_left));
  std::reverse(left.begin(), left.end());
  return left;
}

// A groove in the floor of a neck: the neck comes first, each by its own tool.
bool has_levels(const OperationContext& op, const Interval& z) {
  const Length bottom = lowest(op.task.final, z);
  const auto& pieces = op.task.final.pieces();
  return std::any_of(pieces.begin(), pieces.end(), [&](const Segment& s) {
    const Length width = min(s.to.z, z.to) - max(s.from.z, z.from);
    return s.bulge == Bulge::none && s.from.r.si == s.to.r.si && s.from.r > bottom + flush &&
           width.si > same_point;
  });
}

}  // namespace

Outcome finish_behind(const OperationContext& op, Workpiece& work) {
  const Tool* left_hand = left_hand_tool(op);
  if (left_hand == nullptr) return {};
  const auto left = where_above(work.right_of(op.task.zone_left),
                                blocked_left(op.task.target, op.task.zone_left));
  for (auto i = left.rbegin(); i != left.rend(); ++i)
    if (tool_for(op, recess_at(op, work.outside, *i)) == nullptr)
      finish_left_handed(op, work, *left_hand, *i);
  return {};
}

Outcome groove(const OperationContext& op, Workpiece& work) {
  OperationTask without_grooves = op.task;
  without_grooves.final = op.task.target;
  const OperationContext necks{op.job, op.shop, op.machine, op.view, without_grooves};
  for (const Interval& i : left_over(op, work))
    if (has_levels(op, i))
      for (const Interval& neck : left_over(necks, work))
        if (neck.from < i.to && neck.to > i.from)
          if (Outcome fails = groove_at(necks, work, neck)) return fails;
  for (const Interval& i : left_over(op, work))
    if (Outcome fails = groove_at(op, work, i)) return fails;
  return {};
}

}  // namespace turnwright::steps
