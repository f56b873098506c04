// SPDX-License-Identifier: MIT
#include "sections.hpp"

namespace turnwright {
namespace {

ConditionsRule rule_named(const std::string& word) {
  return word == "least cost"   ? ConditionsRule::least_cost
         : word == "least time" ? ConditionsRule::least_time
                                : ConditionsRule::handbook;
}

void read_words(MapReader& map, Method& m) {
  m.name = map.text_or("name", m.name);
  m.why = map.text_or("why", m.why);
  m.practised = map.yes_no("practised").value_or(m.practised);
  m.plan = map.one_of("plan", {"rough then finish", "two finish cuts", "between centres",
                               "leave and grind"})
               .value_or(m.plan);
  m.tools = map.text_or("tools", m.tools);
  m.machine = map.text_or("machine", m.machine);
  m.stock = map.one_of("stock", {"bar", "blank"}).value_or(m.stock);
  m.condition = map.text_or("condition", m.condition);
  m.turn_round =
      map.one_of("pieces", {"turned round", "operation by operation"}).value_or(m.turn_round);
}

// What a record leaves out it has from the one beneath it.
Method read_method(MapReader& map, Method m) {
  read_words(map, m);
  if (const Node* list = map.find("iso 513")) {
    m.groups.clear();
    for (const Node* item : as_list(*list))
      m.groups.push_back(read_text(*item, map.notes(), "expected.iso-513").value_or(""));
  }
  m.clampings = map.whole("operations", 1, 2).value_or(m.clampings);
  if (const auto spindle = map.one_of("spindle", {"fixed", "surface speed"}))
    m.fixed_speed = spindle == "fixed";
  if (const auto order = map.one_of("order", {"ends first", "end by end"}))
    m.ends_first = order == "ends first";
  if (const auto rule = map.one_of("conditions", {"handbook", "least cost", "least time"}))
    m.conditions = rule_named(*rule);
  m.edge_price = map.quantity_or("edge price", unit::money, m.edge_price);
  m.edge_change = map.quantity_or("edge change", unit::min, m.edge_change);
  m.source = source_of(map);
  return m;
}

Method method_of(const RecordNode& record) {
  const Method base = record.under != nullptr ? method_of(*record.under) : Method{};
  MapReader map(*record.node, *record.notes, {"shop.record-of", {{"section", "methods"}}});
  Method method = read_method(map, base);
  map.finish();
  return method;
}

}  // namespace

void read_methods(const Sections& sections, Shop& shop) {
  const auto section = sections.find("methods");
  if (section == sections.end()) return;
  for (const auto& [name, record] : section->second)
    if (record.node->kind == Node::Kind::map) shop.methods.push_back(method_of(record));
}

}  // namespace turnwright
