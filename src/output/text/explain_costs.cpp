// SPDX-License-Identifier: MIT
// The lines of cost of a lot, each with what it is worked out from.
#include <algorithm>
#include <cmath>

#include "formatting.hpp"
#include "text/explain_lot.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

// "machine at 12.00 EUR/h"
Message rate_of(const ExplainedLot& lot, const char* id, Rate rate) {
  return {id,
          {{"rate", lot.words.fixed(in(rate, unit::money_per_h), 2)},
           {"currency", lot.what.quote.currency}}};
}
// The overhead on an hour's rates.
void charge(const ExplainedLot& lot, Messages& parts) {
  if (lot.in.overhead.si > 0)
    parts.push_back({"explain.with-overhead", {{"factor", Figure{1 + lot.in.overhead.si}}}});
}

Messages setup_parts(const ExplainedLot& lot) {
  const std::string minutes = minutes_text(lot.in.setup_machine - lot.lines.setup_saved, lot.words);
  Messages parts;
  const int releases = lot.releases();
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
  for (Message& rate : rates_of(lot)) parts.push_back(std::move(rate));
  return parts;
}

// What is lost at a stage, or learned, shows in the minutes of the lot.
Messages run_parts(const ExplainedLot& lot, Time each, Time all, const Message& rate) {
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

Messages material_parts(const ExplainedLot& lot) {
  const MaterialCost& m = lot.what.quote.material;
  auto money4 = [&](Amount a) { return lot.words.fixed(a.si, 4); };
  Messages parts{
      {"explain.blanks-at", {{"make", Figure{lot.lines.made.si, 9}}, {"each", money4(m.each)}}},
      {"explain.blank",
       {{"mass", measure(m.blank, unit::kg, 3)},
        {"price", price_of_material(lot.what.quote, lot.words)}}},
      {"explain.blank-cost",
       {{"bar", money4(m.bar)},
        {"cut", money4(m.cut_charge)},
        {"overhead", money4(m.overhead)},
        {"credit", money4(m.credit)}}}};
  if (m.pieces_per_bar > 0)
    parts.push_back(
        {lot.what.quote.route.job.stock.pieces > 0 ? "explain.sawn-lengths" : "explain.whole-bars",
         {{"pieces", m.pieces_per_bar}, {"price", rounded(m.whole_bar)}}});
  return parts;
}

// Of each release, which starts on fresh edges.
Message inserts_part(const ExplainedLot& lot) {
  const int least = static_cast<int>(min(lot.good(), lot.in.whole_edges_up_to).si);
  if (lot.releases() == 1) return {"explain.inserts", {{"n", least}}};
  return {"explain.inserts-of-releases", {{"n", least}, {"releases", lot.releases()}}};
}

class CostTable {
 public:
  explicit CostTable(const ExplainedLot& lot) : lot_(lot) {
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
  const ExplainedLot& lot_;
  Table table_;
};

}  // namespace

Messages rates_of(const ExplainedLot& lot) {
  Messages rates{rate_of(lot, "explain.machine-rate", lot.in.machine_rate)};
  if (lot.in.person_rate.si > 0)
    rates.push_back(rate_of(lot, "explain.person-rate", lot.in.person_rate));
  charge(lot, rates);
  return rates;
}

Table explain_costs(const ExplainedLot& lot, Money cost) {
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
  costs.add(CostKind::inserts, l.inserts, {inserts_part(lot)});
  costs.add(CostKind::material, l.material, material_parts(lot));
  if (l.other.si > 0) costs.add(CostKind::other_work, l.other, explain_other_work(lot));
  if (l.outside.si > 0) costs.add(CostKind::outside_work, l.outside, {"explain.outside-work"});
  if (l.one_offs.si > 0) costs.add(CostKind::one_offs, l.one_offs, {"explain.one-offs"});
  return costs.table(cost);
}

}  // namespace turnwright
