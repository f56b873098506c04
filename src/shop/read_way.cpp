// SPDX-License-Identifier: MIT
#include "record.hpp"

namespace turnwright {

Way read_way(MapReader& map) {
  Way way;
  way.name = map.text_or("name", "");
  way.why = map.text_or("why", "");
  way.plan = map.one_of("plan", {"rough then finish", "two finish cuts", "between centres",
                                 "leave and grind"})
                 .value_or("");
  way.tools = map.text_or("tools", "");
  way.machine = map.text_or("machine", "");
  way.stock = map.one_of("stock", {"bar", "blank"}).value_or("");
  way.condition = map.text_or("condition", "");
  if (const Node* list = map.find("iso 513"))
    for (const Node* item : as_list(*list))
      way.groups.push_back(read_text(*item, map.notes(), "P, M, K, N, S or H").value_or(""));
  way.holdings = map.whole("holdings", 1, 2).value_or(0);
  way.fixed_speed = map.one_of("spindle", {"fixed", "surface speed"}).value_or("") == "fixed";
  way.ends_first = map.one_of("order", {"ends first", "end by end"}).value_or("") == "ends first";
  const std::string rule =
      map.one_of("conditions", {"handbook", "least cost", "least time"}).value_or("handbook");
  way.conditions = rule == "least cost"   ? ConditionsRule::least_cost
                   : rule == "least time" ? ConditionsRule::least_time
                                          : ConditionsRule::handbook;
  way.turn_round = map.one_of("pieces", {"turned round", "holding by holding"}).value_or("");
  way.edge_price = map.quantity_or("edge price", unit::money, Amount(0.0));
  way.source = source_of(map);
  return way;
}

}  // namespace turnwright
