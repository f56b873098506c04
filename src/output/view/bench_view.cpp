// SPDX-License-Identifier: MIT
#include "view/bench_view.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "turnwright/figure/speeds.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

constexpr Time watch = 15.0 * unit::s;
constexpr double same_feed = 1e-6;

bool plunges(const Step& step) {
  return step.kind == StepKind::groove || step.kind == StepKind::part_off;
}
bool by_lead(const Step& step) {
  return step.kind == StepKind::thread || step.kind == StepKind::tap;
}
bool by_table(const Step& step) {
  return step.kind == StepKind::rough || step.kind == StepKind::finish ||
         step.kind == StepKind::face || step.kind == StepKind::bore;
}

Frequency set_speed(const CutSegment& s, Frequency exact) {
  return s.constant_speed ? s.spindle : min(exact, s.fastest);
}

// The next that the lathe has below.
Frequency next_lower(const Machine& machine, Frequency set) {
  Frequency lower = machine.slowest;
  for (const Frequency n : machine.ladder)
    if (n < set) lower = n;
  return lower;
}

SpindleView spindle_of(const BenchCut& cut, const BenchStepView& v) {
  const CutSegment& first = v.step->segments.front();
  SpindleView s;
  s.diameter = v.task.diameter;
  s.wanted = first.surface_speed;
  s.exact = figure::SpindleSpeed::work_out<>({s.wanted, s.diameter}).spindle_speed;
  s.by_rule = figure::SpindleSpeedShopRule::work_out<>({s.wanted, s.diameter}).spindle_speed;
  s.rule_off = (s.by_rule / s.exact).si - 1;
  s.set = set_speed(first, s.exact);
  s.real = figure::SurfaceSpeed::work_out<>({s.diameter, s.set}).surface_speed;
  s.deviation = (s.set / s.exact).si - 1;
  const Machine& machine = cut.quote.route.machine;
  s.on_ladder = !machine.ladder.empty();
  s.next_lower = next_lower(machine, s.set);
  s.in_band = std::abs(s.deviation) <= cut.shop.practice.speed_band + whole_slack;
  s.clamped = s.exact > first.fastest;
  s.varies = !first.constant_speed && (first.motion == Motion::across || v.passes > 1);
  return s;
}

void add(std::vector<FeedView>& feeds, FeedReason reason, Length feed) {
  feeds.push_back({reason, feed, false});
}

// Where the used feed comes from: the first of the reasons that allows no more, or the machine's
// next step below.
void mark_deciding(std::vector<FeedView>& feeds, Length used) {
  const auto marks = [&](auto wanted) {
    for (FeedView& f : feeds)
      if (f.reason != FeedReason::first && wanted(f) &&
          std::abs(f.feed.si - used.si) <= same_feed * used.si) {
        f.decides = true;
        return true;
      }
    return false;
  };
  if (marks([](const FeedView& f) { return f.reason != FeedReason::machine; })) return;
  marks([](const FeedView& f) { return f.reason == FeedReason::machine; });
}

// What the feed begins with.
FeedReason start_of(const Step& step) {
  if (plunges(step)) return FeedReason::width;
  if (step.kind == StepKind::drill || step.kind == StepKind::ream) return FeedReason::diameter;
  return step.kind == StepKind::knurl ? FeedReason::rolls : FeedReason::table;
}

std::vector<FeedView> feeds_of(const BenchCut& cut, const BenchStepView& v) {
  std::vector<FeedView> feeds;
  const Step& step = *v.step;
  const Machine& machine = cut.quote.route.machine;
  if (by_lead(step)) {
    add(feeds, FeedReason::lead, v.feed);
  } else {
    add(feeds, start_of(step), step.wanted.feed);
    if (by_table(step) && step.kind != StepKind::finish)
      add(feeds, FeedReason::first, cut.shop.practice.first_feed * v.depth);
    add(feeds, FeedReason::tool_most, v.tool->largest_feed);
    if (v.task.ra.si > 0 && by_table(step) && step.kind != StepKind::rough)
      add(feeds, FeedReason::roughness,
          feed_for_roughness(cut.shop.policy, v.tool->nose_radius, v.task.ra));
    if (v.bent.by.si > 0) add(feeds, FeedReason::stiffness, v.bent.feed);
    if (!machine.feeds.empty() && (by_table(step) || plunges(step)))
      add(feeds, FeedReason::machine, v.feed);
    if (std::abs(v.feed.si - v.tool->least_feed.si) <= same_feed * v.feed.si)
      add(feeds, FeedReason::tool_least, v.tool->least_feed);
  }
  mark_deciding(feeds, v.feed);
  return feeds;
}

Length width_of(const BenchStepView& v) { return plunges(*v.step) ? v.tool->width : v.depth; }

// The factor of an interrupted cut, which the shop asked for has in its kinds of work.
void part_interrupted(const BenchCut& cut, std::vector<SpeedCorrection>& corrections) {
  using Kind = SpeedCorrection::Kind;
  const double factor = cut.shop.factor(FactorId::interrupted_corners);
  for (SpeedCorrection& c : corrections)
    if (c.kind == Kind::step) c.factor /= factor;
  corrections.push_back(
      {Kind::interrupted, std::string(name_of(FactorId::interrupted_corners)), factor, {}});
}

void check_at_the_lathe(BenchStepView& v) {
  v.feed_rate = v.feed * v.spindle.set;
  v.in_a_minute = v.feed_rate * (1.0 * unit::min);
  v.in_15_seconds = v.spindle.real * watch;
}

}  // namespace

const char* name_of(FeedReason reason) {
  static constexpr std::array names{"table",     "first",     "tool-most", "tool-least",
                                    "width",     "lead",      "diameter",  "rolls",
                                    "roughness", "stiffness", "machine"};
  return names[static_cast<std::size_t>(reason)];
}

Messages lowered_by(const Step& step) {
  Messages list;
  for (const LimitCheck& l : step.limits)
    if (l.binding && l.changed == Remedy::surface_speed)
      list.push_back({"bench.lowered",
                      {{"limit", word_of(l.limit)}, {"allowed", Measure{l.allowed, l.unit, 3}}}});
  return list;
}

double rule_deviation() { return pi / 3 - 1; }

BenchStepView view_of(const BenchCut& cut, const Step& step, const StepTime& time) {
  const CutSegment& first = step.segments.front();
  const Route& route = cut.quote.route;
  BenchStepView v{&step,
                  &time,
                  cut.shop.tool(step.tool),
                  bench_task(cut, step),
                  {},
                  {},
                  {},
                  {},
                  first.depth,
                  first.feed,
                  static_cast<int>(passes_of(step).size()),
                  {},
                  {},
                  {},
                  {},
                  {},
                  {},
                  {},
                  {},
                  1};
  v.table = bench_conditions(v.task).table;
  v.corrections = speed_corrections(cut.shop, route.machine, *v.tool, step.kind, v.table);
  if (cut.request.interrupted) part_interrupted(cut, v.corrections);
  v.spindle = spindle_of(cut, v);
  v.bent = deflected(route, cut.operation(), step, cut.shop);
  v.feeds = feeds_of(cut, v);
  v.load = cut_load(route.job.material, *v.tool, width_of(v), v.feed, v.spindle.real,
                    v.spindle.diameter);
  v.rated_power = rated_power(route.machine);
  v.rated_torque = rated_torque(route.machine);
  v.each = time.segments.front().cutting;
  v.skin = (first.surface_speed / step.used.surface_speed).si;
  check_at_the_lathe(v);
  return v;
}

}  // namespace turnwright
