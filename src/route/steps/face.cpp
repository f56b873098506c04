// SPDX-License-Identifier: MIT
// The end face and the centre hole in it.
#include <algorithm>
#include <cmath>
#include <optional>

#include "steps/cut.hpp"
#include "steps/facing.hpp"
#include "steps/free_end.hpp"
#include "steps/outside_tools.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"

namespace turnwright {

Length facing_depth(const OperationContext& op) {
  const Practice& practice = op.shop.practice;
  return op.job.raw_outside.empty() ? practice.face_depth : practice.casting_face_depth;
}

namespace steps {
namespace {

// How the stock on a face is divided.
struct FaceCuts {
  int rough = 0;
  Length each{};  // of a rough cut
  Length last{};
};
FaceCuts face_cuts(const OperationContext& op, const Tool& tool) {
  const Practice& practice = op.shop.practice;
  const Length stock = op.task.facing;
  if (stock.si <= practice.face_in_one.si + same_point) return {0, stock, stock};
  const Length deepest = min(facing_depth(op), tool.largest_depth);
  const int rough =
      static_cast<int>(std::ceil((stock.si - practice.face_last.si) / deepest.si - whole_slack));
  return {rough, (stock - practice.face_last) / std::max(rough, 1), practice.face_last};
}

// The end is faced before the centre holds it: it whips at less. Nothing where that does not
// matter.
std::optional<Machine> before_the_centre(const OperationContext& op) {
  const Operation& o = op.task.operation;
  if (o.support != Support::chuck_and_centre || o.steady || op.task.facing_out.si > 0)
    return std::nullopt;
  Machine machine = at_free_end(op);
  if (machine.chuck.rated_speed >= op.machine.chuck.rated_speed) return std::nullopt;
  return machine;
}

Length depth_of(const CentreHole& hole, bool form_b, Length d) {
  return hole.pilot + (hole.countersink - hole.pilot) / (2 * std::tan(pi / 6)) +
         (form_b ? (d - hole.countersink) / (2 * std::tan(pi / 3)) : Length(0.0));
}

Feature centre_hole(const OperationContext& op, const CentreHole& hole, bool form_b) {
  return {{op.view.from_left ? "steps.centre-hole-left" : "steps.centre-hole-right",
           {{"form", form_b ? "B" : "A"}, {"pilot", hole.pilot}}},
          hole.volume(form_b),
          op.view.z(Length(0.0)),
          false};
}

}  // namespace

Outcome face(const OperationContext& in_use, Workpiece& work) {
  const auto slower = before_the_centre(in_use);
  const OperationContext op{in_use.job, in_use.shop, slower ? *slower : in_use.machine, in_use.view,
                            in_use.task};
  const Tool* tool = rougher(op);
  if (tool == nullptr) return Infeasible{"steps.no-facing-tool", {}};
  const FaceCuts cuts = face_cuts(op, *tool);
  const Length stock = op.task.facing, r = work.outside.largest(Length(0.0), stock);
  // A mandrel stands in the bore, and beyond it.
  const Operation& held = op.task.operation;
  const Length hole =
      held.mandrel ? held.grip_diameter / 2.0 : min(work.hole_at(Length(0.0)), work.hole_at(stock));
  const FaceRequest& request = op.view.from_left ? op.job.part.left_face : op.job.part.right_face;
  const Length ra = request.ra.value_or(op.job.part.drawing.ra.value_or(Length(0.0)));
  const Cut rough = cut_at(op, *tool, StepKind::face, 2.0 * r, cuts.each);
  const Cut last = cut_at(op, *tool, StepKind::face, 2.0 * r, cuts.last, ra);
  Step step = begin(StepKind::face, *tool, "steps.face");
  step.from = Length(0.0);
  step.to = stock;
  apply(step, cuts.rough == 0 ? last.conditions : rough.conditions);
  Length z = stock;
  for (int i = 0; i < cuts.rough; ++i) {
    z = z - cuts.each;
    step.segments.push_back(
        across(work, under_skin(op, work, rough), z, r, hole, op.shop.practice.approach));
    work.skin_on = false;
  }
  step.segments.push_back(across(work, last, Length(0.0), r, hole, op.shop.practice.approach));
  work.skin_on = true;  // the outside still has its skin
  work.commit_outside(std::move(step), work.outside.only(work.outside.left(), Length(0.0)));
  return {};
}

Outcome centre(const OperationContext& op, Workpiece& work) {
  const Tool* tool = tool_of(op.shop, op.machine, ToolKind::centre);
  const Length end = 2.0 * op.task.final.left_of(Length(0.0));
  const CentreHole* hole = op.shop.standards.centre_hole(end);
  if (tool == nullptr || hole == nullptr || end.si <= hole->countersink.si)
    return Infeasible{{"steps.face-too-small", {{"diameter", end}}}, {"steps.larger-face"}};
  const bool form_b = op.job.part.centres.form == CentreForm::b;
  const Length d = form_b ? hole->protected_countersink : hole->countersink;
  const Length depth = depth_of(*hole, form_b, d);
  Cut cut = cut_at(op, *tool, StepKind::centre, d, d / 2.0);
  cut.conditions.used.feed = machine_feed(op.machine, tool->largest_feed);
  cut.conditions.used.depth = d / 2.0;
  cut.conditions.limits.clear();
  const bool used_to_turn = !op.task.turn || op.task.operation.support != Support::chuck;
  Step step = begin(StepKind::centre, *tool,
                    used_to_turn ? "steps.centre-hole" : "steps.centre-hole-drawn");
  apply(step, cut.conditions);
  CutSegment segment = on_axis(op.shop.practice, Length(0.0), -depth, d);
  set_speed(work, cut, segment);
  step.segments.push_back(segment);
  step.from = -depth;
  step.removed = hole->volume(form_b);
  work.features.push_back(centre_hole(op, *hole, form_b));
  work.commit_uncounted(std::move(step));
  return {};
}

}  // namespace steps
}  // namespace turnwright
