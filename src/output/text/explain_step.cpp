// SPDX-License-Identifier: MIT
// A step: where its speed and feed come from, what limited them, its minutes, passes and edge.
#include <cmath>

#include "formatting.hpp"
#include "text/explain.hpp"
#include "text/minutes_table.hpp"
#include "text/table_row.hpp"
#include "turnwright/route/cutting_table.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"

namespace turnwright {

// With the life that its speed stands for, and where it comes from.
void table_row(TextWriter& out, const Shop& shop, const TableSpeed& row, const std::string& work) {
  std::vector<Place> places{{"group", row.group->name},
                            {"low", Figure{row.row->hardness.low}},
                            {"high", Figure{row.row->hardness.high}},
                            {"grade", row.row->grade},
                            {"depth", measure(row.at, unit::mm, 3)},
                            {"speed", row.speed},
                            {"life", measure(row.reference_life, unit::min, 3)}};
  if (row.own()) places.emplace_back("work", work);
  if (row.feed.si > 0) places.emplace_back("feed", measure(row.feed, unit::mm_per_rev));
  const char* own = row.feed.si > 0 ? "explain.own-row" : "explain.own-row-without-feed";
  out.line({row.own() ? own : "explain.table-row", std::move(places)});
  out.line(source_label(shop, row.row->source), 2);
}

void minutes_table(TextWriter& out, std::optional<Time> first_pass, const StepTime& t) {
  const Words& words = out.words();
  Table table;
  table.columns = {words_column(), number_column({})};
  const auto add = [&](const Message& what, Time time) {
    if (!is_shown_as_zero(time)) table.add({words(what), minutes_text(time, words)});
  };
  if (first_pass) add("bench.first-pass", *first_pass);
  add("explain.cutting", t.cutting);
  add("explain.moving", t.moving);
  add("explain.tool-change", t.tool_change);
  add("explain.speed-change", t.speed_change);
  add("explain.trial-cuts", t.trial_cuts);
  add("explain.edge-change", t.edge_change);
  out.table(table);
}

namespace {

constexpr double worth_saying = 1e-3;  // that wear is another than at the wanted speed

bool is_on_the_axis(ToolKind kind) {
  return kind == ToolKind::drill || kind == ToolKind::ream || kind == ToolKind::tap ||
         kind == ToolKind::die || kind == ToolKind::countersink || kind == ToolKind::centre;
}
bool cuts_threads(ToolKind kind) {
  return kind == ToolKind::thread || kind == ToolKind::inside_thread;
}
bool plunges(const Step& step) {
  return step.kind == StepKind::groove || step.kind == StepKind::part_off;
}
// As the planner looked it up.
TableLookup looked_up(const Practice& practice, const Step& step, const Tool& tool,
                      StepFactorId id) {
  const Conditions& k = step.wanted;
  if (is_on_the_axis(tool.kind)) return {tool.grade, id, 2.0 * k.depth, practice.hole_table_depth};
  if (plunges(step)) return {tool.grade, id, tool.width, tool.width};
  return {tool.grade, id, k.depth, cuts_threads(tool.kind) ? practice.thread_table_depth : k.depth};
}

void conditions(TextWriter& out, const char* id, const Conditions& c) {
  out.line({id,
            {{"speed", c.surface_speed},
             {"feed", measure(c.feed, unit::mm_per_rev)},
             {"depth", measure(c.depth, unit::mm, 3)}}});
}

void step_factor(TextWriter& out, const Explained& what, const TableSpeed& row,
                 const StepFactor& factor) {
  std::vector<Place> places{{"work", factor.name},
                            {"factor", Figure{row.factor, 3}},
                            {"source", source_label(what.shop, factor.source)}};
  if (row.own() && (row.feed.si > 0 || factor.feed_share_of_width <= 0)) return;
  if (factor.feed_share_of_width > 0) {
    places.emplace_back("share", Figure{factor.feed_share_of_width, 3});
    out.line({"explain.step-factor-of-width", std::move(places)});
  } else {
    out.line({"explain.step-factor", std::move(places)});
  }
}

// What machine, coolant and skin make of the table's speed.
void corrections(TextWriter& out, const Explained& what, const Step& step) {
  const Machine& machine = what.quote.route.machine;
  const FactorId coolant = machine.flood ? FactorId::coolant_flood : FactorId::coolant_dry;
  const FactorId condition = machine.worn ? FactorId::machine_worn : FactorId::machine_good;
  out.line({machine.flood ? "explain.coolant-flood" : "explain.coolant-dry",
            {{"factor", Figure{what.shop.factor(coolant), 3}}}});
  out.line({machine.worn ? "explain.machine-worn" : "explain.machine-good",
            {{"factor", Figure{what.shop.factor(condition), 3}}}});
  const Stock& stock = what.quote.route.job.stock;
  if (stock.skin && !step.segments.empty() &&
      step.segments.front().surface_speed < step.used.surface_speed * 0.999)
    out.line({"explain.skin", {{"factor", Figure{what.shop.skin_factor(stock.condition), 3}}}});
}

// What the spindle makes of the wanted speed, where that is another one.
void cut_with(TextWriter& out, const Step& step, const StepTime& time) {
  const Words& words = out.words();
  bool other = false;
  for (std::size_t i = 0; i < step.segments.size(); ++i) {
    const double share = (time.segments[i].at_large / step.segments[i].surface_speed).si;
    other = other || std::abs(share - 1) > worth_saying;
  }
  if (!other) return;
  out.line({"explain.cut-with",
            {{"speed", speed_text(speed_range(time.segments), words)},
             {"unit", words.unit(unit::m_per_min)}}});
}

void start(TextWriter& out, const Explained& what, const Step& step, const StepTime& time,
           const Tool& tool) {
  out.section("explain.start");
  const Material& material = what.quote.route.job.material;
  const StepFactorId id = step_factor_of(step.kind, tool, what.quote.route.machine);
  const StepFactor& kind = what.shop.step_factor(id);
  const TableSpeed row =
      table_speed(what.shop, material, looked_up(what.shop.practice, step, tool, id));
  if (row.row == nullptr) {
    out.line({"explain.no-row", {{"group", material.group}, {"grade", tool.grade}}});
    return;
  }
  table_row(out, what.shop, row, kind.name);
  step_factor(out, what, row, kind);
  corrections(out, what, step);
  conditions(out, "explain.wanted", step.wanted);
  conditions(out, "explain.used", step.used);
  cut_with(out, step, time);
}

void limits(TextWriter& out, const Step& step) {
  out.section("explain.limits");
  for (const bool binding : {true, false})
    for (const LimitCheck& l : step.limits)
      if (l.binding == binding) out.written((binding ? "! " : "  ") + out.words()(limit_label(l)));
}

void times(TextWriter& out, const StepTime& t) {
  const Words& words = out.words();
  out.section({"explain.its-minutes", {{"minutes", minutes_text(t.machine, words)}}});
  minutes_table(out, {}, t);
}

std::string spindle_text(const PassView& pass, const Words& words) {
  const std::string slow = spindle_number(pass.slowest, words);
  const std::string fast = spindle_number(pass.fastest, words);
  return slow == fast ? slow : slow + "–" + fast;
}

void passes(TextWriter& out, const Operation& operation, const Step& step, const StepTime& t) {
  const Words& words = out.words();
  out.section("explain.its-passes");
  Table table;
  table.columns = {words_column("explain.pass-head"),
                   number_column({"explain.diameter", {{"unit", words.unit(unit::mm)}}}),
                   number_column({"explain.path", {{"unit", words.unit(unit::mm)}}}),
                   number_column({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}),
                   number_column({"text.depth", {{"unit", words.unit(unit::mm)}}}),
                   number_column({"text.spindle", {{"unit", words.unit(unit::rev_per_min)}}}),
                   number_column("text.minutes")};
  int number = 0;
  for (const PassView& pass : pass_views(step, t))
    table.add({step_label(operation, step) + "." + std::to_string(++number),
               length_number(pass.large_diameter, words, 4), length_number(pass.path, words, 4),
               feed_number(pass.segments.front().feed, words),
               length_number(pass.segments.front().depth, words, 3), spindle_text(pass, words),
               minutes_text(pass.cutting, words)});
  out.table(table);
}

void edge(TextWriter& out, const Explained& what, const Step& s, const StepTime& t,
          const Tool& tool) {
  if (t.edge_share <= 0) return;
  const Words& words = out.words();
  out.section("explain.its-edge");
  if (std::abs((t.wear() / t.cutting).si - 1) > worth_saying)
    out.line({"explain.steady-speed",
              {{"minutes", minutes_text(t.cutting, words)}, {"speed", t.steady_speed}}});
  explain_figure(out, "tool-life", {t.steady_speed.si, s.taylor_exponent, s.taylor_constant.si});
  if (const Grade* grade = what.shop.grade(tool.grade))
    out.line(source_label(what.shop, grade->source), 2);
  const int pieces = static_cast<int>(std::floor(1 / t.edge_share));
  std::vector<Place> places{{"share", Figure{t.edge_share, 3}},
                            {"n", pieces},
                            {"price", rounded(t.edge_price)},
                            {"currency", what.quote.currency},
                            {"minutes", minutes_text(t.edge_change_whole, words)}};
  out.line({pieces >= 1 ? "explain.edge-lasts" : "explain.edge-within", std::move(places)});
}

}  // namespace

void explain_step(TextWriter& out, const Explained& what, std::size_t i, std::size_t k) {
  const Operation& operation = what.quote.route.operations[i];
  const Step& step = operation.steps[k];
  const StepTime& time = what.quote.times.operations[i].steps[k];
  out.section(
      {"explain.step",
       {{"step", step_label(operation, step)}, {"work", word_of(step.kind)}, {"why", step.why}}});
  if (step.given) {
    out.line({"explain.given", {{"minutes", minutes_text(*step.given, out.words())}}});
    return;
  }
  const Tool* tool = what.shop.tool(step.tool);
  if (tool == nullptr) return;
  out.line({"explain.tool",
            {{"tool", tool->insert.empty() ? tool->name : tool->name + ", " + tool->insert},
             {"grade", tool->grade},
             {"source", source_label(what.shop, tool->source)}}});
  start(out, what, step, time, *tool);
  limits(out, step);
  if (what.nose && step.kind == StepKind::finish)
    if (const auto nose = what.nose(); nose && nose->tool == step.tool)
      out.line(said(*nose, what.quote.currency));
  times(out, time);
  passes(out, operation, step, time);
  edge(out, what, step, time, *tool);
}

}  // namespace turnwright
