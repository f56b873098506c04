// SPDX-License-Identifier: MIT
#include "record.hpp"

namespace turnwright {

Method read_method(MapReader& map) {
  Method method;
  method.name = map.text_or("name", "");
  method.why = map.text_or("why", "");
  method.plan = map.one_of("plan", {"rough then finish", "two finish cuts", "between centres",
                                    "leave and grind"})
                    .value_or("");
  method.tools = map.text_or("tools", "");
  method.machine = map.text_or("machine", "");
  method.stock = map.one_of("stock", {"bar", "blank"}).value_or("");
  method.condition = map.text_or("condition", "");
  if (const Node* list = map.find("iso 513"))
    for (const Node* item : as_list(*list))
      method.groups.push_back(read_text(*item, map.notes(), "expected.iso-513").value_or(""));
  method.clampings = map.whole("operations", 1, 2).value_or(0);
  method.fixed_speed = map.one_of("spindle", {"fixed", "surface speed"}).value_or("") == "fixed";
  method.ends_first =
      map.one_of("order", {"ends first", "end by end"}).value_or("") == "ends first";
  const std::string rule =
      map.one_of("conditions", {"handbook", "least cost", "least time"}).value_or("handbook");
  method.conditions = rule == "least cost"   ? ConditionsRule::least_cost
                      : rule == "least time" ? ConditionsRule::least_time
                                             : ConditionsRule::handbook;
  method.turn_round = map.one_of("pieces", {"turned round", "operation by operation"}).value_or("");
  method.edge_price = map.quantity_or("edge price", unit::money, Amount(0.0));
  method.source = source_of(map);
  return method;
}

}  // namespace turnwright
