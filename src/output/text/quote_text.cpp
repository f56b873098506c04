// SPDX-License-Identifier: MIT
// The quote in the estimator's order of reading.
#include "formatting.hpp"
#include "text/compare_text.hpp"
#include "text/text_writer.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/text.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

constexpr int sketch_width = 68;

Table price_table(const QuoteView& view, const Words& words) {
  Table table;
  table.columns = {number_column("text.qty"),
                   number_column("text.make"),
                   number_column(price_heading(*view.prices.front().price)),
                   number_column("text.total-price"),
                   number_column("text.price-low"),
                   number_column("text.price-high"),
                   number_column("text.margin"),
                   words_column("text.method"),
                   words_column("methods.on-head")};
  for (const PriceView& p : view.prices)
    table.add({words.whole(p.price->quantity), words.whole(p.price->made),
               words.money(p.price->each), words.money(p.price->total),
               words.money(p.price->low_each), words.money(p.price->high_each),
               percent_text(p.price->margin_share, words), words.name(p.price->method),
               words.name(p.price->made_on)});
  return table;
}

void prices(TextWriter& out, const QuoteView& view, const PartQuote& part) {
  const Quote& q = *view.quote;
  out.section({"text.prices", {{"currency", q.currency}}});
  out.table(price_table(view, out.words()));
  out.lines(next_best_lines(part));
  for (const PriceView& p : view.prices) out.lines(price_notes(p));
  for (const OneOffLine& o : q.one_offs)
    out.line({"text.once", {{"what", o.what}, {"price", o.price}, {"cost", o.cost}}});
  out.line("text.low-and-high");
  for (const LargerForLess& l : larger_for_less(q.prices)) out.line(larger_for_less_label(l));
  out.lines(hours_of(part));
  if (!q.delivery.empty()) out.line({"text.delivery", {{"delivery", q.delivery}}});
}

Table spread_table(const QuoteView& view, const Words& words) {
  Table table;
  table.columns = {number_column("text.qty"), number_column("text.as-planned"),
                   number_column("text.p10"), number_column("text.p50"),
                   number_column("text.p90"), number_column("text.risk-of-loss")};
  for (const PriceView& p : view.prices)
    table.add({words.whole(p.price->quantity), words.money(p.cost_each),
               words.money(p.price->p10_each), words.money(p.price->p50_each),
               words.money(p.price->p90_each), percent_text(p.price->loss_chance, words)});
  return table;
}

Table cause_table(const Price& price, const Words& words) {
  Table table;
  table.columns = {words_column("text.cause"), number_column("text.cause-low"),
                   number_column("text.cause-high"), words_column("text.rests-on")};
  for (const BandCause& c : price.causes)
    table.add({words(word_of(c.row)), signed_text(c.low_each, words),
               signed_text(c.high_each, words), words(word_of(c.basis))});
  return table;
}

void band(TextWriter& out, const QuoteView& view) {
  if (!view.drawn) return;
  const Price& main = *view.main_price().price;
  out.section(for_unit({"text.band", {{"currency", view.quote->currency}}}, "text.band-per",
                       main.price_unit));
  out.table(spread_table(view, out.words()));
  out.line({"text.trials", {{"trials", band_draws}}});
  out.section(
      for_unit({"text.causes", {{"qty", main.quantity}}}, "text.causes-per", main.price_unit));
  out.table(cause_table(main, out.words()));
}

void questions(TextWriter& out, const PartQuote& part) {
  const std::vector<Question>& list = part.methods.questions;
  const std::size_t to_confirm = part.quote.route.job.part.to_confirm.size();
  if (list.empty() && to_confirm == 0) return;
  const Words& words = out.words();
  out.section("text.questions");
  if (to_confirm > 0) out.line({"text.and-to-confirm", {{"n", to_confirm}}});
  if (list.empty()) return;
  Table table;
  table.columns = {words_column("text.question"), words_column("text.otherwise"),
                   number_column(question_price_heading(part)), number_column("text.change")};
  for (const Question& q : list)
    table.add({words(q.ask), words(q.otherwise), words.money(q.each),
               signed_percent(q.change, words, 0)});
  out.table(table);
}

// Reason and limits, under the row of a step.
Cells reasons_of(const Step& step, const Words& words) {
  Cells lines{words(step.why)};
  for (const LimitCheck& l : step.limits)
    lines.push_back((l.binding ? "! " : "  ") + words(limit_label(l)));
  return lines;
}

Cells step_cells(const Operation& operation, const Step& step, const StepTime& t,
                 const Words& words) {
  Cells cells{step_label(operation, step), words(word_of(step.kind)), words.name(step.tool),
              minutes_text(t.machine, words)};
  if (step.given) {
    cells.push_back(words("text.as-given"));
    return cells;
  }
  for (const std::string& cell :
       {speed_text(speed_range(t.segments), words), feed_number(step.used.feed, words, 2),
        length_number(step.used.depth, words, 3),
        words.whole(static_cast<std::int64_t>(passes_of(step).size()))})
    cells.push_back(cell);
  return cells;
}

Table step_table(const Operation& operation, const OperationTime& time, const Words& words,
                 bool why) {
  Table table;
  table.columns = {words_column("text.step"),
                   words_column("text.work"),
                   words_column("text.tool"),
                   number_column("text.minutes"),
                   number_column({"text.speed", {{"unit", words.unit(unit::m_per_min)}}}),
                   number_column({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}),
                   number_column({"text.depth", {{"unit", words.unit(unit::mm)}}}),
                   number_column("text.passes-head")};
  for (std::size_t k = 0; k < operation.steps.size(); ++k) {
    const Step& step = operation.steps[k];
    const bool reasons = why && !step.given;
    table.add(step_cells(operation, step, time.steps[k], words),
              reasons ? reasons_of(step, words) : Cells());
  }
  return table;
}

Table element_table(const std::vector<ElementTime>& elements, const Words& words) {
  Table table;
  table.columns = {words_column(), number_column({}), words_column()};
  for (const ElementTime& e : elements) {
    if (!is_shown_as_zero(e.shown()))
      table.add({words(word_of(e)), minutes_text(e.shown(), words), words(beside_label(e))});
  }
  return table;
}

Message times_of(const char* id, Time machine, Time person, Time setup, const Words& words) {
  return {id,
          {{"cycle", minutes_text(machine, words)},
           {"operator", minutes_text(person, words)},
           {"setup", minutes_text(setup, words)}}};
}

void operation_times(TextWriter& out, const Operation& operation, const OperationTime& t,
                     bool why) {
  const Words& words = out.words();
  Message head = times_of("text.op-times", t.machine, t.person, t.setup, words);
  head.places.emplace_back("op", operation_label(operation));
  out.line(head);
  out.table(step_table(operation, t, words, why), 2);
  out.table(element_table(t.elements, words), 2);
  if (!why) return;
  out.line("text.setup-of-it", 2);
  out.table(element_table(t.setup_elements, words), 3);
}

// Which of several methods a section is of.
void section_of(TextWriter& out, const char* id, const UsedMethod& used, bool alone) {
  if (alone) return out.section(id);
  out.section({"text.section-of", {{"what", Message(id)}, {"method", used.name}}});
}

void times(TextWriter& out, const UsedMethod& used, bool alone, bool why) {
  const Quote& q = *used.quote;
  const Words& words = out.words();
  section_of(out, "text.times", used, alone);
  out.line(times_of("text.piece-times", q.times.machine_each, q.times.person_each, q.times.setup,
                    words));
  for (std::size_t i = 0; i < q.route.operations.size(); ++i)
    operation_times(out, q.route.operations[i], q.times.operations[i], why);
  if (q.lot.turned_round_up_to.si > 0)
    out.line({"text.turned-round",
              {{"qty", static_cast<int>(q.lot.turned_round_up_to.si)},
               {"saved", minutes_text(q.lot.round_ready, words)}}});
}

void clampings(TextWriter& out, const UsedMethod& used, bool alone, bool why) {
  const Route& route = used.quote->route;
  section_of(out, "text.clampings", used, alone);
  for (const Operation& operation : route.operations) {
    out.line({operation.from_left ? "text.clamping-from-left" : "text.clamping-from-right",
              {{"op", operation_label(operation)}, {"clamping", clamping_label(operation)}}});
    if (why) out.line(operation.why, 2);
  }
}

void stock(TextWriter& out, const UsedMethod& used, bool alone) {
  const Quote& q = *used.quote;
  section_of(out, "text.stock", used, alone);
  out.line(stock_line(q, out.words()));
  if (q.route.job.material.price)
    out.line({"text.material-price",
              {{"price", price_of_material(q, out.words())},
               {"blank", out.words().money(q.material.each)}}});
}

// Times, clampings and stock of each method that quantities are quoted by.
void work(TextWriter& out, const PartQuote& part, bool why) {
  const std::vector<UsedMethod> used = used_in(part);
  const bool alone = used.size() == 1;
  for (const UsedMethod& method : used) {
    times(out, method, alone, why);
    clampings(out, method, alone, why);
    stock(out, method, alone);
  }
}

void other_work(TextWriter& out, const Quote& q) {
  if (q.route.job.part.other_work.empty()) return;
  out.section("text.other-work");
  for (const OtherWork& work : q.route.job.part.other_work)
    out.written(out.words().joined(other_work_parts(work, q.currency), ", "));
}

void cautions(TextWriter& out, const Quote& q) {
  if (q.cautions.empty()) return;
  out.section("text.cautions");
  out.lines(q.cautions);
}

void money(TextWriter& out, const Quote& q) {
  const Words& words = out.words();
  out.section("text.money");
  Table table;
  table.columns = {number_column("text.qty")};
  const std::vector<CostKind> kinds = cost_kinds(q);
  for (const CostKind kind : kinds) table.columns.push_back(number_column(word_of(kind)));
  for (const Price& p : q.prices) {
    Cells cells{words.whole(p.quantity)};
    for (const CostKind kind : kinds) {
      const bool free = p.cost.hundredths() == 0;
      cells.push_back(
          words.fixed(free ? 0 : 100 * amount_of(p, kind).amount().si / p.cost.amount().si, 0));
    }
    table.add(std::move(cells));
  }
  out.table(table);
}

void checks(TextWriter& out, const QuoteView& view, bool why) {
  const Words& words = out.words();
  out.section("text.checks");
  out.line({"text.cutting-share", {{"share", percent_text(view.cutting_share, words)}}});
  out.line({"text.removal", {{"removal", measure(view.removal, unit::cm3_per_min, 3)}}});
  out.line({"text.price-per-mass",
            {{"price", fixed_measure(view.price_per_mass.si, unit::money_per_kg, 2, words)},
             {"qty", view.largest().price->quantity}}});
  out.line(volume_check(view.quote->route.audit, why));
}

}  // namespace

std::string quote_text(const PartQuote& part, const Words& words, const TextOptions& options) {
  const Quote& quote = part.quote;
  const QuoteView view = view_of(part);
  TextWriter out(words);
  out.written(part_title(quote.route.job.part, words), 0);
  out.gap();
  out.block(sketch(quote.route.job, sketch_width));
  if (!quote.unconfirmed.empty()) {
    out.section("text.not-confirmed");
    out.lines(quote.unconfirmed);
  }
  prices(out, view, part);
  band(out, view);
  questions(out, part);
  work(out, part, options.why);
  other_work(out, quote);
  cautions(out, quote);
  money(out, quote);
  checks(out, view, options.why);
  out.gap();
  out.block(compare_text(part.methods, words));
  out.gap();
  const Price& last = *view.largest().price;
  out.remark({"text.machine-hours",
              {{"machine", last.made_on},
               {"hours", hours_text(last.machine, words)},
               {"qty", last.quantity}}});
  return out.take();
}

std::string infeasible_text(const std::string& part, const Infeasible& infeasible,
                            const Words& words) {
  TextWriter out(words);
  out.line({"text.part-not-possible", {{"part", part}, {"why", infeasible.why}}}, 0);
  if (!infeasible.remedies.empty())
    out.line({"text.would-help", {{"remedies", infeasible.remedies}}});
  return out.take();
}

}  // namespace turnwright
