// SPDX-License-Identifier: MIT
#include "turnwright/output/step_sheet.hpp"

#include "drawing/operation_drawing.hpp"
#include "formatting.hpp"
#include "paper/blank.hpp"
#include "view/labels.hpp"
#include "view/sheet_view.hpp"

namespace turnwright {
namespace {

constexpr double body_points = 9.5, small_points = 8.5;
constexpr double room_to_write = 20;  // type of an empty cell, which a pen has room in
constexpr double smallest_type = 0.72;
constexpr const char* empty_cell = "\xc2\xa0";  // a no-break space has the height of its type

struct Sheet {
  const Route& route;
  const MadeBy& made_by;
  const Words& words;
  SheetView view;
};

// Every page can lie alone on its machine.
paper::Beside head_of(const Sheet& sheet, bool first) {
  const Words& words = sheet.words;
  const Route& route = sheet.route;
  const auto word = [&](const char* id) { return words.heading(id); };
  Facts facts{{word("sheet.machine"), words.name(route.machine.name)},
              {word("sheet.material"), words.name(route.job.material.name)},
              {word("sheet.stock"),
               words(stock_label(route.job)) + ", " + words(blank_label(route.job.stock))}};
  if (sheet.made_by.quantity > 0)
    facts.push_back({word("sheet.method"),
                     words({"sheet.method-for",
                            {{"method", sheet.made_by.method}, {"n", sheet.made_by.quantity}}})});
  paper::Beside head;
  head.left_share = 0.5;
  head.left.emplace_back(
      paper::Text{word("sheet.kind"), paper::Role::text, {.points = 10, .ink = paper::Ink::grey}});
  head.left.emplace_back(paper::Text{part_title(route.job.part, words),
                                     first ? paper::Role::title : paper::Role::heading,
                                     {.points = 16, .bold = true}});
  head.right.emplace_back(facts_table(facts));
  return head;
}

paper::Table tools_table(const SheetOperation& operation, const Words& words) {
  paper::Table table{words.heading("sheet.tools-head")};
  table.columns = {words_of(words.heading("sheet.station")),
                   words_of(words.heading("text.tool"), true),
                   words_of(words.heading("sheet.insert")), words_of()};
  for (const SheetTool& tool : operation.tools) {
    paper::Cell state{words(tool.mounted ? "sheet.in-turret" : "sheet.to-be-loaded")};
    state.type.bold = !tool.mounted;
    table.add({{{tool.station, "", {.bold = true}},
                {words.name(tool.name)},
                {words.name(tool.insert)},
                std::move(state)}});
  }
  return table;
}

std::string sizes_text(const SheetStep& step, const Words& words) {
  std::string text;
  for (const SheetSize& size : step.sizes)
    text += (text.empty() ? "" : "\n") + size_line(size, words);
  return text;
}

paper::Table steps_table(const SheetOperation& operation, const Words& words) {
  paper::Table table{words.heading("text.step")};
  table.columns = {
      words_of(words.heading("text.step")),
      words_of(words.heading("text.work")),
      words_of(words.heading("text.tool")),
      numbers_of(words.heading({"text.speed", {{"unit", words.unit(unit::m_per_min)}}})),
      numbers_of(words.heading({"text.spindle", {{"unit", words.unit(unit::rev_per_min)}}})),
      numbers_of(words.heading({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}})),
      numbers_of(words.heading({"text.depth", {{"unit", words.unit(unit::mm)}}})),
      numbers_of(words.heading("text.passes-head")),
      numbers_of(words.heading("text.minutes")),
      words_of(words.heading({"sheet.sizes", {{"unit", words.unit(unit::mm)}}}), true)};
  for (const SheetStep& s : operation.steps)
    table.add({{{s.label, "", {.bold = true}},
                {s.work},
                {s.station},
                {s.surface_speed},
                {s.spindle},
                {s.feed},
                {s.depth},
                {s.passes},
                {s.minutes},
                {sizes_text(s, words), s.why.empty() ? "" : words(s.why)}}});
  return table;
}

// What really was, beside what was planned.
paper::Table sign_off_table(const SheetOperation& operation, const Words& words) {
  paper::Table table{words.heading("sheet.signed")};
  table.rules = paper::Rules::grid;
  table.before = 4;
  table.points = small_points;
  table.columns = {words_of(),
                   words_of(words.heading("sheet.setup-min")),
                   words_of(words.heading("sheet.cycle-min")),
                   words_of(words.heading("sheet.first-off"), true),
                   words_of(words.heading("sheet.good")),
                   words_of(words.heading("sheet.scrap")),
                   words_of(words.heading("sheet.signed"), true)};
  table.add({{{words("sheet.planned")},
              {minutes_text(operation.setup, words, 1)},
              {minutes_text(operation.cycle, words)},
              {""},
              {""},
              {""},
              {""}}});
  paper::Row actual{{{words("sheet.actual")}}};
  for (std::size_t i = 1; i < table.columns.size(); ++i)
    actual.cells.push_back({empty_cell, "", {.points = room_to_write}});
  table.add(std::move(actual));
  return table;
}

void add_items(paper::Blocks& blocks, const std::string& heading, const Messages& messages,
               const Words& words, paper::Type type = {}) {
  if (messages.empty()) return;
  blocks.emplace_back(heading_text(heading, 10.5));
  for (const Message& message : messages)
    blocks.emplace_back(paper::Text{words.heading(message), paper::Role::item, type, 0.4});
}

void add_operation(paper::Paper& paper, const Sheet& sheet, std::size_t i) {
  const Words& words = sheet.words;
  const SheetOperation& operation = sheet.view.operations[i];
  const Operation& o = *operation.operation;
  paper::Blocks& blocks = paper.blocks;
  if (i > 0) blocks.emplace_back(paper::NewPage{});
  blocks.emplace_back(head_of(sheet, i == 0));
  blocks.emplace_back(heading_text(
      words({"sheet.operation", {{"op", operation_label(o)}, {"clamping", clamping_label(o)}}}),
      13));
  for (const Message& line : operation.clamping)
    blocks.emplace_back(paper::Text{words.heading(line)});
  blocks.emplace_back(paper::Text{words.heading("sheet.lengths-from"),
                                  paper::Role::text,
                                  {.points = small_points, .ink = paper::Ink::grey}});
  blocks.emplace_back(operation_drawing(sheet.route.job, o, words));
  blocks.emplace_back(steps_table(operation, words));
  paper::Beside below{{tools_table(operation, words)}, {}, 0.6};
  if (!sheet.view.too_many_tools.empty())
    below.left.emplace_back(paper::Text{words.heading(sheet.view.too_many_tools),
                                        paper::Role::text,
                                        {.bold = true, .ink = paper::Ink::red},
                                        1});
  add_items(below.right, words.heading("text.cautions"), operation.cautions, words);
  blocks.emplace_back(std::move(below));
  blocks.emplace_back(sign_off_table(operation, words));
}

}  // namespace

paper::Paper step_sheet_paper(const Route& route, const RouteTimes& times, const Shop& shop,
                              const Words& words, const MadeBy& made_by) {
  const std::string part = part_title(route.job.part, words);
  paper::Paper paper =
      blank_paper(words.heading({"sheet.title", {{"part", verbatim(part)}}}), words);
  paper.margin = 12;
  paper.points = body_points;
  paper.foot = paper.title;
  paper.pages = route.operations.size();
  paper.smallest = smallest_type;
  const Sheet sheet{route, made_by, words, sheet_view(route, times, shop, words)};
  for (std::size_t i = 0; i < sheet.view.operations.size(); ++i) add_operation(paper, sheet, i);
  add_items(paper.blocks, words.heading("sheet.cautions-of-part"), sheet.view.cautions, words);
  add_items(paper.blocks, words.heading("sheet.always"), usual_cautions(), words,
            {.points = small_points, .ink = paper::Ink::grey});
  return paper;
}

}  // namespace turnwright
