// SPDX-License-Identifier: MIT
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/tuned.hpp"
#include "view/labels.hpp"
#include "view/tune_view.hpp"

namespace turnwright {
namespace {

std::string conditions_text(const Conditions& c, std::size_t passes, const Words& words) {
  if (c.surface_speed.si <= 0) return "-";
  std::vector<Place> places{{"speed", words.measure(measure(c.surface_speed, unit::m_per_min, 3))},
                            {"feed", words.measure(measure(c.feed, unit::mm_per_rev, 3))},
                            {"n", passes}};
  return words({passes > 1 ? "tuned.conditions-passes" : "tuned.conditions", std::move(places)});
}

// "power (1 % more: -0.42 %)".
Messages limits_of(const TunedStep& s, const Words& words) {
  Messages list;
  for (std::size_t i = 0; i < s.limited_by.size(); ++i)
    list.push_back({"tuned.limit",
                    {{"limit", word_of(s.limited_by[i])}, {"gain", words.fixed(s.worth[i], 2)}}});
  return list;
}

std::string limited_by(const TunedStep& s, const Words& words) {
  const std::string text = s.limited_by.empty() ? words("tuned.only-edge-life")
                                                : words.joined(limits_of(s, words), ", ");
  return is_proved(s) ? text : text + " " + words("tuned.not-proved");
}

std::string from_to(const std::string& before, const std::string& after) {
  return before + " → " + after;
}

Cells cells_of(const TunedStep& s, const Words& words) {
  Cells cells{words({"tuned.step", {{"step", s.label}, {"work", word_of(s.kind)}}}),
              conditions_text(s.handbook, s.passes_before, words)};
  if (!is_tuned(s)) {
    cells.push_back(words("tuned.as-it-is"));
    return cells;
  }
  for (const std::string& cell :
       {conditions_text(s.best, s.passes, words),
        from_to(minutes_text(s.cutting_before, words), minutes_text(s.cutting, words)),
        s.life.si > 0 ? minutes_text(s.life, words, 0) : std::string("-"), limited_by(s, words)})
    cells.push_back(cell);
  return cells;
}

Table step_table(const Tuned& t, const Words& words) {
  Table table;
  table.columns = {words_column("text.step"),
                   words_column("tuned.handbook"),
                   words_column({"tuned.best", {{"rule", word_of(t.rule)}}}),
                   number_column("tuned.cutting"),
                   number_column("tuned.edge-life"),
                   words_column("tuned.limited-by")};
  for (const TunedStep& s : t.steps) table.add(cells_of(s, words));
  return table;
}

Table lot_table(const TuneView& view, const Words& words) {
  Table table;
  const int unit = view.handbook->prices.front().price_unit;
  table.columns = {number_column("text.qty"),
                   number_column("tuned.cost-before"),
                   number_column("tuned.cost-after"),
                   number_column("text.change"),
                   number_column(for_unit("tuned.price-before", "tuned.price-per-before", unit)),
                   number_column(for_unit("tuned.price-after", "tuned.price-per-after", unit))};
  for (const TunedLot& lot : view.lots)
    table.add({words.whole(lot.handbook->quantity), words.money(lot.handbook->cost),
               words.money(lot.best->cost), signed_percent(lot.cost_change, words, 1),
               words.money(lot.handbook->each), words.money(lot.best->each)});
  return table;
}

std::string per_hour(Rate rate, const Words& words) {
  return words.fixed(in(rate, unit::money_per_h), 2);
}

void lots(TextWriter& out, const TuneView& view, const Shop& shop) {
  const Words& words = out.words();
  const std::string& currency = shop.policy.currency;
  out.section({"tuned.lots", {{"currency", currency}}});
  out.table(lot_table(view, words));
  out.line({"tuned.cycle",
            {{"before", minutes_text(view.handbook->times.machine_each, words)},
             {"after", minutes_text(view.best->times.machine_each, words)}}});
  out.line({"tuned.contribution",
            {{"qty", view.tuned->quantity},
             {"before", per_hour(view.contribution_before, words)},
             {"after", per_hour(view.contribution, words)},
             {"currency", currency}}});
}

Message roughing_of(const TuneView& view, const Words& words) {
  const Place divisions{"divisions", view.tuned->divisions};
  if (view.whole_depth) return {"tuned.whole-depth", {divisions}};
  return {"tuned.share-of-depth",
          {divisions, {"share", percent_text(view.tuned->roughing_depth, words)}}};
}

// By which rule the conditions were taken, where it is not the one that was asked for.
void other_rule(TextWriter& out, const TuneView& view, const std::vector<Place>& worth) {
  const MethodResult& best = view.tuned->best;
  if (best.conditions == ConditionsRule::least_time && view.tuned->rule != TuneRule::time)
    out.line("tuned.by-time");
  else if (best.hour_worth.si > 0 && view.tuned->rule == TuneRule::cost)
    out.line({"tuned.by-worth", worth});
}

// The proof is of each cut by the minute; a lot with its whole edges is the best of many plans, and
// a geared lathe has steps.
void proof(TextWriter& out, const TuneView& view) {
  const MethodResult& best = view.tuned->best;
  const Words& words = out.words();
  std::vector<Place> worth{{"worth", per_hour(best.hour_worth, words)},
                           {"currency", view.best->currency}};
  other_rule(out, view, worth);
  if (!view.proved)
    out.line({"tuned.proved-to", {{"share", percent_text(view.proved_to, words, 2)}}});
  else if (best.conditions == ConditionsRule::least_time)
    out.line("tuned.proved-time");
  else if (best.hour_worth.si > 0)
    out.line({"tuned.proved-worth", std::move(worth)});
  else
    out.line("tuned.proved");
  out.line({"tuned.best-of", {{"n", best.plans}}});
  const Machine& machine = best.route().machine;
  if (!machine.ladder.empty() || !machine.feeds.empty())
    out.line({"tuned.before-steps", {{"machine", machine.name}}});
}

void notes(TextWriter& out, const TuneView& view) {
  if (view.tuned->keeps_handbook) {
    out.line({"tuned.keeps-handbook", {{"n", view.tuned->best.plans}}});
  } else {
    out.line(roughing_of(view, out.words()));
    proof(out, view);
  }
  if (view.tuned->nose) out.line(said(*view.tuned->nose, view.best->currency));
  if (!view.tuned->keeps_handbook) out.line("tuned.limits-mean");
  for (const Message& caution : view.tuned->cautions)
    out.line({"tuned.caution", {{"caution", caution}}});
}

}  // namespace

std::string tuned_text(const Tuned& tuned, const Shop& shop, const Words& words) {
  const TuneView view = view_of(tuned);
  const Job& job = view.handbook->route.job;
  TextWriter out(words);
  out.section({"tuned.title",
               {{"part", verbatim(part_title(job.part, words))},
                {"rule", word_of(tuned.rule)},
                {"qty", tuned.quantity},
                {"method", tuned.handbook.recipe},
                {"machine", view.best->route.machine.name}}});
  out.gap();
  out.table(step_table(tuned, words));
  lots(out, view, shop);
  notes(out, view);
  return out.take();
}

std::string effects_text(const ShopEffects& effects, const Shop& shop, const Words& words) {
  TextWriter out(words);
  out.section("tuned.rows");
  out.line(
      {"tuned.rows-mean", {{"total", rounded(effects.total)}, {"currency", shop.policy.currency}}});
  Table rows;
  rows.columns = {words_column("tuned.row"), number_column("text.change"),
                  number_column("tuned.parts")};
  for (const RowEffect& row : effects.rows)
    rows.add({words.name(row.row), signed_text(row.change, words),
              words.whole(static_cast<std::int64_t>(row.parts))});
  out.table(rows);
  if (effects.largest.empty()) return out.take();
  out.section("tuned.largest");
  const int unit = shop.policy.price_unit;
  Table parts;
  parts.columns = {words_column("text.part"),
                   number_column(for_unit("tuned.price-now", "tuned.price-per-now", unit)),
                   number_column(for_unit("tuned.price-then", "tuned.price-per-then", unit)),
                   number_column("text.change")};
  for (const PartEffect& p : effects.largest)
    parts.add({words.name(p.part), words.money(p.before), words.money(p.after),
               signed_percent(change_of(p.before, p.after), words, 1)});
  out.table(parts);
  return out.take();
}

}  // namespace turnwright
