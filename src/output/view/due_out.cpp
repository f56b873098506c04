// SPDX-License-Identifier: MIT
#include "view/due_out.hpp"

#include <algorithm>

#include "formatting.hpp"

namespace turnwright {

Table due_out_table(const Week& week, const WeekView& view, const Words& words) {
  const bool customers =
      std::any_of(view.due_out.begin(), view.due_out.end(),
                  [](const OrderView* v) { return !v->order->customer.empty(); });
  Table table;
  table.columns = {words_column("weekpage.due"), words_column("weekpage.order")};
  if (customers) table.columns.push_back(words_column("weekpage.customer"));
  table.columns.insert(table.columns.end(),
                       {number_column("weekpage.pieces"), words_column("weekpage.done"),
                        words_column("weekpage.late-head"), words_column()});
  for (const OrderView* v : view.due_out) {
    Cells cells{words(day_of(v->order->due)), words(v->name)};
    if (customers) cells.push_back(words.name(v->order->customer));
    cells.push_back(words.whole(v->pieces));
    cells.push_back(v->fits ? words(moment_of(week, v->done)) : words("weekpage.not-in-calendar"));
    cells.push_back(v->late && v->fits ? words(v->lateness) : "");
    cells.push_back(v->quoted         ? words({"weekpage.quoted-at",
                                               {{"share", percent_text(v->order->probability, words)}}})
                    : v->short_by > 0 ? words({"weekpage.short-by", {{"n", v->short_by}}})
                                      : "");
    table.add(std::move(cells));
  }
  return table;
}

}  // namespace turnwright
