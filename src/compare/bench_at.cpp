// SPDX-License-Identifier: MIT
// What somebody has set: the passes of the plan, driven so.
#include "bench_at.hpp"

#include <algorithm>
#include <cmath>

#include "turnwright/figure/speeds.hpp"

namespace turnwright {
namespace {

bool by_depth(const Step& step) {
  return step.kind == StepKind::rough || step.kind == StepKind::finish ||
         step.kind == StepKind::face || step.kind == StepKind::bore;
}

Length whole_depth(const Step& step) {
  Length sum(0.0);
  for (const CutSegment& s : step.segments)
    if (s.starts_pass) sum += s.depth;
  return sum;
}

// What is not said is as usual.
BenchSettings filled(const BenchSettings& set, const BenchTask& task, const Step& step) {
  BenchSettings all = set;
  const CutSegment& first = step.segments.front();
  if (all.spindle.si <= 0 && all.surface_speed.si > 0)
    all.spindle =
        figure::SpindleSpeed::work_out<>({all.surface_speed, task.diameter}).spindle_speed;
  if (all.spindle.si <= 0)
    all.spindle = first.constant_speed
                      ? first.spindle
                      : min(figure::SpindleSpeed::work_out<>({first.surface_speed, task.diameter})
                                .spindle_speed,
                            first.fastest);
  all.surface_speed = figure::SurfaceSpeed::work_out<>({task.diameter, all.spindle}).surface_speed;
  if (all.feed.si <= 0) all.feed = first.feed;
  if (all.depth.si <= 0 || !by_depth(step)) all.depth = first.depth;
  return all;
}

// Where the usual cut is fed lighter on its way, as near the middle when parting, so is this one.
CutSegment driven(CutSegment segment, const Step& step, const BenchSettings& all, bool one_speed) {
  segment.feed = all.feed * (segment.feed / step.segments.front().feed);
  segment.surface_speed = all.surface_speed;
  segment.constant_speed = segment.constant_speed || one_speed;
  segment.spindle = all.spindle;
  return segment;
}

// At the larger diameter of a pass, that is before it outside and after it in a bore.
Length diameter_of(const Step& step, Length taken, Length depth) {
  const CutSegment& first = step.segments.front();
  if (step.kind != StepKind::bore) return first.large_diameter - 2.0 * taken;
  return first.large_diameter + 2.0 * (taken + depth - first.depth);
}

// As many passes as the depth asks for, the last one with what is left.
std::vector<CutSegment> passes_at(const Step& step, const BenchSettings& all, double slack,
                                  bool one_speed) {
  std::vector<CutSegment> passes;
  if (!by_depth(step)) {
    for (const CutSegment& s : step.segments) passes.push_back(driven(s, step, all, one_speed));
    return passes;
  }
  const Length whole = whole_depth(step);
  const int n = std::max(1, static_cast<int>(std::ceil((whole / all.depth).si - slack)));
  const CutSegment first = step.segments.front();
  for (int i = 0; i < n; ++i) {
    CutSegment pass = driven(first, step, all, one_speed);
    const Length taken = static_cast<double>(i) * all.depth;
    pass.depth = min(all.depth, whole - taken);
    if (first.motion == Motion::along)
      pass.large_diameter = pass.small_diameter = diameter_of(step, taken, pass.depth);
    passes.push_back(pass);
  }
  return passes;
}

// The route with the step driven so.
Route driven_route(const BenchCut& cut, std::size_t i, const BenchSettings& all, bool one_speed) {
  Route route = cut.quote.route;
  Step& step = route.operations.front().steps[i];
  step.segments = passes_at(step, all, cut.shop.practice.depth_slack, one_speed);
  step.used = {all.surface_speed, all.feed, all.depth};
  BenchTask task = bench_task(cut, cut.step(i));
  if (by_depth(step)) task.depth = all.depth;
  step.taylor_constant = taylor_constant_at(task, all.feed);
  return route;
}

Length width_of(const Step& step, const Tool& tool, const BenchSettings& all) {
  return step.kind == StepKind::groove || step.kind == StepKind::part_off ? tool.width : all.depth;
}

double whole_percent(double share) { return std::round(100 * share) / 100; }

void add_careful(const Practice& practice, BenchAt& at) {
  const auto low = [&](double share, const char* id) {
    if (share < practice.careful_below)
      at.careful.push_back({id, {{"share", Share{whole_percent(share)}}}});
  };
  low(at.speed_share, "bench.speed-share");
  low(at.feed_share, "bench.feed-share");
  if (at.passes > at.usual_passes)
    at.careful.push_back({"bench.passes-more", {{"n", at.passes - at.usual_passes}}});
}

void add_shares(const Practice& practice, BenchAt& at) {
  const auto high = [&](double share, const char* id) {
    if (share > practice.brave_above)
      at.brave.push_back({id, {{"share", Share{whole_percent(share)}}}});
  };
  high(at.speed_share, "bench.speed-share");
  high(at.feed_share, "bench.feed-share");
  high(at.depth_share, "bench.depth-share");
}

// What the tool does not stand.
void add_tool_limits(const Tool& tool, bool depth_counts, BenchAt& at) {
  const BenchSettings& set = at.set;
  if (depth_counts && set.depth > tool.largest_depth * (1 + 1e-9))
    at.brave.push_back({"bench.tool-depth", {{"depth", set.depth}, {"most", tool.largest_depth}}});
  if (set.feed > tool.largest_feed * (1 + 1e-9))
    at.brave.push_back({"bench.tool-feed",
                        {{"feed", measure(set.feed, unit::mm_per_rev, 3)},
                         {"most", measure(tool.largest_feed, unit::mm_per_rev, 3)}}});
}

// What the machine does not give, beyond the band of its speeds; its plate comes before all this.
void add_machine_limits(const Machine& machine, double band, BenchAt& at) {
  const Frequency fastest = fastest_speed(machine);
  if (at.set.spindle > fastest * (1 + 1e-9))
    at.brave.push_back({"bench.above-fastest", {{"spindle", at.set.spindle}, {"most", fastest}}});
  if (at.load.power > rated_power(machine) * (1 + band))
    at.brave.push_back({"bench.power-short",
                        {{"power", measure(at.load.power, unit::kW, 3)},
                         {"rated", measure(rated_power(machine), unit::kW, 3)}}});
  if (at.load.torque > rated_torque(machine) * (1 + band))
    at.brave.push_back({"bench.torque-short",
                        {{"torque", measure(at.load.torque, unit::Nm, 3)},
                         {"rated", measure(rated_torque(machine), unit::Nm, 3)}}});
}

Money cost_of(const BenchCut& cut, Time minutes) {
  const auto& lot = cut.quote.lot;
  const Amount machine = model::time_cost<double>(minutes, lot.machine_rate);
  const Amount person = model::time_cost<double>(minutes, lot.person_rate);
  return rounded((machine + person) * (1.0 + lot.overhead.si));
}

}  // namespace

BenchAt bench_at(const BenchCut& cut, const BenchSettings& set) {
  const std::size_t i = cut.steps.front();
  const Step& usual = cut.step(i);
  const BenchTask task = bench_task(cut, usual);
  BenchAt at;
  at.set = filled(set, task, usual);
  at.surface_speed = at.set.surface_speed;
  const bool one_speed = set.spindle.si > 0;
  const Route route = driven_route(cut, i, at.set, one_speed);
  const StepTime time = times_of(route, cut.shop).operations.front().steps[i];
  at.passes = static_cast<int>(passes_of(route.operations.front().steps[i]).size());
  at.usual_passes = static_cast<int>(passes_of(usual).size());
  at.time = time.machine;
  at.cutting = time.cutting;
  at.usual_time = cut.time(i).machine;
  at.life = time.life;
  at.usual_life = cut.time(i).life;
  at.load = cut_load(task.material, task.tool, width_of(usual, task.tool, at.set), at.set.feed,
                     at.surface_speed, task.diameter);
  at.speed_share = (at.surface_speed / usual.used.surface_speed).si;
  at.feed_share = (at.set.feed / usual.used.feed).si;
  at.depth_share = by_depth(usual) ? (at.set.depth / usual.segments.front().depth).si : 1;
  add_careful(cut.shop.practice, at);
  add_shares(cut.shop.practice, at);
  add_tool_limits(task.tool, by_depth(usual), at);
  add_machine_limits(task.machine, cut.shop.practice.speed_band, at);
  if (cut.request.in_money && at.time > at.usual_time)
    at.lost = cost_of(cut, at.time - at.usual_time);
  return at;
}

}  // namespace turnwright
