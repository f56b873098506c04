// SPDX-License-Identifier: MIT
// The sheet for the turner: a page of text an operation.
#include "formatting.hpp"
#include "text/sketch.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/text.hpp"
#include "view/labels.hpp"
#include "view/sheet_view.hpp"

namespace turnwright {
namespace {

constexpr int sketch_width = 64;

void list(TextWriter& out, const Message& heading, const Messages& messages) {
  if (messages.empty()) return;
  out.section(heading);
  out.lines(messages);
}

void tools(TextWriter& out, const SheetView& view, const SheetOperation& operation) {
  out.line("sheet.tools");
  for (const SheetTool& tool : operation.tools)
    out.line({tool.mounted ? "sheet.tool-mounted" : "sheet.tool-to-load",
              {{"station", tool.station},
               {"tool", tool.name + (tool.insert.empty() ? "" : " " + tool.insert)}}},
             2);
  if (!view.too_many_tools.empty()) out.written("! " + out.words()(view.too_many_tools));
}

// Why, where that is not plain, and what is gauged where it is cut.
Cells below(const SheetStep& step, const Words& words) {
  Cells lines;
  if (!step.why.empty()) lines.push_back(words(step.why));
  for (const SheetSize& size : step.sizes) lines.push_back(size_line(size, words));
  return lines;
}

void steps(TextWriter& out, const SheetOperation& operation) {
  const Words& words = out.words();
  Table table;
  table.columns = {words_column("text.step"),
                   words_column("text.work"),
                   words_column("text.tool"),
                   number_column({"text.speed", {{"unit", words.unit(unit::m_per_min)}}}),
                   number_column({"text.spindle", {{"unit", words.unit(unit::rev_per_min)}}}),
                   number_column({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}),
                   number_column({"text.depth", {{"unit", words.unit(unit::mm)}}}),
                   number_column("text.passes-head"),
                   number_column("text.minutes")};
  for (const SheetStep& s : operation.steps)
    table.add({s.label, s.work, s.station, s.surface_speed, s.spindle, s.feed, s.depth, s.passes,
               s.minutes},
              below(s, words));
  out.table(table);
}

void operation(TextWriter& out, const SheetView& view, const Job& job,
               const SheetOperation& operation) {
  const Operation& o = *operation.operation;
  const Words& words = out.words();
  out.section({"sheet.operation", {{"op", operation_label(o)}, {"clamping", clamping_label(o)}}});
  out.lines(operation.clamping);
  out.block(clamping_sketch(job, o, sketch_width));
  tools(out, view, operation);
  steps(out, operation);
  for (const Message& caution : operation.cautions) out.written("! " + words(caution));
  out.line({"sheet.sign-off",
            {{"setup", minutes_text(operation.setup, words, 1)},
             {"cycle", minutes_text(operation.cycle, words)}}});
}

}  // namespace

std::string step_sheet_text(const Route& route, const RouteTimes& times, const Shop& shop,
                            const Words& words, const MadeBy& made_by) {
  const SheetView view = sheet_view(route, times, shop, words);
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
  for (const SheetOperation& o : view.operations) operation(out, view, route.job, o);
  list(out, "sheet.cautions-of-part", view.cautions);
  list(out, "text.cautions", usual_cautions());
  return out.take();
}

}  // namespace turnwright
