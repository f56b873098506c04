// SPDX-License-Identifier: MIT
#pragma once
// How every JSON output begins, writes a number and says a message.
#include <nlohmann/json.hpp>
#include <string>

#include "turnwright/output/json.hpp"
#include "turnwright/quantity/message.hpp"

namespace turnwright {

using Json = nlohmann::ordered_json;

Json json_head(const char* schema);
std::string json_text(const Json& j);

/// Whole numbers without a point, unlimited as null.
Json json_number(double value);
template <Dim D>
Json json_number(Quantity<D> q) {
  return json_number(q.si);
}
/// The end of a key that says the unit of its number: "_m", "_s"; "" for a plain number.
std::string unit_suffix(const Unit& unit);
/// Id, values and the English sentence; null for an empty one.
Json json_message(const Message& message);
Json json_messages(const Messages& messages);

/// A route and its times, as `route` and `quote` give them.
void add_route(Json& j, const Route& route, const RouteTimes& times, const Shop& shop,
               const std::vector<Price>& prices);
/// What a lot costs by and how cost becomes a price, unrounded: the arithmetic of the prices can be
/// done again from it.
void add_lot(Json& j, const Quote& quote, const Shop& shop);
/// What the lot of one price has of its own.
void add_own_lot(Json& j, const Quote& quote, const Price& price);
Json price_json(const Price& price);
/// The methods with their prices, who leads, and the differences.
void add_methods(Json& j, const Comparison& comparison);
/// A difference's total and its causes.
void add_causes(Json& j, const Difference& difference);

}  // namespace turnwright
