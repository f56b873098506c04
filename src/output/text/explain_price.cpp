// SPDX-License-Identifier: MIT
// A price, from the pieces run through the lines of cost to the price.
#include <algorithm>
#include <cmath>

#include "formatting.hpp"
#include "text/explain.hpp"
#include "turnwright/estimate/pricing.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

struct Lot {
  const Explained& what;
  int quantity;
  model::LotInputs<double> in;
  model::LotLines<double> lines;
  const Words& words;
};

std::string rate_text(const Lot& lot, Rate rate) {
  return lot.words.fixed(in(rate, unit::money_per_h), 2);
}
Message rate_of(const Lot& lot, const char* id, Rate rate) {
  return {id, {{"rate", rate_text(lot, rate)}, {"currency", lot.what.quote.currency}}};
}

// Minutes, an hour's rates, and the overhead on them.
void charge(const Lot& lot, Messages& parts) {
  if (lot.in.overhead.si > 0)
    parts.push_back({"explain.with-overhead", {{"factor", Figure{1 + lot.in.overhead.si}}}});
}

Messages setup_parts(const Lot& lot) {
  const std::string minutes = minutes_text(lot.in.setup_machine - lot.lines.setup_saved, lot.words);
  Messages parts;
  const int releases = static_cast<int>(lot.in.releases.si);
  if (releases > 1 && lot.in.first_time.si > 0)
    parts.push_back({"explain.releases-first-time",
                     {{"all", minutes_text(lot.lines.machine_setup, lot.words)},
                      {"releases", releases},
                      {"minutes", minutes},
                      {"once", minutes_text(lot.in.first_time, lot.words)}}});
  else if (releases > 1)
    parts.push_back({"explain.releases-minutes", {{"releases", releases}, {"minutes", minutes}}});
  else
    parts.push_back({"explain.minutes-of", {{"minutes", minutes}}});
  parts.push_back(rate_of(lot, "explain.machine-rate", lot.in.machine_rate));
  if (lot.in.person_rate.si > 0)
    parts.push_back(rate_of(lot, "explain.person-rate", lot.in.person_rate));
  charge(lot, parts);
  return parts;
}

// What is lost at a stage, or learned, shows in the minutes of the lot.
Messages run_parts(const Lot& lot, Time each, Time all, const Message& rate) {
  const bool plain = std::abs((lot.lines.pieces * each - all).si) < 1e-6;
  Messages parts;
  if (plain)
    parts.push_back({"explain.pieces-minutes",
                     {{"pieces", Figure{lot.lines.pieces.si, 9}},
                      {"minutes", minutes_text(each, lot.words, 3)}}});
  else
    parts.push_back(
        {"explain.minutes-in-all",
         {{"all", minutes_text(all, lot.words)}, {"minutes", minutes_text(each, lot.words, 3)}}});
  parts.push_back(rate);
  charge(lot, parts);
  return parts;
}

Messages material_parts(const Lot& lot) {
  const MaterialCost& m = lot.what.quote.material;
  auto money4 = [&](Amount a) { return lot.words.fixed(a.si, 4); };
  Messages parts{
      {"explain.blanks-at", {{"make", Figure{lot.lines.made.si, 9}}, {"each", money4(m.each)}}},
      {"explain.blank", {{"mass", measure(m.blank, unit::kg, 3)}, {"status", word_of(m.status)}}},
      {"explain.blank-cost",
       {{"bar", money4(m.bar)},
        {"cut", lot.words.money(m.cut_charge)},
        {"overhead", money4(m.overhead)},
        {"credit", money4(m.credit)}}}};
  if (m.pieces_per_bar > 0)
    parts.push_back(
        {lot.what.quote.route.job.stock.pieces > 0 ? "explain.sawn-lengths" : "explain.whole-bars",
         {{"pieces", m.pieces_per_bar}, {"price", rounded(m.whole_bar)}}});
  return parts;
}

int whole_insert_pieces(const Lot& lot) {
  return static_cast<int>(std::min(static_cast<double>(lot.quantity), lot.in.whole_edges_up_to.si));
}

class CostTable {
 public:
  explicit CostTable(const Lot& lot) : lot_(lot) {
    table_.columns = {words_column(), number_column({}), words_column()};
  }
  void add(CostKind kind, Amount amount, const Messages& how) {
    table_.add({lot_.words.heading(word_of(kind)), lot_.words.money(amount),
                lot_.words.joined(how, ", ")});
  }
  Table table(Money sum) {
    table_.add({lot_.words("text.cost"), lot_.words.money(sum), lot_.words("explain.sum")});
    return table_;
  }

 private:
  const Lot& lot_;
  Table table_;
};

Table cost_table(const Lot& lot, Money cost) {
  const auto& l = lot.lines;
  const bool split = lot.what.quote.split_rate;
  CostTable costs(lot);
  costs.add(CostKind::setup, l.setup, setup_parts(lot));
  costs.add(split ? CostKind::machine : CostKind::running, l.machine,
            run_parts(lot, l.machine_each, l.machine_run,
                      rate_of(lot, "explain.machine-rate", lot.in.machine_rate)));
  if (lot.in.person_rate.si > 0)
    costs.add(CostKind::labour, l.labour,
              run_parts(lot, l.person_each, l.person_run,
                        rate_of(lot, "explain.person-rate", lot.in.person_rate)));
  costs.add(CostKind::inserts, l.inserts, {{"explain.inserts", {{"n", whole_insert_pieces(lot)}}}});
  costs.add(CostKind::material, l.material, material_parts(lot));
  if (l.other.si > 0) costs.add(CostKind::other_work, l.other, {"explain.other-work"});
  if (l.outside.si > 0) costs.add(CostKind::outside_work, l.outside, {"explain.outside-work"});
  if (l.one_offs.si > 0) costs.add(CostKind::one_offs, l.one_offs, {"explain.one-offs"});
  return costs.table(cost);
}

Message pieces_run(const Lot& lot) {
  const Figure pieces{lot.lines.pieces.si, 9};
  if (lot.in.service_pieces.si > 0)
    return {"explain.pieces-for-service",
            {{"qty", lot.quantity},
             {"pieces", pieces},
             {"share", percent_text(lot.what.quote.service_level, lot.words)}}};
  if (lot.quantity >= lot.in.scrap_from.si)
    return {
        "explain.pieces-with-scrap",
        {{"qty", lot.quantity}, {"share", Figure{lot.in.scrap_share.si, 3}}, {"pieces", pieces}}};
  return {"explain.pieces-without-scrap",
          {{"pieces", pieces}, {"from", Figure{lot.in.scrap_from.si, 9}}}};
}

void quantity_lines(TextWriter& out, const Lot& lot) {
  out.line(pieces_run(lot));
  out.line({"explain.blanks",
            {{"n", static_cast<std::int64_t>(std::llround(lot.in.setting_pieces.si))},
             {"make", Figure{lot.lines.made.si, 9}}}});
  out.line({"text.hour",
            {{"machine", lot.what.quote.route.machine.name}, {"rate", lot.what.quote.rate}}});
}

void from_cost_to_price(TextWriter& out, const Lot& lot, const Price& p) {
  const Policy& policy = lot.what.shop.policy;
  const double each = p.cost.amount().si / lot.quantity;
  out.section({"explain.to-price",
               {{"cost", lot.words.fixed(each, 6)}, {"currency", lot.what.quote.currency}}});
  const Part& part = lot.what.quote.route.job.part;
  const Pricing pricing = pricing_of(part, policy);
  explain_figure(out, pricing.markup ? "price-from-markup" : "price-from-margin",
                 {each, pricing.share});
  if (pricing.discount > 0) out.line({"explain.discount", {{"discount", Share{pricing.discount}}}});
  if (p.price_unit > 1) out.line({"explain.for-pieces", {{"pieces", p.price_unit}}});
  out.line({"explain.step-of-price",
            {{"step", policy.step_of(p.worked_out.amount())}, {"price", p.worked_out}}});
  if (price_by_hand(part, lot.quantity)) out.line({"explain.by-hand", {{"price", p.each}}});
  if (p.rebate.hundredths() > 0)
    out.line({"explain.rebate", {{"share", Share{p.rebate_share}}, {"rebate", p.rebate}}});
  if (p.minimum_surcharge.hundredths() > 0)
    out.line({"explain.below-minimum",
              {{"minimum", policy.minimum_order}, {"surcharge", p.minimum_surcharge}}});
  for (const Price& listed : lot.what.quote.prices)
    if (listed.quantity == lot.quantity && listed.each != p.each)
      out.line({"explain.on-the-list", {{"price", listed.each}}});
}

void sources(TextWriter& out, const Explained& what) {
  out.section("explain.rests-on");
  auto line = [&](const Message& name, const Source& source) {
    out.line({"explain.source", {{"name", name}, {"source", source_label(what.shop, source)}}});
  };
  for (const auto& [name, source] : what.shop.policy.sources) line(verbatim(name), source);
  line(verbatim(what.quote.route.machine.name), what.quote.route.machine.source);
  line(verbatim(what.quote.route.job.material.name), what.quote.route.job.material.source);
}

}  // namespace

void explain_price(TextWriter& out, const Explained& what, int quantity) {
  const Price price = price_at(what.quote, what.shop, quantity);
  const Lot lot{what, quantity, lot_of(what.quote, quantity), lot_lines(what.quote, quantity),
                out.words()};
  out.section(
      for_unit({"explain.price",
                {{"qty", quantity}, {"price", price.each}, {"currency", what.quote.currency}}},
               "explain.price-per", price.price_unit));
  quantity_lines(out, lot);
  out.gap();
  out.table(cost_table(lot, price.cost));
  from_cost_to_price(out, lot, price);
  sources(out, what);
}

}  // namespace turnwright
