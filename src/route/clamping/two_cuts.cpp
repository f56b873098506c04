// SPDX-License-Identifier: MIT
// Whether the finishing tool may take both cuts of an operation.
#include "clamping/layout.hpp"
#include "reasons.hpp"
#include "steps/tools.hpp"
#include "turnwright/shop/condition_word.hpp"

namespace turnwright {
namespace {

// The most stock per side that is to come off, and how deep the last cut of any surface may be.
struct Depths {
  Length most{};
  Message surface;  // that has the most
  Length last{};
};

Depths depths_of(const PlanContext& context, const OperationTask& task, const Tool& finisher) {
  const Stock& stock = context.job.stock;
  const Length over = (stock.upper - stock.diameter) / 2.0;
  const Outline target = reachable(task.target, finisher.copying_angle);
  const View v = context.view(task.operation.from_left);
  const Practice& practice = context.shop.practice;
  Depths depths;
  depths.last = practice.finish_depth;
  for (const Surface& s : context.job.outside()) {
    const Length middle = v.z((s.left + s.right) / 2.0);
    if (middle < task.zone_left || s.as_drawn) continue;
    const Length side =
        task.work.left_of(middle) - min(target.left_of(middle), target.right_of(middle));
    if (side.si <= same_point) continue;
    depths.last = min(depths.last, s.grade <= practice.fine_to ? practice.finish_depth_fit
                                                               : practice.finish_depth);
    if (side + over <= depths.most) continue;
    depths.most = side + over;
    depths.surface = s.name;
  }
  return depths;
}

// Why the stock keeps a finishing tool out altogether; empty when it does not.
Message kept_out(const PlanContext& context, const Tool* finisher) {
  if (finisher == nullptr) return "plan.no-finishing-tool";
  const Stock& stock = context.job.stock;
  if (!stock.skin) return {};
  return context.cast()
             ? Message{"plan.skin-of-casting", {{"condition", condition_word(stock.condition)}}}
             : Message{"plan.skin-of-bar", {{"condition", condition_word(stock.condition)}}};
}

// To what a machinist reads.
Measure readable_depth(Length depth) { return measure(depth, unit::mm, 3); }

void note(const OperationTask& task, Layout& layout, bool both_cuts, Message why) {
  layout.two_cuts.push_back(both_cuts);
  layout.two_cut_notes.push_back(in_operation(task.operation.number, std::move(why)));
}

void note_too_deep(const OperationTask& task, Layout& layout, const Depths& depths, Length limit) {
  const Message tool{"plan.try-tool-depth", {{"depth", readable_depth(depths.most - depths.last)}}};
  if (layout.two_cuts_remedies.empty()) layout.two_cuts_remedies.push_back(tool);
  note(task, layout, false,
       {"plan.needs-three-cuts",
        {{"surface", depths.surface},
         {"depth", readable_depth(depths.most)},
         {"limit", limit},
         {"tool", tool}}});
}

}  // namespace

void decide_two_cuts(const PlanContext& context, OperationTask& task, Layout& layout) {
  if (context.request.method != MethodKind::two_finish_cuts) return;
  const Tool* finisher = tool_of(context.shop, context.machine, ToolKind::finish);
  const Message why = kept_out(context, finisher);
  if (!why.empty()) {  // it holds for all operations
    layout.two_cuts.push_back(false);
    return add_once(layout.two_cut_notes, why);
  }
  const Depths depths = depths_of(context, task, *finisher);
  if (depths.most.si <= same_point) return layout.two_cuts.push_back(false);
  const Length last =
      max(context.shop.practice.finish_allowance(context.machine, context.job.stock.diameter),
          depths.most - finisher->largest_depth);
  if (last > depths.last + Length(same_point))
    return note_too_deep(task, layout, depths, finisher->largest_depth);
  task.finisher_takes_both = true;
  task.last_cut = last;
  note(task, layout, true,
       {"plan.done-in-two-cuts",
        {{"depth", readable_depth(depths.most)}, {"surface", depths.surface}}});
}

}  // namespace turnwright
