// SPDX-License-Identifier: MIT
#include <algorithm>

#include "json/json.hpp"
#include "turnwright/estimate/order.hpp"
#include "turnwright/quantity/text.hpp"
#include "view/quote_view.hpp"
#include "view/sources.hpp"

namespace turnwright {
namespace {

Json hour_json(const char* id, const std::string& of, Rate rate, const Source& source) {
  return {{"id", id},
          {"of", of},
          {"per_hour", fixed(in(rate, unit::money_per_h), 4)},
          {"source", source.text},
          {"basis", name_of(source.basis)}};
}

// The hour of a machine.
void add_hours(Json& rates, const Machine& m) {
  if (m.rate.all_in) return rates.push_back(hour_json("all-in", m.name, *m.rate.all_in, m.source));
  rates.push_back(hour_json("machine", m.name, m.rate.machine, m.source));
  rates.push_back(hour_json("person", m.name, m.rate.person, m.source));
}

// What an hour of the machines and a kilogram of the material cost, and where that comes from.
Json rates_of(const PartQuote& part, const Shop& shop) {
  Json rates = Json::array();
  std::vector<std::string> known;
  for (const UsedMethod& used : used_in(part)) {
    const Machine& machine = used.quote->route.machine;
    if (std::find(known.begin(), known.end(), machine.name) != known.end()) continue;
    known.push_back(machine.name);
    add_hours(rates, machine);
  }
  const Quote& quote = part.quote;
  for (const OtherMachine* m : other_machines_used(quote.route.job.part, shop))
    rates.push_back(hour_json("other-machine", m->name, m->rate, m->source));
  const Material& material = quote.route.job.material;
  if (material.price)
    rates.push_back({{"id", "material"},
                     {"of", material.name},
                     {"per_kg", fixed(in(*material.price, unit::money_per_kg), 4)},
                     {"source", material.source.text},
                     {"status", name_of(quote.material.status)},
                     {"date", material.price_date}});
  return rates;
}

Json other_work_json(const Part& part) {
  Json list = Json::array();
  for (const OtherWork& w : part.other_work) {
    Json work{{"what", w.what}, {"after", name_of(w.after)}, {"per", name_of(w.per)}};
    if (!w.machine.empty()) work["at"] = w.machine;
    if (w.time) work["operator_s"] = json_number(*w.time);
    if (w.price) work["price"] = rounded(*w.price).text();
    if (w.area) work["area_m2"] = json_number(*w.area);
    work["setup_s"] = json_number(w.setup);
    work["days"] = json_number(w.days);
    if (w.price) {
      work["minimum"] = rounded(w.minimum).text();
      work["certificate"] = rounded(w.certificate).text();
      work["transport"] = rounded(w.transport).text();
      work["scrap_share"] = json_number(w.scrap);
    }
    list.push_back(std::move(work));
  }
  return list;
}

Json request_json(const Request* request) {
  if (request == nullptr) return nullptr;
  return {{"customer", request->customer},
          {"number", request->number},
          {"revision", request->revision},
          {"date", text_of(request->date)},
          {"valid_days", request->valid_days}};
}

// Of the quantities that are quoted by another method than the main one.
Json other_routes(const PartQuote& part, const Shop& shop) {
  Json list = Json::array();
  for (const UsedMethod& used : used_in(part)) {
    if (used.index == part.methods.main) continue;
    Json route{{"made_by", used.name}, {"quantities", used.quantities}};
    std::vector<Price> prices;
    for (const Price& p : part.quote.prices)
      if (p.method_index == used.index) prices.push_back(p);
    add_route(route, used.quote->route, used.quote->times, shop, prices);
    add_lot(route, *used.quote, shop);
    list.push_back(std::move(route));
  }
  return list;
}

Json next_best_json(const Comparison& c) {
  if (!c.runner_up) return nullptr;
  const RunnerUp& next = *c.runner_up;
  return {{"method", c.methods[next.method].name},
          {"quantity", c.quantity},
          {"each", next.each.text()},
          {"more_share", json_number(next.more)},
          {"leads_from", next.from > 0 ? Json(next.from) : Json(nullptr)},
          {"leads_to", next.to > 0 ? Json(next.to) : Json(nullptr)},
          {"message", json_message(next_best(c))}};
}

// What ordering it comes to, where only one quantity is asked for.
Json order_json(const Quote& quote, const Policy& policy, const Request* request) {
  const OrderTerms terms = order_terms(policy, request);
  const std::vector<Order> orders = orders_of({quote}, terms);
  if (orders.size() != 1 || !quote.route.job.part.selling.whole_order) return nullptr;
  const Order& order = orders.front();
  return {{"minimum", policy.minimum_order.text()},
          {"surcharge", order.surcharge.text()},
          {"one_offs", order.one_offs.text()},
          {"rebate_share", json_number(terms.rebate)},
          {"rebate", order.rebate.text()},
          {"charges", order.charges.text()},
          {"net", order.net.text()},
          {"tax_share", json_number(terms.tax)},
          {"tax", order.tax.text()},
          {"total", order.total.text()}};
}

}  // namespace

Json price_json(const Price& p) {
  Json j{{"quantity", p.quantity},
         {"releases", p.releases},
         {"make", p.made},
         {"method", p.method},
         {"machine", p.made_on},
         {"cycle_per_part_s", json_number(p.cycle)},
         {"operator_per_part_s", json_number(p.attended)},
         {"setup_s", json_number(p.setup)},
         {"lines", Json::array()}};
  for (const CostLine& l : p.lines)
    j["lines"].push_back({{"name", name_of(l.kind)}, {"amount", l.amount.text()}});
  j["cost"] = p.cost.text();
  j["each"] = p.each.text();
  if (p.each != p.worked_out) j["calculated_each"] = p.worked_out.text();
  j["price_unit"] = p.price_unit;
  j["total"] = p.total.text();
  j["minimum_surcharge"] = p.minimum_surcharge.text();
  j["rebate"] = p.rebate.text();
  j["margin"] = p.margin.text();
  j["margin_share"] = json_number(p.margin_share);
  j["low_each"] = p.low_each.text();
  j["likely_each"] = p.likely_each.text();
  j["high_each"] = p.high_each.text();
  if (p.at_once_each.hundredths() > 0) j["at_once_each"] = p.at_once_each.text();
  if (p.causes.empty()) return j;
  j["p10_each"] = p.p10_each.text();
  j["p50_each"] = p.p50_each.text();
  j["p90_each"] = p.p90_each.text();
  j["loss_chance"] = json_number(p.loss_chance);
  j["causes"] = Json::array();
  for (const BandCause& c : p.causes)
    j["causes"].push_back({{"name", name_of(c.row)},
                           {"low_each", rounded(c.low_each).text()},
                           {"high_each", rounded(c.high_each).text()},
                           {"basis", name_of(c.basis)}});
  return j;
}

std::string quote_json(const PartQuote& part, const Shop& shop,
                       const std::vector<InputDigest>& inputs, const Request* request) {
  const Quote& quote = part.quote;
  Json j = json_head("quote");
  add_route(j, quote.route, quote.times, shop, quote.prices);
  j["made_by"] = part.methods.quoted().name;
  j["quantity"] = part.methods.quantity;
  j["other_routes"] = other_routes(part, shop);
  j["next_best"] = next_best_json(part.methods);
  j["currency"] = quote.currency;
  if (!quote.delivery.empty()) j["delivery"] = json_message(quote.delivery);
  j["rates"] = rates_of(part, shop);
  j["other_work"] = other_work_json(quote.route.job.part);
  add_lot(j, quote, shop);
  j["request"] = request_json(request);
  j["order"] = order_json(quote, shop.policy, request);
  j["prices"] = Json::array();
  for (const Price& p : quote.prices) {
    j["prices"].push_back(price_json(p));
    j["prices"].back()["made_by"] = part.methods.methods[p.method_index].name;
    add_own_lot(j["prices"].back(), part.of(p), p);
  }
  j["questions"] = Json::array();
  for (const Question& q : part.methods.questions)
    j["questions"].push_back({{"ask", json_message(q.ask)},
                              {"otherwise", json_message(q.otherwise)},
                              {"quantity", q.quantity},
                              {"each", q.each.text()},
                              {"change_share", json_number(q.change)}});
  j["larger_for_less"] = Json::array();
  for (const LargerForLess& l : larger_for_less(quote.prices))
    j["larger_for_less"].push_back({{"from", l.from}, {"quantity", l.quantity}});
  add_methods(j, part.methods);
  j["inputs"] = Json::array();
  for (const InputDigest& d : inputs)
    j["inputs"].push_back({{"path", d.path}, {"sha256", d.sha256}});
  j["unconfirmed"] = json_messages(quote.unconfirmed);
  j["cautions"] = json_messages(quote.cautions);
  return json_text(j);
}

}  // namespace turnwright
