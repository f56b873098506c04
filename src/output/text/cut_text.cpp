// SPDX-License-Identifier: MIT
// One cut: what to set first, then why, how to check it, and what else would do.
#include <algorithm>
#include <cmath>

#include "formatting.hpp"
#include "text/minutes_table.hpp"
#include "text/table_row.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/bench.hpp"
#include "view/bench_view.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

std::string rate_number(Speed rate, const Words& words) {
  return words.bare(measure(rate, unit::mm_per_min, 3));
}

// A spindle speed as it is set: whole from 100 up.
std::string set_number(Frequency n, const Words& words) {
  const double rpm = in(n, unit::rev_per_min);
  return rpm < 100 ? words.readable(rpm, 3) : words.whole(std::llround(rpm));
}

std::vector<BenchStepView> views_of(const BenchCut& cut) {
  std::vector<BenchStepView> views;
  for (const std::size_t i : cut.steps) views.push_back(view_of(cut, cut.step(i), cut.time(i)));
  return views;
}

void head(TextWriter& out, const BenchCut& cut) {
  const Route& route = cut.quote.route;
  out.section({"bench.title",
               {{"work", cut.request.work.text},
                {"material", route.job.material.name},
                {"machine", route.machine.name}}});
  out.line({"bench.held", {{"clamping", clamping_label(cut.operation())}}});
}

Table settings(const std::vector<BenchStepView>& views, const Words& words) {
  Table table;
  table.columns = {words_column("text.work"),
                   words_column("text.tool"),
                   number_column({"text.spindle", {{"unit", words.unit(unit::rev_per_min)}}}),
                   number_column({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}),
                   number_column({"bench.feed-rate", {{"unit", words.unit(unit::mm_per_min)}}}),
                   number_column({"text.depth", {{"unit", words.unit(unit::mm)}}}),
                   number_column("text.passes-head"),
                   number_column("text.minutes")};
  for (const BenchStepView& v : views)
    table.add({words(word_of(v.step->kind)), words.name(v.tool->name),
               set_number(v.spindle.set, words), feed_number(v.feed, words),
               rate_number(v.feed_rate, words),
               v.depth.si > 0 ? length_number(v.depth, words, 3) : "", words.whole(v.passes),
               minutes_text(v.time->machine, words)});
  return table;
}

bool drives_by_chip(const Step& step) {
  return step.kind == StepKind::rough || step.kind == StepKind::finish ||
         step.kind == StepKind::face || step.kind == StepKind::bore ||
         step.kind == StepKind::groove || step.kind == StepKind::part_off;
}

// A speed of the ladder above the exact one may ask for more than the machine gives.
void overloads(TextWriter& out, const std::vector<BenchStepView>& views) {
  for (const BenchStepView& v : views)
    if (drives_by_chip(*v.step) && v.overloads())
      out.line({"bench.overloads",
                {{"power", measure(v.load.power, unit::kW, 3)},
                 {"rated", measure(v.rated_power, unit::kW, 3)},
                 {"lower", v.spindle.next_lower}}});
}

void before(TextWriter& out, const BenchCut& cut) {
  Messages list;
  for (const std::size_t i : cut.before)
    list.push_back(
        {"bench.before-it",
         {{"why", cut.step(i).why}, {"minutes", minutes_text(cut.time(i).machine, out.words())}}});
  if (!list.empty()) out.line({"bench.before", {{"steps", list}}});
}

// ---- what somebody has set

constexpr double hardly_wears = 10;  // times the usual life: no number that anybody needs

void verdict(TextWriter& out, const BenchAt& at, const Words& words) {
  const Place now("now", minutes_text(at.time, words)),
      usual("usual", minutes_text(at.usual_time, words));
  if (!at.careful.empty())
    out.line({"bench.too-careful", {{"what", at.careful}, now, usual}});
  else if (at.brave.empty())
    out.line({"bench.as-usual", {now, usual}});
  if (at.brave.empty()) return;
  out.line("bench.too-brave");
  out.lines(at.brave, 2);
  if (at.careful.empty()) out.line({"bench.minutes-instead", {now, usual}});
}

void at_the_lathe_now(TextWriter& out, const BenchCut& cut) {
  if (!cut.at) return;
  const BenchAt& at = *cut.at;
  const Words& words = out.words();
  out.section({"bench.now",
               {{"spindle", at.set.spindle},
                {"feed", measure(at.set.feed, unit::mm_per_rev, 3)},
                {"depth", measure(at.set.depth, unit::mm, 3)}}});
  verdict(out, at, words);
  if (at.lost) out.line({"bench.lost", {{"amount", *at.lost}, {"currency", cut.quote.currency}}});
  out.line({"bench.now-runs",
            {{"speed", measure(at.surface_speed, unit::m_per_min, 3)}, {"n", at.passes}}});
  out.line({"bench.now-takes",
            {{"power", measure(at.load.power, unit::kW, 3)},
             {"rated", measure(rated_power(cut.quote.route.machine), unit::kW, 3)}}});
  if (at.life > hardly_wears * at.usual_life)
    out.line("bench.now-hardly-wears");
  else if (at.life.si > 0)
    out.line({"bench.now-lasts",
              {{"life", minutes_text(at.life, words, 0)},
               {"usual", minutes_text(at.usual_life, words, 0)}}});
}

// ---- why

const char* correction_id(SpeedCorrection::Kind kind) {
  using Kind = SpeedCorrection::Kind;
  switch (kind) {
    case Kind::coolant_flood:
      return "explain.coolant-flood";
    case Kind::coolant_dry:
      return "explain.coolant-dry";
    case Kind::interrupted:
      return "bench.interrupted";
    case Kind::machine_worn:
      return "explain.machine-worn";
    default:
      return "explain.machine-good";
  }
}

void corrections(TextWriter& out, const BenchCut& cut, const BenchStepView& v) {
  for (const SpeedCorrection& c : v.corrections)
    if (c.kind == SpeedCorrection::Kind::step)
      out.line({"explain.step-factor",
                {{"work", c.row},
                 {"factor", Figure{c.factor, 3}},
                 {"source", source_label(cut.shop, c.source)}}});
    else
      out.line({correction_id(c.kind), {{"factor", Figure{c.factor, 3}}}});
  if (v.skin < 0.999) out.line({"explain.skin", {{"factor", Figure{v.skin, 3}}}});
}

// Limits that took the speed down.
void speed_limits(TextWriter& out, const BenchStepView& v) {
  for (const Message& m : lowered_by(*v.step)) out.line(m);
}

void surface_speed(TextWriter& out, const BenchCut& cut, const BenchStepView& v) {
  out.section({"bench.surface-speed", {{"speed", measure(v.spindle.wanted, unit::m_per_min, 3)}}});
  if (v.table.row == nullptr) return;
  const StepFactorId id = step_factor_of(v.step->kind, *v.tool, cut.quote.route.machine);
  table_row(out, cut.shop, v.table, cut.shop.step_factor(id).name);
  corrections(out, cut, v);
  speed_limits(out, v);
}

// "4.9 % above".
Message off(double share) {
  const Place by("share", Share{std::abs(share)});
  if (std::abs(share) < 0.0005) return "bench.exactly";
  return {share > 0 ? "bench.above" : "bench.below", {by}};
}

Message lathe_speed(const BenchCut& cut, const SpindleView& s) {
  const Place set("spindle", s.set), by("off", off(s.deviation));
  if (s.clamped) return {"bench.clamped", {set}};
  if (!s.on_ladder) return {s.varies ? "bench.cnc-speed" : "bench.stepless", {set}};
  const Place band("band", Share{cut.shop.practice.speed_band});
  return {s.in_band ? "bench.lathe-in-band" : "bench.lathe-off-band", {set, by, band}};
}

// A speed within the band above the exact one was not taken: a limit holds there.
bool held_below(const BenchCut& cut, const SpindleView& s) {
  const auto& ladder = cut.quote.route.machine.ladder;
  const Frequency most = s.exact * (1 + cut.shop.policy.ladder_band);
  return std::any_of(ladder.begin(), ladder.end(), [&](Frequency n) {
    return n > s.set && n <= most && abs(n - s.exact) < abs(s.set - s.exact);
  });
}

void spindle_speed(TextWriter& out, const BenchCut& cut, const BenchStepView& v) {
  const SpindleView& s = v.spindle;
  out.section({"bench.spindle-speed", {{"spindle", s.set}}});
  out.line({"bench.exact", {{"spindle", s.exact}, {"diameter", measure(s.diameter, unit::mm)}}});
  out.line({"bench.rule", {{"spindle", s.by_rule}, {"off", off(s.rule_off)}}});
  out.line(lathe_speed(cut, s));
  if (!s.on_ladder) return;
  if (held_below(cut, s))
    out.line("bench.ladder-held");
  else
    out.line({"bench.ladder-policy", {{"band", Share{cut.shop.policy.ladder_band}}}});
}

bool is_depth(LimitId limit) {
  return limit == LimitId::reach || limit == LimitId::bar_reach || limit == LimitId::infeed ||
         limit == LimitId::depth_in_diameters;
}

// What stopped a deeper cut.
const LimitCheck* stopped_by(const Step& step) {
  const LimitCheck* found = nullptr;
  for (const LimitCheck& l : step.limits)
    if (l.binding && l.limit != LimitId::depth && l.changed == Remedy::one_more_pass) found = &l;
  return found;
}

void deepest(TextWriter& out, const BenchStepView& v, const LimitCheck& l) {
  const Place most("most", Measure{l.allowed, l.unit, 3});
  const LimitCheck* stopped = stopped_by(*v.step);
  if (stopped != nullptr)
    out.line({"bench.depth-stopped", {most, {"limit", word_of(stopped->limit)}}});
  else
    out.line({"bench.depth-most", {most}});
}

void depth(TextWriter& out, const BenchStepView& v) {
  if (v.depth.si <= 0) return;
  out.section({"bench.depth", {{"depth", measure(v.depth, unit::mm, 3)}, {"n", v.passes}}});
  for (const LimitCheck& l : v.step->limits)
    if (l.limit == LimitId::depth)
      deepest(out, v, l);
    else if (is_depth(l.limit))
      out.line(limit_label(l));
  const bool even = v.step->kind == StepKind::rough || v.step->kind == StepKind::bore;
  if (v.passes > 1 && even) out.line("bench.evenly");
}

void feed(TextWriter& out, const BenchStepView& v) {
  const Words& words = out.words();
  out.section({"bench.feed", {{"feed", measure(v.feed, unit::mm_per_rev, 3)}}});
  Table table;
  table.columns = {words_column(), number_column({}), words_column()};
  for (const FeedView& f : v.feeds)
    table.add({words(Message(std::string("bench.feed-") + name_of(f.reason))),
               f.feed.si < 0.1 ? words.measure(measure(f.feed, unit::mm_per_rev, 3)) : "",
               f.decides ? words("bench.decides") : ""});
  out.table(table);
}

void minutes(TextWriter& out, const BenchStepView& v) {
  const Words& words = out.words();
  const StepTime& t = *v.time;
  out.section({"bench.minutes", {{"minutes", minutes_text(t.machine, words)}}});
  minutes_table(out, v.passes > 1 ? std::optional(v.each) : std::nullopt, t);
}

void chip_load(TextWriter& out, const BenchStepView& v) {
  out.line({"bench.force", {{"force", measure(v.load.force, unit::N, 3)}}});
  out.line({"bench.power",
            {{"power", measure(v.load.power, unit::kW, 3)},
             {"rated", measure(v.rated_power, unit::kW, 3)}}});
  out.line({"bench.torque",
            {{"torque", measure(v.load.torque, unit::Nm, 3)},
             {"rated", measure(v.rated_torque, unit::Nm, 3)}}});
  const auto& limits = v.step->limits;
  const auto grip = std::find_if(limits.begin(), limits.end(),
                                 [](const LimitCheck& l) { return l.limit == LimitId::grip; });
  if (grip != limits.end()) out.line(limit_label(*grip));
  if (v.bent.by.si > 0.5e-6)
    out.line({"bench.gives-way", {{"by", measure(v.bent.by, unit::mm, 2)}}});
}

// Drills push along the axis; others press and thread.
void other_load(TextWriter& out, const BenchStepView& v) {
  for (const LimitCheck& l : v.step->limits)
    if (l.limit == LimitId::power || l.limit == LimitId::torque ||
        l.limit == LimitId::grip_along_axis)
      out.line(limit_label(l));
}

void load(TextWriter& out, const BenchStepView& v) {
  out.section("bench.takes");
  if (drives_by_chip(*v.step))
    chip_load(out, v);
  else
    other_load(out, v);
  if (v.time->life > hardly_wears * v.step->reference_life)
    out.line({"bench.edge-hardly-wears",
              {{"most", minutes_text(hardly_wears * v.step->reference_life, out.words(), 0)}}});
  else if (v.time->life.si > 0)
    out.line({"bench.edge",
              {{"life", minutes_text(v.time->life, out.words(), 0)},
               {"pieces", Figure{1 / v.time->edge_share, 2}}}});
}

void check(TextWriter& out, const BenchStepView& v) {
  const Words& words = out.words();
  out.section("bench.check");
  out.line({"bench.in-a-minute", {{"travel", length_text(v.in_a_minute, words, 3)}}});
  out.line({"bench.in-15-seconds",
            {{"travel", words.measure(measure(v.in_15_seconds, unit::m, 3))},
             {"diameter", length_text(v.spindle.diameter, words, 4)}}});
}

void why(TextWriter& out, const BenchCut& cut, const BenchStepView& v, bool several) {
  if (several)
    out.section({"bench.step", {{"work", word_of(v.step->kind)}, {"tool", v.tool->name}}});
  surface_speed(out, cut, v);
  spindle_speed(out, cut, v);
  depth(out, v);
  feed(out, v);
  minutes(out, v);
  load(out, v);
  check(out, v);
}

void others(TextWriter& out, const BenchCut& cut) {
  if (cut.others.empty()) return;
  out.section("bench.instead");
  for (const BenchOtherTime& o : cut.others)
    out.line({std::string("bench.other-") + name_of(o.other),
              {{"minutes", minutes_text(o.time, out.words())},
               {"now", minutes_text(cut.minutes(), out.words())}}});
}

// Of this cut first, then those of every lathe; those of the stock are the part's.
void cautions(TextWriter& out, const BenchCut& cut) {
  const Route& route = cut.quote.route;
  out.section("text.cautions");
  for (const Message& m :
       operation_cautions(route.job, cut.operation(), cut.quote.times.operations.front()))
    out.written("! " + out.words()(m));
  for (std::size_t i = route.job.cautions.size(); i < route.cautions.size(); ++i)
    out.written("! " + out.words()(route.cautions[i]));
  out.lines({"sheet.plates-first", "bench.dress", "sheet.hot-chips", "bench.no-overload"});
}

}  // namespace

std::string cut_text(const BenchCut& cut, const Words& words) {
  TextWriter out(words);
  const auto views = views_of(cut);
  head(out, cut);
  out.section("bench.set");
  out.table(settings(views, words));
  overloads(out, views);
  before(out, cut);
  at_the_lathe_now(out, cut);
  for (const BenchStepView& v : views) why(out, cut, v, views.size() > 1);
  others(out, cut);
  cautions(out, cut);
  return out.take();
}

}  // namespace turnwright
