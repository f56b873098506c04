// SPDX-License-Identifier: MIT
// The sheet for the turner: a page of text an operation.
#include <cmath>

#include "formatting.hpp"
#include "text/sketch.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/text.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"
#include "view/tool_list.hpp"

namespace turnwright {
namespace {

constexpr int sketch_width = 64;
constexpr double range_from = 1.02;  // of the slowest speed, from here on a range is shown

struct Sheet {
  const Route& route;
  const RouteTimes& times;
  const Shop& shop;
  ToolList tools;
};

void list(TextWriter& out, const Message& heading, const Messages& messages) {
  if (messages.empty()) return;
  out.section(heading);
  out.lines(messages);
}

// Where it is gripped; lengths from the right-hand face.
Message grip_of(const Operation& o) {
  if (o.mandrel) return {"sheet.in-the-bore", {{"bore", measure(o.grip_diameter, unit::mm)}}};
  return {o.jaws == Jaws::soft     ? "sheet.grip-soft-jaws"
          : o.jaws == Jaws::padded ? "sheet.grip-padded-jaws"
                                   : "sheet.grip",
          {{"from", measure(-o.grip_to, unit::mm)}, {"to", measure(-o.grip_from, unit::mm)}}};
}

Message cut_from(const Operation& o) {
  if (o.check_all) return o.from_left ? "sheet.cut-left-check-all" : "sheet.cut-right-check-all";
  return o.from_left ? "sheet.cut-left" : "sheet.cut-right";
}

Message tool_line(const Sheet& sheet, const std::string& name) {
  const Tool* tool = sheet.shop.tool(name);
  const std::string insert = tool == nullptr || tool->insert.empty() ? "" : " " + tool->insert;
  return {sheet.tools.is_mounted(name) ? "sheet.tool-mounted" : "sheet.tool-to-load",
          {{"station", sheet.tools.station(name)}, {"tool", name + insert}}};
}

void tools(TextWriter& out, const Sheet& sheet, const Operation& operation) {
  out.line("sheet.tools");
  for (const std::string& name : tools_of(operation)) out.line(tool_line(sheet, name), 2);
  const int stations = sheet.route.machine.stations;
  if (stations > 0 && static_cast<int>(sheet.tools.size()) > stations)
    out.line({"sheet.too-many-tools", {{"tools", sheet.tools.size()}, {"stations", stations}}});
}

std::string spindle_text(const SpindleRange& range, const Words& words) {
  const std::string low = spindle_number(range.slowest, words, 3);
  if (range.fastest < range.slowest * range_from) return low;
  return low + "–" + spindle_number(range.fastest, words, 3);
}

Cells step_cells(const Sheet& sheet, const Operation& operation, const Step& step,
                 const StepTime& time, const Words& words) {
  const bool cuts = !step.segments.empty();
  return {step_label(operation, step),
          words(word_of(step.kind)),
          step.given ? "" : sheet.tools.station(step.tool),
          cuts ? spindle_text(spindle_range(time.segments), words) : "",
          cuts ? feed_number(step.used.feed, words) : "",
          cuts ? length_number(step.used.depth, words, 3) : "",
          cuts ? words.whole(static_cast<std::int64_t>(passes_of(step).size())) : "",
          minutes_text(time.machine, words)};
}

// Roughing, finishing and facing speak for themselves.
bool has_a_word(const Step& step) {
  return !step.given && step.kind != StepKind::rough && step.kind != StepKind::finish &&
         step.kind != StepKind::face;
}

void steps(TextWriter& out, const Sheet& sheet, std::size_t i) {
  const Words& words = out.words();
  const Operation& operation = sheet.route.operations[i];
  Table table;
  table.columns = {words_column("text.step"),
                   words_column("text.work"),
                   words_column("text.tool"),
                   number_column({"text.spindle", {{"unit", words.unit(unit::rev_per_min)}}}),
                   number_column({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}),
                   number_column({"text.depth", {{"unit", words.unit(unit::mm)}}}),
                   number_column("text.passes-head"),
                   number_column("text.minutes")};
  for (std::size_t k = 0; k < operation.steps.size(); ++k) {
    const Step& step = operation.steps[k];
    table.add(step_cells(sheet, operation, step, sheet.times.operations[i].steps[k], words),
              has_a_word(step) ? Cells{words(step.why)} : Cells());
  }
  out.table(table);
}

Message gauged_message(const Gauged& gauged) {
  if (gauged.share >= 1) return {"sheet.every-piece", {{"size", gauged.size}}};
  return {"sheet.one-in",
          {{"size", gauged.size}, {"pieces", static_cast<int>(std::round(1 / gauged.share))}}};
}

void gauges(TextWriter& out, const Sheet& sheet, const Operation& operation) {
  Messages gauged, spot_checks;
  for (const Gauged& one : gauged_in(operation, sheet.route.job, sheet.shop))
    (one.toleranced ? gauged : spot_checks).push_back(gauged_message(one));
  const Words& words = out.words();
  if (!gauged.empty()) out.written(words("sheet.gauge") + " " + words.joined(gauged, "; "));
  if (!spot_checks.empty())
    out.written(words("sheet.spot-check") + " " + words.joined(spot_checks, "; "));
}

void operation(TextWriter& out, const Sheet& sheet, std::size_t i) {
  const Operation& o = sheet.route.operations[i];
  out.section({"sheet.operation", {{"op", operation_label(o)}, {"clamping", clamping_label(o)}}});
  if (o.mandrel || o.support != Support::between_centres) out.line(grip_of(o));
  out.line(cut_from(o));
  out.block(clamping_sketch(sheet.route.job, o, sketch_width));
  tools(out, sheet, o);
  steps(out, sheet, i);
  gauges(out, sheet, o);
  for (const Message& caution : operation_cautions(sheet.route.job, o, sheet.times.operations[i]))
    out.written("! " + out.words()(caution));
}

}  // namespace

std::string step_sheet_text(const Route& route, const RouteTimes& times, const Shop& shop,
                            const Words& words, const MadeBy& made_by) {
  const Sheet sheet{route, times, shop, ToolList(route)};
  TextWriter out(words);
  out.section({"sheet.title", {{"part", verbatim(part_title(route.job.part, words))}}});
  out.line({"sheet.about",
            {{"machine", route.machine.name},
             {"material", route.job.material.name},
             {"stock", stock_label(route.job)},
             {"blank", blank_label(route.job.stock)}}},
           0);
  if (made_by.quantity > 0)
    out.line({"sheet.made-by", {{"method", made_by.method}, {"n", made_by.quantity}}}, 0);
  out.remark("sheet.lengths-from");
  for (std::size_t i = 0; i < route.operations.size(); ++i) operation(out, sheet, i);
  list(out, "sheet.cautions-of-part", route.cautions);
  list(out, "text.cautions", usual_cautions());
  return out.take();
}

}  // namespace turnwright
