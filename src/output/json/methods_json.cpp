// SPDX-License-Identifier: MIT
#include "json/json.hpp"
#include "turnwright/output/methods.hpp"
#include "turnwright/quantity/text.hpp"
#include "view/methods_view.hpp"

namespace turnwright {

void add_causes(Json& j, const Difference& d) {
  j["total"] = fixed(d.total.si, 2);
  j["setup"] = fixed(d.setup.si, 2);
  j["tool_change"] = fixed(d.tool_change.si, 2);
  j["cutting"] = fixed(d.cutting.si, 2);
  j["other_time"] = fixed(d.other_time.si, 2);
  j["inserts"] = fixed(d.inserts.si, 2);
  j["material"] = fixed(d.material.si, 2);
  j["outside"] = fixed(d.outside.si, 2);
}
namespace {

Json method_json(const MethodResult& m, int quantity) {
  Json method{{"name", m.name}, {"feasible", m.feasible()}, {"practised", m.practised}};
  if (!m.feasible()) {
    method["why_not"] = json_message(m.quote.infeasible().why);
    method["remedies"] = json_messages(m.quote.infeasible().remedies);
    return method;
  }
  if (const HeldBack held = m.held_back_at(quantity); !held.empty())
    method["held_back"] = json_message(held.why);
  const RouteTimes& times = m.quote->times;
  method["cycle_per_part_s"] = json_number(times.machine_each);
  method["operator_per_part_s"] = json_number(times.person_each);
  method["setup_s"] = json_number(times.setup);
  method["machine"] = m.route().machine.name;
  method["operations"] = m.route().operations.size();
  method["cautions"] = json_messages(m.route().cautions);
  method["notes"] = json_messages(m.route().two_cut_notes);
  method["prices"] = Json::array();
  for (const Price& p : m.quote->prices) method["prices"].push_back(price_json(p));
  return method;
}

}  // namespace

void add_methods(Json& j, const Comparison& c) {
  j["methods"] = Json::array();
  for (const MethodResult& m : c.methods) j["methods"].push_back(method_json(m, c.quantity));
  j["lead"] = Json::array();
  for (const LeadingRange& l : c.lead) {
    Json lead{{"from", l.from},
              {"to", l.to},
              {"method", c.methods[l.method].name},
              {"either", Json::array()}};
    for (const std::size_t i : l.either) lead["either"].push_back(c.methods[i].name);
    j["lead"].push_back(std::move(lead));
  }
  j["break_even"] = c.break_even > 0 ? Json(c.break_even) : Json(nullptr);
  j["verdict"] = json_message(verdict(c));
  j["chosen"] = Json::array();
  for (const ChosenMethod& chosen : c.chosen)
    j["chosen"].push_back(
        {{"quantity", chosen.quantity}, {"method", c.methods[chosen.method].name}});
  j["differences"] = Json::array();
  for (const Difference& d : c.differences) {
    Json difference{
        {"quantity", d.quantity}, {"method", c.methods[d.method].name}, {"less", c.quoted().name}};
    add_causes(difference, d);
    j["differences"].push_back(std::move(difference));
  }
}

std::string methods_json(const MethodsReport& r) {
  Json j = json_head("compare");
  j["currency"] = r.currency;
  add_methods(j, r.comparison);
  j["quantity"] = r.quantity;
  j["pairs"] = {{"possible", r.combining.possible},
                {"planned", r.combining.planned},
                {"left_out", r.combining.left_out}};
  j["reasons"] = Json::array();
  for (const Difference& d : r.comparison.reasons) {
    Json reason{{"method", r.comparison.methods[d.method].name}};
    add_causes(reason, d);
    j["reasons"].push_back(std::move(reason));
  }
  j["winner_changes"] = Json::array();
  for (const WinnerChange& f : r.winner_changes)
    j["winner_changes"].push_back(
        {{"input", name_of(f.input)}, {"factor", f.factor}, {"leader", f.leader}});
  j["sensitivity"] = Json::array();
  for (const Sensitivity& s : r.sensitivities)
    j["sensitivity"].push_back(
        {{"input", name_of(s.input)}, {"lower", s.lower.text()}, {"higher", s.higher.text()}});
  j["map"] = Json(nullptr);
  if (r.map) {
    Json map{{"names", r.map->names}, {"quantities", r.map->quantities}, {"rows", Json::array()}};
    for (std::size_t k = 0; k < r.map->stock.size(); ++k)
      map["rows"].push_back(
          {{"stock_mm", in(r.map->stock[k], unit::mm)}, {"methods", r.map->method[k]}});
    j["map"] = std::move(map);
  }
  return json_text(j);
}

}  // namespace turnwright
