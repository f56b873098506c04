// SPDX-License-Identifier: MIT
// The speed card on one page, for the wall beside the lathe.
#include <algorithm>

#include "formatting.hpp"
#include "paper/blank.hpp"
#include "turnwright/output/bench.hpp"
#include "view/card_view.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

// Rows that a page takes in each size of type.
constexpr std::size_t large_type_to = 14, middle_type_to = 26;

double type_size(const SpeedCard& card) {
  const std::size_t rows = card.rows.size() + turning_groups(card).size();
  return rows <= large_type_to ? 9 : rows <= middle_type_to ? 7.6 : 6.6;
}

paper::Cell cell_of(const SpeedCard& card, const CardCell& c, const Words& words) {
  paper::Cell cell{cell_text(c, words)};
  cell.italic = c.off_band;
  if (c.possible && c.range >= 0)
    cell.ground =
        paper::colour_named(card.machine.lever_ranges[static_cast<std::size_t>(c.range)].colour);
  return cell;
}

paper::Row turning_row(const SpeedCard& card, const CardRow& row, const Words& words) {
  paper::Row cells{{{words(work_word(row.work))},
                    {words.name(row.tool->name)},
                    {speed_number(row.surface_speed, words)},
                    {feed_text(row, words)},
                    {row.depth.si > 0 ? length_number(row.depth, words, 2) : ""}}};
  if (card.machine.manual())
    for (const CardCell& c : row.cells) cells.cells.push_back(cell_of(card, c, words));
  const auto source = static_cast<std::int64_t>(source_number(sources_of(card), row));
  cells.cells.push_back({"[" + words.whole(source) + "]"});
  return cells;
}

paper::Table turning_table(const SpeedCard& card, const Words& words) {
  paper::Table table{words({"card.title", {{"machine", card.machine.name}}})};
  table.columns = {
      words_of(words.heading("text.work"), !card.machine.manual()),
      words_of(words.heading("text.tool"), !card.machine.manual()),
      numbers_of(words.heading({"text.speed", {{"unit", words.unit(unit::m_per_min)}}})),
      numbers_of(words.heading({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}})),
      numbers_of(words.heading({"text.depth", {{"unit", words.unit(unit::mm)}}}))};
  if (card.machine.manual())
    for (const Length d : card.diameters)
      table.columns.push_back(numbers_of(length_text(d, words, 4)));
  table.columns.push_back(numbers_of(words.heading("card.source-head")));
  for (const CardGroup& group : turning_groups(card)) {
    paper::Cell name{words.name(group.material->name)};
    name.type.bold = true;
    name.ground = paper::Colour::shade;
    table.add({{std::move(name)}, true});
    for (const CardRow* row : group.rows) table.add(turning_row(card, *row, words));
  }
  return table;
}

paper::Table drilling_table(const SpeedCard& card, const Words& words) {
  paper::Table table{words("card.material")};
  table.columns = {
      words_of(words.heading("card.material")), words_of(words.heading("text.tool")),
      numbers_of(words.heading({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}))};
  for (const Length d : card.drills) table.columns.push_back(numbers_of(length_text(d, words, 4)));
  for (const CardRow* row : drilling_rows(card)) {
    paper::Row cells{{{words.name(row->material->name)},
                      {words.name(row->tool->name)},
                      {feed_text(*row, words)}}};
    for (const CardCell& c : row->cells) cells.cells.push_back(cell_of(card, c, words));
    table.add(std::move(cells));
  }
  return table;
}

void add_notes(paper::Paper& paper, const SpeedCard& card, const Words& words) {
  const Messages notes = card_notes(card);
  paper::Beside columns;
  for (std::size_t i = 0; i < notes.size(); ++i)
    (2 * i < notes.size() ? columns.left : columns.right)
        .emplace_back(paper::Text{words(notes[i]), paper::Role::item});
  paper.blocks.emplace_back(heading_text(words.heading("card.notes"), paper.points * 1.15));
  paper.blocks.emplace_back(std::move(columns));
  const auto sources = sources_of(card);
  for (std::size_t n = 1; n <= sources.size(); ++n)
    paper.blocks.emplace_back(paper::Text{words(source_line(sources, n)),
                                          paper::Role::text,
                                          {.points = paper.points * 0.85, .ink = paper::Ink::grey},
                                          n == 1 ? 1.0 : 0.0});
}

}  // namespace

paper::Paper card_paper(const SpeedCard& card, const Words& words) {
  const std::string title = words.heading({"card.title", {{"machine", card.machine.name}}});
  paper::Paper paper = blank_paper(title, words);
  if (card.request.date) paper.date = text_of(*card.request.date);
  paper.landscape = true;
  paper.margin = 9;
  paper.points = type_size(card);
  paper.count = "";
  paper.pages = 1;
  paper.smallest = 0.6;
  paper::Beside head{
      {paper::Text{title, paper::Role::title, {.points = 17, .bold = true}}}, {}, 0.8};
  if (const Message shop = card_shop(card); !shop.empty())
    head.right.emplace_back(paper::Text{words.heading(shop)});
  paper.blocks.emplace_back(std::move(head));
  paper.blocks.emplace_back(paper::Text{words.heading(
      card.machine.manual() ? Message{"card.how-manual", {{"unit", words.unit(unit::mm)}}}
                            : Message{"card.how-cnc"})});
  paper.blocks.emplace_back(turning_table(card, words));
  if (!drilling_rows(card).empty()) {
    paper.blocks.emplace_back(heading_text(
        words.heading({"card.drilling", {{"unit", words.unit(unit::mm)}}}), paper.points * 1.15));
    paper.blocks.emplace_back(drilling_table(card, words));
  }
  add_notes(paper, card, words);
  return paper;
}

}  // namespace turnwright
