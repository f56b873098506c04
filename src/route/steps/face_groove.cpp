// SPDX-License-Identifier: MIT
#include "steps/cut.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"

namespace turnwright::steps {
namespace {

const Tool* tool_for(const OperationContext& op, const FaceGroove& g) {
  return widest_tool(op.shop, op.machine, ToolKind::face_groove, [&](const Tool& t) {
    return t.width < g.width + Length(same_point) && t.reach.si >= g.depth.si - same_point &&
           t.least_bore < g.inner + 2.0 * g.width + Length(same_point);
  });
}

Infeasible no_tool(const FaceGroove& g) {
  return {
      {"steps.no-face-grooving-tool", {{"width", g.width}, {"depth", g.depth}, {"inner", g.inner}}},
      {{"steps.narrower-face-grooving-tool", {{"width", g.width}, {"depth", g.depth}}}}};
}

void plunge(const OperationContext& op, Workpiece& work, const Tool& tool, const FaceCut& face) {
  const FaceGroove& g = face.groove;
  Step step = begin(StepKind::groove, tool, "steps.face-groove");
  const Length outer = g.inner / 2.0 + g.width;
  step.from = -g.depth;
  const Cut cut = plunge_to(op, tool, StepKind::groove, 2.0 * outer, g.depth);
  apply(step, cut.conditions);
  for (const Length r : plunges_over(op.shop.practice, tool, outer, g.width)) {
    CutSegment segment = along(work, cut, Length(0.0), -g.depth, r, r, op.shop.practice.approach);
    segment.depth = g.depth;
    step.segments.push_back(segment);
  }
  step.removed = face.volume;
  work.commit_feature(std::move(step));
}

}  // namespace

Outcome face_groove(const OperationContext& op, Workpiece& work) {
  for (const FaceCut& cut : op.job.face_cuts) {
    if (cut.left != op.view.from_left) continue;
    const Tool* tool = tool_for(op, cut.groove);
    if (tool == nullptr) return no_tool(cut.groove);
    plunge(op, work, *tool, cut);
  }
  return {};
}

}  // namespace turnwright::steps
