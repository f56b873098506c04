// SPDX-License-Identifier: MIT
#include "view/tune_view.hpp"

#include <algorithm>

#include "view/quote_view.hpp"

namespace turnwright {

double change_of(Money before, Money after) {
  return before.hundredths() == 0 ? 0 : (after.amount() / before.amount()).si - 1;
}

TuneView view_of(const Tuned& tuned) {
  TuneView view;
  view.tuned = &tuned;
  view.handbook = &*tuned.handbook.quote;
  view.best = &*tuned.best.quote;
  for (const Price& before : view.handbook->prices)
    if (const Price* after = listed_price(*view.best, before.quantity))
      view.lots.push_back({&before, after, change_of(before.cost, after->cost)});
  if (const Price* before = listed_price(*view.handbook, tuned.quantity)) {
    const Money income = before->income();
    view.contribution_before = contribution_per_hour(*view.handbook, tuned.quantity, income);
    view.contribution = contribution_per_hour(*view.best, tuned.quantity, income);
  }
  view.proved_to = std::max(tuned.proved_to, 0.0);
  view.proved = view.proved_to <= proved_gap;
  view.whole_depth = tuned.roughing_depth == 1;
  return view;
}

}  // namespace turnwright
