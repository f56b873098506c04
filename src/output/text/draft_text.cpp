// SPDX-License-Identifier: MIT
// Many models, a row each.
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/draft.hpp"

namespace turnwright {
namespace {

Cells row(const DraftedModel& d, const Words& words) {
  const Recognition& m = d.model;
  Cells cells{words.name(d.file), m.solid > 0 ? words.whole(m.solid) : "",
              m.solid > 0 ? percent_text(m.turned_share, words) : "",
              m.solid > 0 ? words.fixed(m.volume_ratio(), 4) : ""};
  if (!d.why_not.empty()) {
    cells.insert(cells.end(), {"", "", words(d.why_not)});
    return cells;
  }
  cells.push_back(words.whole(static_cast<std::int64_t>(d.draft.elements())));
  cells.push_back(words.whole(static_cast<std::int64_t>(d.draft.to_confirm.size())));
  cells.push_back(words.name(d.written));
  return cells;
}

}  // namespace

std::string draft_table(const std::vector<DraftedModel>& drafted, const Words& words) {
  Table table;
  table.columns = {words_column("draft.file"),           number_column("draft.solid-head"),
                   number_column("draft.share-head"),    number_column("draft.ratio-head"),
                   number_column("draft.elements-head"), number_column("draft.to-confirm"),
                   words_column("draft.written-head")};
  for (const DraftedModel& d : drafted) table.add(row(d, words));
  TextWriter out(words);
  out.table(table, 0);
  return out.take();
}

}  // namespace turnwright
