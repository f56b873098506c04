// SPDX-License-Identifier: MIT
// One cut as a worked example for teaching: formula, units brought to one, numbers, result,
// rounding, source; metric and inch side by side.
#include <cmath>

#include "formatting.hpp"
#include "text/explain.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "turnwright/output/bench.hpp"
#include "view/bench_view.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

constexpr int digits = 5;  // shown while working; the result is rounded last

/// The same words in both systems of units.
struct BothUnits {
  Words metric, inch;
  explicit BothUnits(const Words& words) : metric(words), inch(words) {
    metric.units(false);
    inch.units(true);
  }
};

std::string shown_in(double si, const Unit& unit, const Words& words) {
  return words.readable(shown(si, unit), digits);
}

void source(TextWriter& out, const char* figure) {
  if (const auto* entry = figure::find(figure))
    out.line({"explain.figure", {{"figure", figure}, {"source", entry->source}}}, 2);
}

void surface_speed(TextWriter& out, const BenchCut& cut, const BenchStepView& v) {
  const Words& words = out.words();
  out.section("working.surface-speed");
  if (v.table.row == nullptr) return;
  const BothUnits both(words);
  double product = 1;
  Messages factors;
  for (const SpeedCorrection& c : v.corrections) {
    product *= c.factor;
    factors.push_back({"working.factor", {{"name", c.row}, {"factor", Figure{c.factor, 3}}}});
  }
  out.line({"working.from-table",
            {{"metric", both.metric.measure(measure(v.table.speed, unit::m_per_min))},
             {"inch", both.inch.measure(measure(v.table.speed, unit::m_per_min))}}});
  out.line({"working.factors", {{"factors", factors}, {"product", Figure{product, 4}}}});
  for (const Message& m : lowered_by(*v.step)) out.line(m);
  out.line({"working.speed-result",
            {{"metric", both.metric.measure(measure(v.spindle.wanted, unit::m_per_min))},
             {"inch", both.inch.measure(measure(v.spindle.wanted, unit::m_per_min))}}});
  out.line(source_label(cut.shop, v.table.row->source), 2);
}

void spindle_speed(TextWriter& out, const BenchStepView& v) {
  const Words& words = out.words();
  const SpindleView& s = v.spindle;
  out.section("working.spindle-speed");
  const std::string result = words.readable(in(s.exact, unit::rev_per_min), digits);
  out.line("working.spindle-formula");
  out.line({"working.spindle-metric",
            {{"speed", shown_in(s.wanted.si, unit::m_per_min, words)},
             {"same", shown_in(s.wanted.si, unit::mm_per_min, words)},
             {"diameter", shown_in(s.diameter.si, unit::mm, words)},
             {"result", result}}});
  out.line({"working.spindle-inch",
            {{"speed", shown_in(s.wanted.si, unit::ft_per_min, words)},
             {"same", shown_in(s.wanted.si, unit::in_per_min, words)},
             {"diameter", shown_in(s.diameter.si, unit::inch, words)},
             {"result", result}}});
  source(out, "spindle-speed");
  out.line({"working.rule",
            {{"speed", shown_in(s.wanted.si, unit::ft_per_min, words)},
             {"diameter", shown_in(s.diameter.si, unit::inch, words)},
             {"result", words.readable(in(s.by_rule, unit::rev_per_min), digits)},
             {"off", Share{rule_deviation()}}}});
  source(out, "spindle-speed-shop-rule");
  out.line({"working.lathe-has", {{"spindle", s.set}, {"off", Share{s.deviation}}}});
}

// Of all passes together.
Length whole_depth(const Step& step) {
  Length sum(0.0);
  for (const CutSegment& s : step.segments)
    if (s.starts_pass) sum += s.depth;
  return sum;
}

void depth(TextWriter& out, const BenchCut& cut, const BenchStepView& v) {
  if (v.depth.si <= 0) return;
  out.section("working.depth");
  const BothUnits both(out.words());
  const Length whole = whole_depth(*v.step);
  const bool even = std::abs((whole - static_cast<double>(v.passes) * v.depth).si) < same_point;
  const auto line = [&](const char* id, const Words& words) {
    out.line({id,
              {{"whole", length_text(whole, words)},
               {"n", v.passes},
               {"depth", length_text(v.depth, words)}}});
  };
  line(even ? "working.depth-metric" : "working.uneven-metric", both.metric);
  line(even ? "working.depth-inch" : "working.uneven-inch", both.inch);
  if (cut.request.work.kind == BenchWorkKind::turn) out.line("working.half-of-diameter");
}

void feed(TextWriter& out, const BenchStepView& v) {
  out.section("working.feed");
  const BothUnits both(out.words());
  const auto line = [&](const char* id, const Words& words) {
    out.line({id,
              {{"feed", words.measure(measure(v.feed, unit::mm_per_rev))},
               {"spindle", words.measure(measure(v.spindle.set, unit::rev_per_min))},
               {"rate", words.measure(measure(v.feed_rate, unit::mm_per_min))}}});
  };
  line("working.feed-metric", both.metric);
  line("working.feed-inch", both.inch);
  source(out, "feed-rate");
}

void minutes(TextWriter& out, const BenchStepView& v) {
  const CutSegment& s = v.step->segments.front();
  out.section("working.minutes");
  out.line({"explain.lengths",
            {{"cut", s.cut},
             {"approach", measure(s.approach, unit::mm, 3)},
             {"overrun", measure(s.overrun, unit::mm, 3)},
             {"depth", measure(s.depth, unit::mm, 3)}}});
  if (s.motion == Motion::across && !s.constant_speed)
    explain_figure(out, "sloped-path-time",
                   {s.large_diameter.si, s.small_diameter.si, s.path().si, s.feed.si,
                    s.surface_speed.si, s.fastest.si});
  else
    explain_figure(out, "turning-time",
                   {s.path().si, s.feed.si, v.time->segments.front().start.si, 1, 0, 0});
  const Words& words = out.words();
  out.line({"working.all-passes",
            {{"n", v.passes},
             {"cutting", minutes_text(v.time->cutting, words)},
             {"rest", minutes_text(v.time->machine - v.time->cutting, words)},
             {"minutes", minutes_text(v.time->machine, words)}}});
}

void power(TextWriter& out, const BenchCut& cut, const BenchStepView& v) {
  const bool turns = v.step->kind == StepKind::rough || v.step->kind == StepKind::finish ||
                     v.step->kind == StepKind::face || v.step->kind == StepKind::bore;
  if (!turns) return;
  out.section("working.power");
  const Material& m = cut.quote.route.job.material;
  const double lead = v.tool->lead_angle.si > 0 ? v.tool->lead_angle.si : pi / 2;
  const double kc = v.load.force.si / (v.depth.si * v.feed.si);
  explain_figure(out, "specific-force", {m.kc11.si, m.mc, v.feed.si, lead});
  explain_figure(out, "cutting-force", {v.depth.si, v.feed.si, kc});
  explain_figure(out, "cutting-power", {v.depth.si, v.feed.si, v.spindle.real.si, kc, 1});
}

void life(TextWriter& out, const BenchStepView& v) {
  if (v.time->life.si <= 0) return;
  out.section("working.life");
  explain_figure(out, "tool-life",
                 {v.time->steady_speed.si, v.step->taylor_exponent, v.step->taylor_constant.si});
}

}  // namespace

std::string cut_working_text(const BenchCut& cut, const Words& words) {
  TextWriter out(words);
  out.section({"working.title",
               {{"work", cut.request.work.text},
                {"material", cut.quote.route.job.material.name},
                {"machine", cut.quote.route.machine.name}}});
  for (const std::size_t i : cut.steps) {
    const BenchStepView v = view_of(cut, cut.step(i), cut.time(i));
    out.section({"bench.step", {{"work", word_of(v.step->kind)}, {"tool", v.tool->name}}});
    surface_speed(out, cut, v);
    spindle_speed(out, v);
    depth(out, cut, v);
    feed(out, v);
    minutes(out, v);
    power(out, cut, v);
    life(out, v);
  }
  return out.take();
}

}  // namespace turnwright
