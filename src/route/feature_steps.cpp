// SPDX-License-Identifier: MIT
// Steps for what is no outline: knurls, face grooves, threads.
#include <algorithm>
#include <cmath>

#include "length_text.hpp"
#include "operation_planner.hpp"
#include "turnwright/figure/threads.hpp"

namespace turnwright {
namespace {

constexpr Length jaw_face(1e-3);      // a roll or a threading tool keeps clear of the jaws
constexpr Length knurl_feed(0.3e-3);  // 0.1-0.5 from memory
constexpr int knurl_passes = 2;       // 1-3 from memory
constexpr double run_in_pitches = 3;  // three to five (from memory)

}  // namespace

// A feature is made in one operation: where all of it is turned, or in the last one clear of the
// jaws.
bool OperationPlanner::made_here(std::size_t surface, const Interval& z) const {
  if (std::find(task_.made.begin(), task_.made.end(), surface) != task_.made.end()) return false;
  const Length clear = task_.last ? task_.jaw + jaw_face : task_.zone_left;
  return z.from > clear - Length(same_point);
}

void OperationPlanner::knurls() {
  for (std::size_t i = 0; i < job_.outside().size(); ++i) {
    const Surface& s = job_.surfaces[i];
    const Element& e = job_.element_of(s);
    const Interval z = view_.between(s.left, s.right);
    if (!e.knurl || e.allow || !made_here(i, z)) continue;
    const Tool* tool = tool_of(ToolKind::knurl);
    if (tool == nullptr) {
      why_not = "the shop has no knurling tool";
      would_help = "a tool of the kind knurl, or 'allow' with a time";
      return;
    }
    Step step = begin(StepKind::knurl, *tool,
                      e.knurl->kind + " " + length_text(job_, e.knurl->pitch) +
                          ": the rolls press hard, so before the neighbours are finished");
    step.from = z.from;
    step.to = z.to;
    const CutContext c = context(*tool, StepKind::knurl, s.diameter(), Length(0.0));
    CutConditions k = thread_conditions(c, s.diameter(), knurl_feed, thread_table_depth);
    k.used.feed = machine_feed(machine_, knurl_feed);
    k.used.depth = k.wanted.depth = e.knurl->pitch / 2.0;
    apply(step, k);
    for (int n = 0; n < knurl_passes; ++n)
      step.passes.push_back(
          along(c, k, z.to, z.from, s.right_radius, s.right_radius, Length(approach_m)));
    step.gauged.push_back(i);
    done(std::move(step), task_.work);
  }
}

void OperationPlanner::face_grooves() {
  for (const FaceCut& cut : job_.face_cuts) {
    if (cut.left != view_.from_left) continue;
    const FaceGroove& g = cut.groove;
    const Tool* best = nullptr;
    for (const Tool& t : shop_.tools)
      if (t.kind == ToolKind::face_groove && fits_lathe(t) &&
          t.width < g.width + Length(same_point) && t.reach.si >= g.depth.si - same_point &&
          t.least_bore < g.inner + 2.0 * g.width + Length(same_point) &&
          (best == nullptr || t.width > best->width))
        best = &t;
    if (best == nullptr) {
      why_not = "no face grooving tool cuts a groove " + length_text(job_, g.width) + " wide and " +
                length_text(job_, g.depth) + " deep from " + length_text(job_, g.inner);
      would_help = "a face grooving tool no wider than " + length_text(job_, g.width) +
                   " that reaches " + length_text(job_, g.depth);
      return;
    }
    Step step = begin(StepKind::groove, *best, "the groove in the face");
    const Length outer = g.inner / 2.0 + g.width;
    step.from = -g.depth;
    const CutContext c = context(*best, StepKind::groove, 2.0 * outer, Length(0.0));
    CutConditions k = conditions_at(c, g.depth);
    k.used.depth = k.wanted.depth = g.depth;
    apply(step, k);
    const int plunges = plunges_of(*best, g.width);
    for (int i = 0; i < plunges; ++i) {
      const double share = plunges == 1 ? 0 : static_cast<double>(i) / (plunges - 1);
      const Length r = outer - share * max(Length(0.0), g.width - best->width);
      Pass pass = along(c, k, Length(0.0), -g.depth, r, r, Length(approach_m));
      pass.depth = g.depth;
      step.passes.push_back(pass);
    }
    step.removed = cut.volume;
    finished_feature(std::move(step));
  }
}

const Tool* OperationPlanner::threading_tool(const ThreadCut& cut) const {
  const Thread& t = cut.thread;
  const bool plain = t.starts == 1 && !t.left_hand &&
                     (t.form == ThreadForm::metric || t.form == ThreadForm::unified);
  if (plain)
    if (const Tool* sized =
            sized_tool(cut.inside ? ToolKind::tap : ToolKind::die, t.major, Length(0.0)))
      if (!cut.inside || cut.to - cut.from <= sized->deepest * t.major) return sized;
  const double angle = 2 * t.flank_angle();
  const Length reach = cut.inside ? -min(view_.z(cut.from), view_.z(cut.to)) : Length(0.0);
  for (const Tool& tool : shop_.tools) {
    if (tool.kind != (cut.inside ? ToolKind::inside_thread : ToolKind::thread) || !fits_lathe(tool))
      continue;
    if (std::abs(tool.profile_angle.si - angle) > 0.01 || t.pitch < tool.least_feed ||
        t.pitch > tool.largest_feed + Length(same_point))
      continue;
    if (cut.inside && (tool.least_bore > t.core() + Length(same_point) || tool.reach < reach))
      continue;
    return &tool;
  }
  return nullptr;
}

void OperationPlanner::threads() {
  for (const ThreadCut& cut : job_.threads) {
    const Surface& s = job_.surfaces[cut.surface];
    const bool mine = cut.inside ? (s.region == Region::bore_left) == view_.from_left
                                 : made_here(cut.surface, view_.between(cut.from, cut.to));
    if (mine && why_not.empty()) thread(cut);
  }
}

void OperationPlanner::thread(const ThreadCut& cut) {
  const Tool* tool = threading_tool(cut);
  if (tool == nullptr) {
    why_not = "no tool of the shop cuts the thread " + cut.thread.designation +
              (cut.inside ? " inside" : "");
    would_help = "a threading tool of " + readable(2 * cut.thread.flank_angle() / pi * 180, 3) +
                 " degrees for a pitch of " + length_text(job_, cut.thread.pitch) +
                 ", or 'allow' with a time";
    return;
  }
  if (tool->kind == ToolKind::tap || tool->kind == ToolKind::die)
    tapped(cut, *tool);
  else
    single_point(cut, *tool);
}

// Run in and out once; a tap in a blind hole stops short of its point.
void OperationPlanner::tapped(const ThreadCut& cut, const Tool& tool) {
  const Thread& t = cut.thread;
  Step step =
      begin(cut.inside ? StepKind::tap : StepKind::thread, tool,
            t.designation + (cut.inside ? ", tapped: in and out" : ", with a die: on and off"));
  step.tailstock = machine_.manual();
  const CutContext c = context(tool, step.kind, t.major, Length(0.0));
  const CutConditions k = thread_conditions(c, t.major, t.lead(), cut.depth);
  apply(step, k);
  const Interval z = view_.between(cut.from, cut.to);
  Pass pass;
  pass.from = {z.to, t.major / 2.0};
  pass.to = {z.from, t.major / 2.0};
  pass.cut = 2.0 * (z.to - z.from);
  pass.approach = run_in_pitches * t.pitch;
  pass.overrun = min(2.0 * t.pitch, cut.run_out);
  pass.large_diameter = pass.small_diameter = t.major;
  pass.depth = cut.depth;
  pass.travel = pass.path() + 100.0 * unit::mm;
  set_speed(c, k, pass);
  at_one_speed(pass);
  pass.feed = t.lead();
  step.passes.push_back(pass);
  step.from = z.from;
  step.to = z.to;
  step.gauged.push_back(cut.surface);
  step.removed = cut.volume;
  finished_feature(std::move(step));
}

void OperationPlanner::single_point(const ThreadCut& cut, const Tool& tool) {
  const Thread& t = cut.thread;
  const Surface& s = job_.surfaces[cut.surface];
  const ThreadPasses& table = shop_.standards.thread_passes;
  const Interval z = view_.between(cut.from, cut.to);
  double n = table.at(t.pitch) * (cut.inside ? table.inside_factor : 1.0) *
             (tool.grade == "hss" ? table.hss_factor : 1.0);
  int passes = std::max(2, static_cast<int>(std::ceil(n - 1e-9)));
  std::vector<Length> infeeds;
  auto largest = [&] {
    Length most(0.0), before(0.0);
    for (const Length x : infeeds) {
      most = max(most, x - before);
      before = x;
    }
    return most;
  };
  for (;; ++passes) {
    infeeds = figure::ThreadInfeed::work_out<>(
                  {cut.depth, static_cast<double>(passes), table.first_weight})
                  .infeeds;
    if (largest() <= table.largest_infeed || passes > 200) break;
  }
  const int springs = machine_.manual() ? table.spring_manual : table.spring_cnc;
  Step step = begin(
      StepKind::thread, tool,
      t.designation + ": " + std::to_string(passes) + " passes, the first light, then " +
          "equal chips, and " + std::to_string(springs) + " without infeed" +
          (t.left_hand ? "; left hand: cut away from the chuck or with the spindle reversed" : ""));
  const Length blank = s.right_radius;
  const Length v_at = cut.inside ? blank + cut.depth : blank;
  const CutContext c = context(tool, StepKind::thread, 2.0 * v_at, Length(0.0));
  CutConditions k = thread_conditions(c, 2.0 * v_at, t.lead(), thread_table_depth);
  k.used.depth = k.wanted.depth = cut.depth;
  apply(step, k);
  step.limits.insert(step.limits.begin(),
                     {"infeed of a pass", table.largest_infeed.si, largest().si, unit::mm,
                      passes > static_cast<int>(std::ceil(n - 1e-9)), "one more pass"});
  const bool inwards = cut.runs_to_left != view_.from_left;
  for (int start = 0; start < t.starts; ++start)
    for (int i = 0; i < passes + springs; ++i) {
      const Length x = infeeds[static_cast<std::size_t>(std::min(i, passes - 1))];
      const Length before = i == 0        ? Length(0.0)
                            : i > passes  ? x
                            : i == passes ? x
                                          : infeeds[static_cast<std::size_t>(i - 1)];
      const Length r = cut.inside ? blank + x : blank - x;
      Pass pass = along(c, k, z.to, z.from, r, v_at, run_in_pitches * t.pitch);
      if (!inwards) std::swap(pass.from.z, pass.to.z);
      pass.overrun = min(t.pitch, cut.run_out);
      pass.depth = x - before;
      pass.travel = pass.path() + 4.0 * unit::mm;
      at_one_speed(pass);
      pass.feed = t.lead();
      step.passes.push_back(pass);
    }
  step.from = z.from;
  step.to = z.to;
  step.gauged.push_back(cut.surface);
  step.removed = cut.volume;
  finished_feature(std::move(step));
}

// A step that takes off a feature; the outline stays.
void OperationPlanner::finished_feature(Step step) {
  count_changes(step);
  keep(std::move(step));
}

}  // namespace turnwright
