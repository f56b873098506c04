// SPDX-License-Identifier: MIT
// The quote on one screen: what to ask for it, what may go wrong, how it is made.
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/text.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

constexpr std::size_t risks_shown = 3;

// What a piece costs, in the unit of its price.
Money cost_of(const Price& price) {
  return rounded(price.cost.amount() * price.price_unit / static_cast<double>(price.quantity));
}

Table price_table(const QuoteView& view, const Words& words) {
  Table table;
  table.columns = {number_column("text.qty"),
                   number_column(price_heading(*view.prices.front().price)),
                   number_column("text.total-price"),
                   number_column(for_unit("text.cost-each", "text.cost-per",
                                          view.prices.front().price->price_unit)),
                   number_column("text.margin"),
                   words_column("text.method"),
                   words_column("methods.on-head")};
  if (view.drawn)
    table.columns.insert(table.columns.begin() + 5, number_column("text.risk-of-loss"));
  for (const PriceView& p : view.prices) {
    Cells cells{words.whole(p.price->quantity), words.money(p.price->each),
                words.money(p.price->total), words.money(cost_of(*p.price)),
                percent_text(p.price->margin_share, words)};
    if (view.drawn) cells.push_back(percent_text(p.price->loss_chance, words));
    cells.push_back(words.name(p.price->method));
    cells.push_back(words.name(p.price->made_on));
    table.add(std::move(cells));
  }
  return table;
}

void prices(TextWriter& out, const QuoteView& view, const PartQuote& part) {
  const Quote& quote = *view.quote;
  out.section({"text.prices", {{"currency", quote.currency}}});
  out.table(price_table(view, out.words()));
  for (const OneOffLine& o : quote.one_offs)
    out.line({"text.once", {{"what", o.what}, {"price", o.price}, {"cost", o.cost}}});
  for (const PriceView& p : view.prices) out.lines(price_notes(p));
  out.lines(next_best_lines(part));
  for (const LargerForLess& l : larger_for_less(quote.prices)) out.line(larger_for_less_label(l));
  if (!quote.delivery.empty()) out.line({"text.delivery", {{"delivery", quote.delivery}}});
}

// The rows that move the main price most, in money, and the question that does.
void risks(TextWriter& out, const QuoteView& view, const PartQuote& part) {
  const std::vector<Question>& questions = part.methods.questions;
  const Price& main = *view.main_price().price;
  const Words& words = out.words();
  if (view.drawn && !main.causes.empty()) {
    out.section(
        for_unit({"text.causes", {{"qty", main.quantity}}}, "text.causes-per", main.price_unit));
    for (std::size_t i = 0; i < std::min(risks_shown, main.causes.size()); ++i)
      out.line({"text.risk",
                {{"row", word_of(main.causes[i].row)},
                 {"low", signed_text(main.causes[i].low_each, words)},
                 {"high", signed_text(main.causes[i].high_each, words)},
                 {"basis", word_of(main.causes[i].basis)}}});
  }
  if (questions.empty()) return;
  const Question& first = questions.front();
  out.remark({"text.ask-first",
              {{"question", first.ask},
               {"answer", first.otherwise},
               {"qty", first.quantity},
               by_calculation("price", first.each, part.methods),
               {"change", signed_percent(first.change, words, 0)}}});
}

void made(TextWriter& out, const PartQuote& part) {
  const Words& words = out.words();
  for (const UsedMethod& used : used_in(part)) {
    const Quote& quote = *used.quote;
    out.section({"text.made", {{"method", used.name}}});
    out.lines(operation_lines(quote, words));
    out.line(stock_line(quote, words));
  }
  for (const OtherWork& work : part.quote.route.job.part.other_work)
    out.written(words.joined(other_work_parts(work, part.quote.currency), ", "));
}

}  // namespace

std::string quote_summary(const PartQuote& part, const Words& words) {
  const Quote& quote = part.quote;
  const QuoteView view = view_of(part);
  TextWriter out(words);
  out.written(part_title(quote.route.job.part, words), 0);
  prices(out, view, part);
  if (!quote.unconfirmed.empty()) {
    out.section("text.not-confirmed");
    out.lines(quote.unconfirmed);
  }
  risks(out, view, part);
  made(out, part);
  if (!quote.cautions.empty()) {
    out.section("text.cautions");
    out.lines(quote.cautions);
  }
  out.gap();
  out.remark("text.full-has");
  return out.take();
}

}  // namespace turnwright
