// SPDX-License-Identifier: MIT
// What the steps take: cutting, moving, changing and setting of tools, wear.
#include <algorithm>
#include <cmath>
#include <optional>

#include "time_context.hpp"
#include "turnwright/estimate/model.hpp"

namespace turnwright {
namespace {

// What a pass takes beside cutting and moving: dials, half-nuts, reversing.
Time pass_handling(const TimeContext& c, const Step& step) {
  const Tool* tool = c.shop.tool(step.tool);
  if (step.kind == StepKind::tap || (tool != nullptr && tool->kind == ToolKind::die))
    return c.element(HandlingId::tap_and_die);
  return c.element(step.kind == StepKind::thread ? HandlingId::thread_pass : HandlingId::pass);
}

Frequency spindle_at(const CutSegment& s, Length diameter) {
  if (s.constant_speed) return s.spindle;
  return diameter.si <= 0 ? s.fastest : min(s.surface_speed / (pi * diameter), s.fastest);
}

SegmentTime segment_time(const TimeContext& c, const Step& step, const CutSegment& s,
                         Time handling) {
  SegmentTime t;
  t.cutting = model::pass_time(s);
  const Length small = s.motion == Motion::along ? s.large_diameter : s.small_diameter;
  t.start = spindle_at(s, s.large_diameter);
  t.end = spindle_at(s, small);
  t.at_large = pi * s.large_diameter * t.start;
  t.at_small = pi * small * t.end;
  t.wear = model::wear_time(s, t.cutting, step.taylor_exponent);
  if (s.starts_pass) t.moving = handling;
  if (s.pecks > 0) t.moving += static_cast<double>(s.pecks) * c.element(HandlingId::peck);
  if (!c.manual() && s.travel.si > 0)
    t.moving += s.travel / c.machine().rapid + c.machine().acceleration_time;
  return t;
}

// Each drill of a set is put into the tailstock by itself.
// Before the first step there is no tool; a stated time has none, and takes the one before it off.
Time tool_change(const TimeContext& c, const Step& step, const std::optional<std::string>& before) {
  if (step.tailstock) return c.element(HandlingId::tailstock_tool);
  if (step.tool != before || step.kind == StepKind::drill)
    return c.element(HandlingId::change_tool);
  return Time(0.0);
}

// On fine sizes that are set by the dial, not by the tool; on each flank of a V once the slide is
// swung over to it.
Time trial_cuts(const TimeContext& c, const Step& step) {
  Time sum = (has_flanks(c, step) ? 2.0 : 0.0) * c.element(HandlingId::trial_cut);
  if (step.kind != StepKind::finish && step.kind != StepKind::bore && step.kind != StepKind::groove)
    return sum;
  for (const std::size_t n : step.gauged) {
    const Surface& s = c.surface(n);
    if (s.toleranced && s.grade <= c.shop.practice.one_trial_cut_to)
      sum += (s.grade <= c.shop.practice.two_trial_cuts_to ? 2.0 : 1.0) *
             c.element(HandlingId::trial_cut);
  }
  return sum;
}

void wear(const TimeContext& c, const Step& step, StepTime& t) {
  const Tool* tool = c.shop.tool(step.tool);
  if (tool == nullptr || t.cutting.si <= 0 || step.taylor_constant.si <= 0) return;
  const Time wear = t.wear();
  const Speed wanted = step.used.surface_speed;
  const Time life =
      figure::ToolLife::work_out<>({wanted, step.taylor_exponent, step.taylor_constant}).life;
  t.edge_share = figure::EdgeShare::work_out<>({wear, life}).share.si;
  t.life = t.cutting / t.edge_share;
  t.steady_speed = wanted * std::pow((wear / t.cutting).si, step.taylor_exponent);
  t.edge_price = tool->price / static_cast<double>(std::max(tool->edges, 1));
  const bool fine = std::any_of(step.gauged.begin(), step.gauged.end(), [&](std::size_t n) {
    return c.surface(n).grade <= c.shop.practice.fine_to;
  });
  t.edge_change_whole = c.shop.edge_change(*tool, c.machine().kind, fine);
  t.edge_change = t.edge_share * t.edge_change_whole;
}

StepTime step_time(const TimeContext& c, const Step& step,
                   const std::optional<std::string>& tool_before) {
  StepTime t;
  const Time handling = pass_handling(c, step);
  for (const CutSegment& segment : step.segments) {
    t.segments.push_back(segment_time(c, step, segment, handling));
    t.cutting += t.segments.back().cutting;
    t.moving += t.segments.back().moving;
  }
  t.tool_change = tool_change(c, step, tool_before);
  t.speed_change = step.speed_changes * c.element(HandlingId::change_speed) +
                   step.feed_changes * c.element(HandlingId::change_feed);
  t.trial_cuts = trial_cuts(c, step);
  if (step.given) t.given = *step.given;
  wear(c, step, t);
  t.machine = t.cutting + t.fixed() + t.edge_change;
  return t;
}

}  // namespace

bool has_flanks(const TimeContext& c, const Step& step) {
  const Tool* tool = c.shop.tool(step.tool);
  return tool != nullptr && tool->kind == ToolKind::groove &&
         std::any_of(step.segments.begin(), step.segments.end(), [](const CutSegment& s) {
           return s.motion == Motion::across && s.from.z.si != s.to.z.si &&
                  s.from.r.si != s.to.r.si;
         });
}

std::vector<StepTime> step_times(const TimeContext& c, const Operation& operation) {
  std::vector<StepTime> times;
  std::optional<std::string> tool;
  for (const Step& step : operation.steps) {
    times.push_back(step_time(c, step, tool));
    tool = step.tool;
  }
  return times;
}

}  // namespace turnwright
