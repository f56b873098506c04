// SPDX-License-Identifier: MIT
// What the prices of a quote can be worked out from again, by whoever has only the JSON.
#include <array>
#include <charconv>

#include "json/json.hpp"
#include "turnwright/estimate/pricing.hpp"

namespace turnwright {
namespace {

// All digits that a number has: shortest that reads back the same.
std::string exact(double value) {
  std::array<char, 400> text{};
  const auto end =
      std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  return {text.data(), end.ptr};
}
std::string exact(Amount amount) { return exact(amount.si); }
std::string exact(Rate rate) { return exact(in(rate, unit::money_per_h)); }

Json inserts_json(const model::LotInputs<double>& lot) {
  Json list = Json::array();
  for (const auto& edge : lot.edges)
    list.push_back({{"share", json_number(edge.share)}, {"price", exact(edge.price)}});
  return list;
}

Json outside_json(const model::LotInputs<double>& lot) {
  Json list = Json::array();
  for (const auto& stage : lot.outside)
    list.push_back(
        {{"each", exact(stage.each)},
         {"minimum", exact(stage.minimum)},
         {"fixed", exact(stage.fixed)},
         {"scrap_share", json_number(stage.scrap)},
         {"after", name_of(stage.after_roughing ? WorkAfter::roughing : WorkAfter::turning)}});
  return list;
}

Json times_json(const model::LotInputs<double>& lot) {
  return {{"setup_machine_s", json_number(lot.setup_machine)},
          {"setup_operator_s", json_number(lot.setup_person)},
          {"first_time_s", json_number(lot.first_time)},
          {"cycle_s", json_number(lot.machine_each)},
          {"operator_s", json_number(lot.person_each)},
          {"rough_cycle_s", json_number(lot.rough_machine)},
          {"rough_operator_s", json_number(lot.rough_person)},
          {"turned_round_up_to", json_number(lot.turned_round_up_to)},
          {"round_each_s", json_number(lot.round_each)},
          {"round_setup_s", json_number(lot.round_ready)},
          {"other_time_each_s", json_number(lot.other_time_each)},
          {"other_time_lot_s", json_number(lot.other_time_lot)},
          {"one_off_time_each_s", json_number(lot.one_off_time_each)},
          {"one_off_time_lot_s", json_number(lot.one_off_time_lot)}};
}

Json lot_json(const Quote& quote) {
  const model::LotInputs<double>& lot = quote.lot;
  Json j{{"scrap_share", json_number(lot.scrap_share)},
         {"scrap_from", json_number(lot.scrap_from)},
         {"setting_pieces", json_number(lot.setting_pieces)},
         {"releases", json_number(lot.releases)},
         {"service_level", json_number(quote.service_level)},
         {"machine_per_hour", exact(lot.machine_rate)},
         {"person_per_hour", exact(lot.person_rate)},
         {"overhead_share", json_number(lot.overhead)}};
  j.update(times_json(lot));
  j["inserts"] = inserts_json(lot);
  j["whole_edges_up_to"] = json_number(lot.whole_edges_up_to);
  j["material_each"] = exact(lot.material_each);
  j["pieces_per_bar"] = json_number(lot.pieces_per_bar);
  j["bar_each"] = exact(lot.bar_each);
  j["other_cost_each"] = exact(lot.other_cost_each);
  j["other_cost_lot"] = exact(lot.other_cost_lot);
  j["outside"] = outside_json(lot);
  j["outside_overhead_share"] = json_number(lot.outside_overhead);
  j["one_off_each"] = exact(lot.one_off_each);
  j["one_off_lot"] = exact(lot.one_off_lot);
  return j;
}

const char* charged_by(const MaterialCost& m, const Policy& policy) {
  if (m.pieces_per_bar == 0) return "used-length";
  return policy.whole_bars ? "whole-bars" : "sawn-lengths";
}

Json material_json(const Quote& quote, const Shop& shop) {
  const MaterialCost& m = quote.material;
  const Job& job = quote.route.job;
  const BarRules& bars = shop.bars;
  Json j{{"length_m", json_number(m.length)},
         {"section_m2", json_number(job.stock.section)},
         {"density_kg_per_m3", json_number(job.material.density)},
         {"blank_kg", json_number(m.blank)},
         {"finished_kg", json_number(m.finished)}};
  if (job.material.price) j["price_per_kg"] = exact(in(*job.material.price, unit::money_per_kg));
  j["price_factor"] = json_number(job.stock.price_factor);
  j["price_factor_basis"] = name_of(job.stock.price_factor_basis);
  j["status"] = name_of(m.status);
  j["bar"] = exact(m.bar);
  j["cut"] = exact(bars.cut_charge);
  j["cut_per_dm2"] = exact(bars.cut_charge_per_dm2);
  j["cut_charge"] = exact(m.cut_charge);
  j["overhead_share"] = json_number(shop.policy.overhead_on_material);
  j["overhead"] = exact(m.overhead);
  j["credit_share"] = json_number(m.credit_share);
  j["credit"] = exact(m.credit);
  j["each"] = exact(m.each);
  j["bar_length_m"] = json_number(bars.bar_length);
  j["bar_end_m"] = json_number(bars.bar_end);
  j["saw_kerf_m"] = json_number(bars.saw_kerf);
  j["charged_by"] = charged_by(m, shop.policy);
  j["whole_bar"] = exact(m.whole_bar);
  return j;
}

Json pricing_json(const Quote& quote, const Policy& policy) {
  Json steps = Json::array();
  for (const PriceStep& step : policy.price_steps) {
    const bool bounded = step.below.hundredths() > 0;
    steps.push_back(
        {{"below", bounded ? Json(step.below.text()) : Json()}, {"step", step.step.text()}});
  }
  const Part& part = quote.route.job.part;
  const Pricing pricing = pricing_of(part, policy);
  Json by_hand = Json::array();
  for (const auto& [quantity, price] : part.selling.prices)
    by_hand.push_back({{"quantity", quantity}, {"each", rounded(price).text()}});
  return {{"by", pricing.markup ? "markup" : "margin"},
          {"share", json_number(pricing.share)},
          {"discount_share", json_number(pricing.discount)},
          {"rebate_share", json_number(part.selling.rebate.value_or(policy.rebate))},
          {"by_hand", std::move(by_hand)},
          {"steps", std::move(steps)},
          {"minimum_order", policy.minimum_order.text()},
          {"whole_order", part.selling.whole_order}};
}

}  // namespace

void add_lot(Json& j, const Quote& quote, const Shop& shop) {
  j["one_offs"] = Json::array();
  for (const OneOffLine& o : quote.one_offs)
    j["one_offs"].push_back({{"what", o.what},
                             {"bought", exact(o.bought)},
                             {"operator_s", json_number(o.own)},
                             {"cost", o.cost.text()},
                             {"price", o.price.text()}});
  j["lot"] = lot_json(quote);
  j["material"] = material_json(quote, shop);
  j["pricing"] = pricing_json(quote, shop.policy);
}

void add_own_lot(Json& j, const Quote& quote, const Price& price) {
  const model::LotInputs<double> lot = lot_of(quote, price.quantity);
  j["service_pieces"] = json_number(lot.service_pieces);
  j["learned_share"] = json_number(lot.learned);
  j["machine_s"] = json_number(price.machine);
  j["operator_s"] = json_number(price.person);
}

}  // namespace turnwright
