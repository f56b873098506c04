// SPDX-License-Identifier: MIT
#include "steps/cut.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"

namespace turnwright::steps {
namespace {

void roll(const OperationContext& op, Workpiece& work, const Tool& tool, std::size_t surface,
          const Interval& z) {
  const Surface& s = op.job.surfaces[surface];
  const Practice& practice = op.shop.practice;
  const Knurl& knurl = *op.job.element_of(s).knurl;
  Step step =
      begin(StepKind::knurl, tool, {"steps.knurl", {{"kind", knurl.kind}, {"pitch", knurl.pitch}}});
  step.from = z.from;
  step.to = z.to;
  const CutContext c = cut_context(op, tool, StepKind::knurl, s.diameter());
  Cut cut{c, thread_conditions(c, s.diameter(), practice.knurl_feed, practice.thread_table_depth)};
  cut.conditions.used.feed = machine_feed(op.machine, practice.knurl_feed);
  cut.conditions.used.depth = cut.conditions.wanted.depth = knurl.pitch / 2.0;
  apply(step, cut.conditions);
  for (int n = 0; n < practice.knurl_passes; ++n)
    step.segments.push_back(
        along(work, cut, z.to, z.from, s.right_radius, s.right_radius, practice.approach));
  step.gauged.push_back(surface);
  work.commit_outside(std::move(step), work.outside);
}

}  // namespace

Outcome knurl(const OperationContext& op, Workpiece& work) {
  for (std::size_t i = 0; i < op.job.outside().size(); ++i) {
    const Surface& s = op.job.surfaces[i];
    const Element& e = op.job.element_of(s);
    const Interval z = op.view.between(s.left, s.right);
    if (!e.knurl || e.allow || !made_here(op, i, z)) continue;
    const Tool* tool = tool_of(op.shop, op.machine, ToolKind::knurl);
    if (tool == nullptr)
      return Infeasible{"steps.no-knurling-tool", {"steps.knurling-tool", "steps.state-a-time"}};
    roll(op, work, *tool, i, z);
  }
  return {};
}

}  // namespace turnwright::steps
