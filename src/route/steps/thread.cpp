// SPDX-License-Identifier: MIT
// Threads: tapped, cut with a die, or by a single point.
#include <algorithm>
#include <cmath>

#include "steps/cut.hpp"
#include "steps/steps.hpp"
#include "steps/tools.hpp"
#include "turnwright/figure/threads.hpp"

namespace turnwright::steps {
namespace {

// A die goes where the centre stands: what that holds is cut by a single point.
const Tool* tap_or_die(const OperationContext& op, const ThreadCut& cut) {
  const Thread& t = cut.thread;
  if (!cut.inside && op.task.operation.support != Support::chuck) return nullptr;
  const bool plain = t.starts == 1 && !t.left_hand &&
                     (t.form == ThreadForm::metric || t.form == ThreadForm::unified ||
                      (t.form == ThreadForm::pipe && cut.inside));
  if (!plain) return nullptr;
  const Tool* sized = sized_tool(op.shop, op.machine, cut.inside ? ToolKind::tap : ToolKind::die,
                                 t.major, Length(0.0));
  if (sized == nullptr || (cut.inside && cut.to - cut.from > sized->deepest * t.major))
    return nullptr;
  return sized;
}

bool cuts(const Tool& tool, const OperationContext& op, const ThreadCut& cut) {
  constexpr double same_angle = 0.01;  // rad
  const Thread& t = cut.thread;
  if (tool.kind != (cut.inside ? ToolKind::inside_thread : ToolKind::thread) ||
      !goes_on(tool, op.machine))
    return false;
  if (std::abs(tool.profile_angle.si - 2 * t.flank_angle()) > same_angle ||
      t.pitch < tool.least_feed || t.pitch > tool.largest_feed + Length(same_point))
    return false;
  const Length reach = -min(op.view.z(cut.from), op.view.z(cut.to));
  return !cut.inside || (tool.least_bore <= t.core() + Length(same_point) && tool.reach >= reach);
}

const Tool* threading_tool(const OperationContext& op, const ThreadCut& cut) {
  if (const Tool* sized = tap_or_die(op, cut)) return sized;
  for (const Tool& tool : op.shop.tools)
    if (cuts(tool, op, cut)) return &tool;
  return nullptr;
}

Infeasible no_tool(const ThreadCut& cut) {
  const Thread& t = cut.thread;
  return {{cut.inside ? "steps.no-inside-threading-tool" : "steps.no-threading-tool",
           {{"thread", t.designation}}},
          {{"steps.threading-tool",
            {{"angle", Figure{2 * t.flank_angle() / pi * 180, 3}}, {"pitch", t.pitch}}},
           "steps.state-a-time"}};
}

// What every thread's step ends with.
void commit(const OperationContext& op, Workpiece& work, const ThreadCut& cut, Step step) {
  const Interval z = op.view.between(cut.from, cut.to);
  step.from = z.from;
  step.to = z.to;
  step.gauged.push_back(cut.surface);
  step.removed = cut.volume;
  work.commit_feature(std::move(step));
}

// Run in and out once; a tap in a blind hole stops short of its point.
void tap(const OperationContext& op, Workpiece& work, const ThreadCut& cut, const Tool& tool) {
  const Thread& t = cut.thread;
  Step step =
      begin(cut.inside ? StepKind::tap : StepKind::thread, tool,
            {cut.inside ? "steps.tapped" : "steps.cut-with-a-die", {{"thread", t.designation}}});
  step.tailstock = op.machine.manual();
  const CutContext c = cut_context(op, tool, step.kind, t.major);
  const Cut turning{c, thread_conditions(c, t.major, t.lead(), cut.depth)};
  apply(step, turning.conditions);
  const Interval z = op.view.between(cut.from, cut.to);
  CutSegment segment = on_axis(op.shop.practice, z.to, z.from, t.major);
  segment.from.r = segment.to.r = t.major / 2.0;
  segment.cut = 2.0 * (z.to - z.from);
  segment.approach = op.shop.practice.run_in_pitches * t.pitch;
  segment.overrun = min(op.shop.practice.tap_run_out_pitches * t.pitch, cut.run_out);
  segment.depth = cut.depth;
  segment.travel = segment.path() + op.shop.practice.tailstock_travel;
  set_speed(work, turning, segment);
  at_one_speed(segment);
  segment.feed = t.lead();
  step.segments.push_back(segment);
  commit(op, work, cut, std::move(step));
}

// How the depth is divided: the infeeds of the passes, each counted from the blank.
struct Infeeds {
  std::vector<Length> at;
  bool more = false;  // passes than the table says, so that none is too deep
  int passes() const { return static_cast<int>(at.size()); }
  Length largest() const {
    Length most(0.0), before(0.0);
    for (const Length x : at) {
      most = max(most, x - before);
      before = x;
    }
    return most;
  }
};
Infeeds infeeds_of(const ThreadPasses& table, const ThreadCut& cut, const Tool& tool) {
  constexpr int most_passes = 200;
  const double n = table.at(cut.thread.pitch) * (cut.inside ? table.inside_factor : 1.0) *
                   (high_speed_steel(tool) ? table.hss_factor : 1.0);
  const int listed = static_cast<int>(std::ceil(n - whole_slack));
  for (int passes = std::max(2, listed);; ++passes) {
    Infeeds infeeds{figure::ThreadInfeed::work_out<>(
                        {cut.depth, static_cast<double>(passes), table.first_weight})
                        .infeeds,
                    passes > listed};
    if (infeeds.largest() <= table.largest_infeed || passes > most_passes) return infeeds;
  }
}

// Pass by pass, the last ones without infeed.
void cut_start(const OperationContext& op, Workpiece& work, const ThreadCut& cut,
               const Cut& turning, const Infeeds& infeeds, int springs, Step& step) {
  const Length pitch = cut.thread.pitch;
  const Length blank = op.job.surfaces[cut.surface].right_radius;
  const Length v_at = cut.inside ? blank + cut.depth : blank;
  const Interval z = op.view.between(cut.from, cut.to);
  Length before(0.0);
  for (int i = 0; i < infeeds.passes() + springs; ++i) {
    const Length x = infeeds.at[static_cast<std::size_t>(std::min(i, infeeds.passes() - 1))];
    const Length r = cut.inside ? blank + x : blank - x;
    CutSegment segment =
        along(work, turning, z.to, z.from, r, v_at, op.shop.practice.run_in_pitches * pitch);
    if (cut.runs_to_left == op.view.from_left) std::swap(segment.from.z, segment.to.z);
    segment.overrun = min(pitch, cut.run_out);
    segment.depth = x - before;
    segment.travel = segment.path() + op.shop.practice.clear_of_work;
    at_one_speed(segment);
    segment.feed = cut.thread.lead();
    step.segments.push_back(segment);
    before = x;
  }
}

Message reason_for(const Thread& t, int passes, int springs) {
  return {t.left_hand ? "steps.left-hand-thread" : "steps.thread",
          {{"thread", t.designation}, {"passes", passes}, {"springs", springs}}};
}

// How steep a lead the holder leans to with its shims stands as the copying angle of a threading
// tool; the flank of a steeper thread rubs on it.
void warn_of_lead(const Tool& tool, Workpiece& work, const ThreadCut& cut) {
  const Thread& t = cut.thread;
  const Length middle = (t.major + t.core()) / 2.0;
  const Number angle(std::atan((t.lead() / (pi * middle)).si));
  if (tool.copying_angle.si <= 0 || angle <= tool.copying_angle) return;
  work.cautions.push_back({t.left_hand ? "steps.steep-left-hand-lead" : "steps.steep-lead",
                           {{"thread", t.designation},
                            {"angle", measure(angle, unit::deg, 3)},
                            {"most", measure(tool.copying_angle, unit::deg, 2)}}});
}

void single_point(const OperationContext& op, Workpiece& work, const ThreadCut& cut,
                  const Tool& tool) {
  const Thread& t = cut.thread;
  const ThreadPasses& table = op.shop.standards.thread_passes;
  const Infeeds infeeds = infeeds_of(table, cut, tool);
  const int springs = op.machine.manual() ? table.spring_manual : table.spring_cnc;
  Step step = begin(StepKind::thread, tool, reason_for(t, infeeds.passes(), springs));
  const Length blank = op.job.surfaces[cut.surface].right_radius;
  const Length v_at = cut.inside ? blank + cut.depth : blank;
  const CutContext c = cut_context(op, tool, StepKind::thread, 2.0 * v_at);
  Cut turning{c, thread_conditions(c, 2.0 * v_at, t.lead(), op.shop.practice.thread_table_depth)};
  turning.conditions.used.depth = turning.conditions.wanted.depth = cut.depth;
  apply(step, turning.conditions);
  put_first(step, {LimitId::infeed, table.largest_infeed.si, infeeds.largest().si, unit::mm,
                   infeeds.more, infeeds.more ? Remedy::one_more_pass : Remedy::none});
  for (int start = 0; start < t.starts; ++start)
    cut_start(op, work, cut, turning, infeeds, springs, step);
  warn_of_lead(tool, work, cut);
  commit(op, work, cut, std::move(step));
}

Outcome cut_thread(const OperationContext& op, Workpiece& work, const ThreadCut& cut) {
  const Tool* tool = threading_tool(op, cut);
  if (tool == nullptr) return no_tool(cut);
  if (tool->kind == ToolKind::tap || tool->kind == ToolKind::die)
    tap(op, work, cut, *tool);
  else
    single_point(op, work, cut, *tool);
  return {};
}

}  // namespace

Outcome thread(const OperationContext& op, Workpiece& work) {
  for (const ThreadCut& cut : op.job.threads) {
    const Surface& s = op.job.surfaces[cut.surface];
    const bool mine = cut.inside ? (s.region == Region::bore_left) == op.view.from_left
                                 : made_here(op, cut.surface, op.view.between(cut.from, cut.to));
    if (!mine) continue;
    if (Outcome fails = cut_thread(op, work, cut)) return fails;
  }
  return {};
}

}  // namespace turnwright::steps
