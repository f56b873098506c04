// SPDX-License-Identifier: MIT
#include "view/card_view.hpp"

#include <algorithm>

#include "formatting.hpp"
#include "view/labels.hpp"

namespace turnwright {

std::vector<CardGroup> turning_groups(const SpeedCard& card) {
  std::vector<CardGroup> groups;
  for (const CardRow& row : card.rows) {
    if (row.work == CardWork::drilling) continue;
    if (groups.empty() || groups.back().material != row.material)
      groups.push_back({row.material, {}});
    groups.back().rows.push_back(&row);
  }
  return groups;
}

std::vector<const CardRow*> drilling_rows(const SpeedCard& card) {
  std::vector<const CardRow*> rows;
  for (const CardRow& row : card.rows)
    if (row.work == CardWork::drilling) rows.push_back(&row);
  return rows;
}

std::string cell_text(const CardCell& cell, const Words& words) {
  if (!cell.possible) return "–";
  const std::string number = spindle_number(cell.spindle, words, 3);
  return cell.off_band ? number + "*" : number;
}

std::string feed_text(const CardRow& row, const Words& words) {
  const std::string from = feed_number(row.feed_from, words, 2),
                    to = feed_number(row.feed_to, words, 2);
  return from == to ? from : from + "–" + to;
}

bool any_off_band(const SpeedCard& card) {
  return std::any_of(card.rows.begin(), card.rows.end(), [](const CardRow& row) {
    return std::any_of(row.cells.begin(), row.cells.end(),
                       [](const CardCell& cell) { return cell.off_band; });
  });
}

std::vector<CardSource> sources_of(const SpeedCard& card) {
  std::vector<CardSource> sources;
  for (const CardRow& row : card.rows)
    if (std::none_of(sources.begin(), sources.end(),
                     [&](const CardSource& s) { return s.text == row.source; }))
      sources.push_back({row.source, row.basis});
  return sources;
}

std::size_t source_number(const std::vector<CardSource>& sources, const CardRow& row) {
  const auto found = std::find_if(sources.begin(), sources.end(),
                                  [&](const CardSource& s) { return s.text == row.source; });
  return static_cast<std::size_t>(found - sources.begin()) + 1;
}

Message source_line(const std::vector<CardSource>& sources, std::size_t number) {
  const CardSource& source = sources[number - 1];
  return {"card.source",
          {{"number", number}, {"source", source.text}, {"basis", word_of(source.basis)}}};
}

Messages card_notes(const SpeedCard& card) {
  Messages notes;
  if (any_off_band(card)) notes.push_back({"card.off-band", {{"band", Share{card.band}}}});
  for (const LeverRange& range : card.machine.lever_ranges)
    notes.push_back(
        {"card.range", {{"name", range.name}, {"colour", range.colour}, {"up_to", range.up_to}}});
  if (card.left_out > 0) notes.push_back({"card.left-out", {{"n", card.left_out}}});
  notes.push_back({"card.threading-pitch", {{"pitch", measure(card.pitch, unit::mm, 3)}}});
  for (const char* id :
       {"sheet.plates-first", "bench.dress", "sheet.hot-chips", "bench.no-overload"})
    notes.emplace_back(id);
  return notes;
}

Message card_shop(const SpeedCard& card) {
  const CardRequest& r = card.request;
  if (!r.date) return r.shop.empty() ? Message() : verbatim(r.shop);
  if (r.shop.empty()) return {"card.day", {{"date", *r.date}}};
  return {"card.shop", {{"shop", r.shop}, {"date", *r.date}}};
}

Message work_word(CardWork work) { return std::string("card.work-") + name_of(work); }

}  // namespace turnwright
