// SPDX-License-Identifier: MIT
// The speed card as text.
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/bench.hpp"
#include "view/card_view.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

Table turning_table(const SpeedCard& card, const CardGroup& group, const Words& words) {
  Table table;
  table.columns = {words_column("text.work"), words_column("text.tool"),
                   number_column({"text.speed", {{"unit", words.unit(unit::m_per_min)}}}),
                   number_column({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}),
                   number_column({"text.depth", {{"unit", words.unit(unit::mm)}}})};
  if (card.machine.manual())
    for (const Length d : card.diameters)
      table.columns.push_back(number_column(verbatim(length_number(d, words, 4))));
  table.columns.push_back(number_column("card.source-head"));
  const auto sources = sources_of(card);
  for (const CardRow* row : group.rows) {
    Cells cells{words(work_word(row->work)), words.name(row->tool->name),
                speed_number(row->surface_speed, words), feed_text(*row, words),
                row->depth.si > 0 ? length_number(row->depth, words, 2) : ""};
    if (card.machine.manual())
      for (const CardCell& cell : row->cells) cells.push_back(cell_text(cell, words));
    cells.push_back("[" + words.whole(static_cast<std::int64_t>(source_number(sources, *row))) +
                    "]");
    table.add(std::move(cells));
  }
  return table;
}

Table drilling_table(const SpeedCard& card, const Words& words) {
  Table table;
  table.columns = {words_column("card.material"), words_column("text.tool"),
                   number_column({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}})};
  for (const Length d : card.drills)
    table.columns.push_back(number_column(verbatim(length_number(d, words, 4))));
  for (const CardRow* row : drilling_rows(card)) {
    Cells cells{words.name(row->material->name), words.name(row->tool->name),
                feed_text(*row, words)};
    for (const CardCell& cell : row->cells) cells.push_back(cell_text(cell, words));
    table.add(std::move(cells));
  }
  return table;
}

}  // namespace

std::string card_text(const SpeedCard& card, const Words& words) {
  TextWriter out(words);
  out.section({"card.title", {{"machine", card.machine.name}}});
  if (card.machine.manual())
    out.line({"card.how-manual", {{"unit", words.unit(unit::mm)}}});
  else
    out.line("card.how-cnc");
  for (const CardGroup& group : turning_groups(card)) {
    out.section(verbatim(group.material->name));
    out.table(turning_table(card, group, words));
  }
  out.section({"card.drilling", {{"unit", words.unit(unit::mm)}}});
  out.table(drilling_table(card, words));
  out.section("card.notes");
  out.lines(card_notes(card));
  const auto sources = sources_of(card);
  for (std::size_t n = 1; n <= sources.size(); ++n) out.line(source_line(sources, n));
  return out.take();
}

}  // namespace turnwright
