// SPDX-License-Identifier: MIT
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/week.hpp"
#include "view/tune_view.hpp"
#include "view/week_view.hpp"

namespace turnwright {
namespace {

std::string factor_text(double factor, int places, const Words& words) {
  return "×" + words.fixed(factor, places);
}

Cells orders_of(const FactorView& view, const Words& words) {
  Messages used;
  for (const BookedRatio* order : view.used)
    used.push_back({"weekpage.booked-ratio",
                    {{"order", order->order},
                     {"op", order->operation},
                     {"ratio", factor_text(order->ratio(), 2, words)}}});
  Cells lines{words.joined(used, ", ")};
  for (const BookedRatio* order : view.outliers)
    lines.push_back(words({"weekpage.left-out",
                           {{"order", order->order},
                            {"op", order->operation},
                            {"booked", words.fixed(order->booked, 0)},
                            {"estimated", words.fixed(order->estimated, 0)}}}));
  return lines;
}

Table factor_table(const std::vector<Factor>& factors, const Words& words) {
  Table table;
  table.columns = {words_column("weekpage.machine"), words_column("weekpage.time-of"),
                   number_column("weekpage.orders"), number_column("weekpage.booked"),
                   number_column("weekpage.spread"), number_column("weekpage.proposed-factor")};
  for (const Factor& f : factors) {
    const FactorView view = view_of(f);
    table.add(
        {words.name(f.machine), words(f.setup ? "weekpage.setup" : "weekpage.running"),
         words.whole(static_cast<std::int64_t>(view.used.size())), factor_text(f.raw, 3, words),
         factor_text(f.spread, 2, words), factor_text(f.proposed, 3, words)},
        orders_of(view, words));
  }
  return table;
}

}  // namespace

std::string actuals_text(const std::vector<Factor>& factors, const Bookings& bookings,
                         const std::vector<Repriced>& prices, const Words& words) {
  TextWriter out(words);
  out.section({"weekpage.actuals",
               {{"used", bookings.rows.size()}, {"refused", bookings.problems.size()}}});
  out.table(factor_table(factors, words));
  out.line({"weekpage.few-orders", {{"orders", static_cast<int>(prior_orders)}}});
  if (prices.empty()) return out.take();
  out.section("weekpage.would-have-done");
  Table table;
  table.columns = {words_column("weekpage.order"), number_column("weekpage.price-before"),
                   number_column("weekpage.price-after"), number_column("text.change")};
  for (const Repriced& p : prices)
    table.add({words.name(p.order), words.money(p.before), words.money(p.after),
               signed_percent(change_of(p.before, p.after), words, 1)});
  out.table(table);
  return out.take();
}

}  // namespace turnwright
