// SPDX-License-Identifier: MIT
// A price, from the pieces run through the lines of cost to the price.
#include "formatting.hpp"
#include "text/explain_lot.hpp"
#include "turnwright/estimate/pricing.hpp"
#include "turnwright/shop/condition_word.hpp"
#include "view/labels.hpp"
#include "view/sources.hpp"

namespace turnwright {
namespace {

void hour(TextWriter& out, const ExplainedLot& lot) {
  out.line({"text.hour",
            {{"machine", lot.what.quote.route.machine.name}, {"rate", lot.what.quote.rate}}});
}

void from_cost_to_price(TextWriter& out, const ExplainedLot& lot, const Price& p) {
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
  const Job& job = what.quote.route.job;
  for (const NamedSource& row : policy_sources(job.part, what.shop)) line(row.name, row.source);
  line(verbatim(what.quote.route.machine.name), what.quote.route.machine.source);
  for (const OtherMachine* machine : other_machines_used(job.part, what.shop))
    line(verbatim(machine->name), machine->source);
  line(verbatim(job.material.name), job.material.source);
  const StockCondition* condition = what.shop.condition(job.stock.condition);
  if (condition != nullptr && job.stock.price_factor != 1)
    line({"explain.price-factor", {{"condition", condition_word(condition->name)}}},
         condition->source);
}

}  // namespace

void explain_price(TextWriter& out, const Explained& what, int quantity) {
  const Price price = price_at(what.quote, what.shop, quantity);
  const ExplainedLot lot{what, quantity, lot_of(what.quote, quantity),
                         lot_lines(what.quote, quantity), out.words()};
  out.section(
      for_unit({"explain.price",
                {{"qty", quantity}, {"price", price.each}, {"currency", what.quote.currency}}},
               "explain.price-per", price.price_unit));
  explain_pieces(out, lot);
  hour(out, lot);
  out.gap();
  out.table(explain_costs(lot, price.cost));
  from_cost_to_price(out, lot, price);
  sources(out, what);
}

}  // namespace turnwright
